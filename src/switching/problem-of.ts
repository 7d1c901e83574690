import type { InternalElement, SystemPart } from "../system/index.ts";
import { countingMetal, type DirectMaker } from "./direct-makers.ts";
import { ledThrough, nameMetal, type NamedMetal } from "./name-metal.ts";
import { moverBook, type MoverBook } from "./mover-book.ts";
import type { ProblemContact, ProblemSource, ProblemTaker, SwitchingProblem } from "./problem.ts";
import type { SwitchedSystem } from "./switched-system.ts";

type Element<K extends InternalElement["is"]> = Extract<InternalElement, { readonly is: K }>;
type Converter = Element<"converter">;

/** A problem with the terminals of each of its nodes. */
export interface NamedProblem {
  readonly problem: SwitchingProblem;
  readonly terminals: readonly (readonly string[])[];
}

/**
 * Lays a system out for the study of positions: all of its alternating side, and of its direct side what leads to a maker of alternating current.
 *
 * An inverter lives by batteries, and by other makers of direct current where there is none; ignores how the sun or an engine comes and goes. What may keep
 * it up while its battery is off stands in `aside`.
 */
export function problemOf(system: SwitchedSystem): NamedProblem {
  const metal = nameMetal(system);
  const { counts, makers, aside } = countingMetal(system, metal);
  const book = moverBook(system, metal.nodeOf);
  const at = (terminal: string): boolean => counts(metal.nodeOf(terminal));
  const nameOf = namesOf(system.parts);
  const contacts: ProblemContact[] = [];
  const places = new Map<string, number>();
  const through = ledThrough(system.elements);
  for (const e of system.elements) {
    if (e.is === "join" && through.has(e.id) && at(e.a)) {
      places.set(e.id, contacts.length);
      contacts.push({ id: e.id, part: e.part, a: metal.nodeOf(e.a), b: metal.nodeOf(e.b), closed: null });
    }
    if (e.is !== "contact" || !at(e.a)) continue;
    const closed = e.closedIn === undefined ? null : book.set(e.mover ?? e.part, e.closedIn);
    places.set(e.id, contacts.length);
    contacts.push({ id: e.id, part: e.part, a: metal.nodeOf(e.a), b: metal.nodeOf(e.b), closed });
  }
  const sources: ProblemSource[] = [];
  const takers: ProblemTaker[] = [];
  const joins = [...metal.joins];
  for (const e of system.elements) {
    if (e.is === "source") {
      const byNeutral = isJoinedByNeutral(e, system, metal);
      sources.push({ ...sourceOf(e, metal, book, nameOf), ...(byNeutral ? { joinedByNeutral: true } : {}) });
    }
    if (e.is === "store" && at(e.plus)) sources.push(storeOf(e, metal, book, nameOf));
    if (e.is === "converter" && e.inCurrent === "DC" && e.outCurrent === "AC") {
      sources.push(inverterOf(e, metal, book, nameOf));
    }
    if (e.is === "converter" && e.inCurrent === "AC") takers.push(chargerOf(e, metal, book, nameOf));
    if (e.is === "draw" && e.alternating !== undefined) takers.push(loadOf(e, e.alternating, metal, nameOf));
    if (e.is === "earth join") {
      joins.push({
        id: e.id,
        name: nameOf(e.part),
        part: e.part,
        neutral: metal.nodeOf(e.neutral),
        earth: metal.nodeOf(e.earth),
        closed:
          e.closedIn === "unknown"
            ? "unknown"
            : e.closedIn === undefined
              ? null
              : book.set(e.mover ?? e.part, e.closedIn),
      });
    }
  }
  for (const e of makers) sources.push(makerOf(e, metal, book, nameOf));
  const guards = system.elements.flatMap((e) => {
    if (e.is !== "residual guard") return [];
    const opened = e.contacts.flatMap((c) => places.get(c) ?? []);
    // One whose contacts lie where nothing alternates guards nothing here.
    if (opened.length === 0 && e.contacts.length > 0) return [];
    const led = (e.through ?? []).flatMap((j) => places.get(j) ?? []);
    return [{ id: e.id, name: nameOf(e.part), part: e.part, contacts: [...opened, ...led] }];
  });
  const pins = system.parts.flatMap((p) => {
    const poles = p.traits.plug !== true ? [] : contactsOf(system, p.id);
    const lines = poles.filter(({ b }) => !isNeutral(b)).map(({ b }) => metal.nodeOf(b));
    return lines.length === 0 ? [] : [{ id: p.id, lines, plugged: book.set(p.id, ["in"]) }];
  });
  const interlocks = (system.interlocks ?? []).map(({ id, never }) => ({
    id,
    name: id,
    never: never.map((n) => book.set(n.mover, n.in)),
  }));
  return {
    problem: {
      nodes: metal.nodes,
      metal: [],
      movers: book.movers(),
      contacts,
      sources,
      joins,
      guards,
      takers,
      interlocks,
      ...(pins.length === 0 ? {} : { pins }),
      ...(aside.length === 0
        ? {}
        : { aside: aside.map((e) => ({ ...makerOf(e, metal, book, nameOf), fedBy: [], gives: null })) }),
    },
    terminals: metal.terminals,
  };
}

/** The poles of a plug: a breaker in the line of a circuit there is a contact of its part too, with a mover of its own. */
const contactsOf = ({ elements }: SwitchedSystem, part: string): Element<"contact">[] =>
  elements.flatMap((e) => (e.is === "contact" && e.part === part && e.mover === undefined ? [e] : []));

type NameOf = (part: string) => string;

const namesOf = (parts: readonly SystemPart[]): NameOf => {
  const names = new Map(parts.map((p) => [p.id, p.name]));
  return (part) => names.get(part) ?? part;
};

/** Another terminal of the same place, where something lands on it. */
function beside(terminal: string, fn: string, metal: NamedMetal): number | null {
  const name = `${terminal.slice(0, terminal.lastIndexOf(":"))}:${fn}`;
  return metal.isWired(name) ? metal.nodeOf(name) : null;
}

const isNeutral = (terminal: string): boolean => terminal.endsWith(":N");

const nodeOrNull = (terminal: string | undefined, metal: NamedMetal): number | null =>
  terminal !== undefined && metal.isWired(terminal) ? metal.nodeOf(terminal) : null;

const THREE = { L1: 0, L2: 240, L3: 120 } as const;
const SPLIT = { L: 0, L1: 0, L2: 180 } as const;

function linesAt(
  terminals: readonly string[],
  metal: NamedMetal,
  inPhase: boolean | "unknown" = false,
): ProblemSource["lines"] {
  const fns = terminals.map((t) => t.slice(t.lastIndexOf(":") + 1));
  const angles: Readonly<Record<string, number>> = fns.includes("L3") ? THREE : SPLIT;
  return terminals.map((t, i) => {
    const angle = inPhase === true ? 0 : inPhase === "unknown" && i > 0 ? null : (angles[fns[i] ?? ""] ?? null);
    return { node: metal.nodeOf(t), angle };
  });
}

function sourceOf(e: Element<"source">, metal: NamedMetal, book: MoverBook, nameOf: NameOf): ProblemSource {
  const { N, PE } = e.terminals;
  const lines = Object.entries(e.terminals).flatMap(([fn, t]) => (fn.startsWith("L") ? [t] : []));
  return {
    id: e.id,
    name: nameOf(e.part),
    part: e.part,
    kind: e.from,
    lines: linesAt(lines, metal),
    neutral: N === undefined ? null : metal.nodeOf(N),
    earth: PE === undefined ? null : metal.nodeOf(PE),
    fedBy: (e.fedBy ?? []).map(metal.nodeOf),
    gives: e.givesIn === undefined ? null : book.set(e.mover ?? e.part, e.givesIn),
    joined: e.joined,
    joinStays: e.from !== "shore",
    addsToSupply: false,
    passes: false,
    direct: null,
  };
}

/** The sets of houses by the start of what a plan names, in any of the ways in which it may be written. */
const OF_BUILDINGS = /^\s*(?:us|iec)[\s_\u2010-\u2015\u2212-]+cabin(?!\p{L})/iu;

/** Whether a supply leaves the earth of a building to be joined to the neutral that it brings (PEN, TN-C-S); in a boat or a vehicle that neutral would send current through water and chassis. */
function isJoinedByNeutral(e: Element<"source">, { parts, supplies }: SwitchedSystem, metal: NamedMetal): boolean {
  const { PE } = e.terminals;
  if (e.from !== "shore" || e.joined !== true || e.earthedApart === true) return false;
  if (PE !== undefined && metal.isWired(PE)) return false;
  const part = parts.find((p) => p.id === e.part);
  return OF_BUILDINGS.test(part?.rules ?? supplies?.find((s) => s.id === part?.supply)?.rules ?? "");
}

function storeOf(e: Element<"store">, metal: NamedMetal, book: MoverBook, nameOf: NameOf): ProblemSource {
  const { continuousAmps, peakAmps } = e.unit;
  // Whatever management states what it lets through can also let through nothing, at any time.
  const isManaged = continuousAmps !== undefined || peakAmps !== undefined;
  return {
    id: e.id,
    name: nameOf(e.part),
    part: e.part,
    kind: "store",
    lines: [{ node: metal.nodeOf(e.plus), angle: null }],
    neutral: metal.nodeOf(e.minus),
    earth: null,
    fedBy: [],
    gives: isManaged ? book.implied(`${e.id}:management`, e.part, ["closed", "open"], "outside", ["closed"]) : null,
    joined: false,
    joinStays: false,
    addsToSupply: false,
    passes: false,
    direct: null,
  };
}

/** Like a battery to what it feeds; a converter gives while it is fed. */
function makerOf(e: DirectMaker, metal: NamedMetal, book: MoverBook, nameOf: NameOf): ProblemSource {
  const [plus, minus] = e.is === "feed" ? [e.plus, e.minus] : [e.outPlus, e.outMinus];
  const moves = e.is === "converter" ? e.worksIn : undefined;
  return {
    id: `${e.id}:direct`,
    name: nameOf(e.part),
    part: e.part,
    kind: "store",
    lines: [{ node: metal.nodeOf(plus), angle: null }],
    neutral: nodeOrNull(minus, metal),
    earth: null,
    fedBy: e.is === "converter" ? [e.inPlus, e.inMinus].map(metal.nodeOf) : [],
    gives: moves === undefined ? null : book.set((e.is === "converter" ? e.mover : undefined) ?? e.part, moves),
    joined: false,
    joinStays: false,
    addsToSupply: false,
    passes: false,
    direct: null,
  };
}

function inverterOf(e: Converter, metal: NamedMetal, book: MoverBook, nameOf: NameOf): ProblemSource {
  const lines = e.outLines ?? [e.outPlus, ...(isNeutral(e.outMinus) ? [] : [e.outMinus])];
  const direct = { plus: metal.nodeOf(e.inPlus), minus: metal.nodeOf(e.inMinus) };
  return {
    id: e.id,
    name: nameOf(e.part),
    part: e.part,
    kind: "inverter",
    lines: linesAt(lines, metal, e.linesInPhase),
    neutral: isNeutral(e.outMinus) ? metal.nodeOf(e.outMinus) : beside(e.outPlus, "N", metal),
    earth: nodeOrNull(e.earth, metal) ?? beside(e.outPlus, "PE", metal),
    fedBy: [direct.plus, direct.minus],
    gives:
      e.worksIn === undefined
        ? book.implied(e.id, e.part, ["off", "on"], "hand", ["on"])
        : book.set(e.mover ?? e.part, e.worksIn),
    joined: false,
    joinStays: false,
    addsToSupply: e.addsToSupply ?? false,
    passes: e.passesFrom !== undefined,
    direct,
  };
}

function chargerOf(e: Converter, metal: NamedMetal, book: MoverBook, nameOf: NameOf): ProblemTaker {
  return {
    id: e.id,
    name: nameOf(e.part),
    part: e.part,
    kind: "charger",
    lines: [e.inPlus, ...(isNeutral(e.inMinus) ? [] : [e.inMinus])].map(metal.nodeOf),
    neutral: isNeutral(e.inMinus) ? metal.nodeOf(e.inMinus) : null,
    earth: beside(e.inPlus, "PE", metal) ?? nodeOrNull(e.earth, metal),
    takes: e.worksIn === undefined ? null : book.set(e.mover ?? e.part, e.worksIn),
    direct: { plus: metal.nodeOf(e.outPlus), minus: metal.nodeOf(e.outMinus) },
  };
}

function loadOf(
  e: Element<"draw">,
  { lines, neutral, earth }: NonNullable<Element<"draw">["alternating"]>,
  metal: NamedMetal,
  nameOf: NameOf,
): ProblemTaker {
  // A circuit may bring fewer lines than its supply has.
  const wired = lines.filter(metal.isWired);
  return {
    id: e.id,
    name: nameOf(e.part),
    part: e.part,
    kind: "load",
    lines: (wired.length > 0 ? wired : lines.slice(0, 1)).map(metal.nodeOf),
    neutral: nodeOrNull(neutral, metal),
    earth: nodeOrNull(earth, metal),
    takes: null,
    direct: null,
  };
}
