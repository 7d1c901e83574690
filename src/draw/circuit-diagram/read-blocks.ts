import type { CircuitDesign, Design } from "../../size/index.ts";
import type { Conductor, InternalElement, System, SystemCircuit, SystemPart } from "../../system/index.ts";
import { partOf } from "../one-line/wire-view.ts";

type Element<Is extends InternalElement["is"]> = Extract<InternalElement, { readonly is: Is }>;
export type ContactElement = Element<"contact">;

/** One function of a circuit from end to end: its conductors in a row, and what stands between them. */
export interface LineRun {
  readonly fn: string;
  readonly conductors: readonly Conductor[];
  /** Terminals of the parts at its ends, on the far side of breakers in its line. */
  readonly from: string;
  readonly to: string;
  /** Poles of the breakers in its line, at its beginning and at its end. */
  readonly before: ContactElement | null;
  readonly after: ContactElement | null;
  /** Parts between its conductors, one after the other. */
  readonly between: readonly string[];
}

/** A circuit of the alternating side, function by function. */
export interface Link {
  readonly circuit: SystemCircuit;
  readonly design: CircuitDesign | null;
  readonly lines: readonly LineRun[];
  /** Parts that all its functions, or a line of it, go through; in their order. */
  readonly inline: readonly string[];
  /** What opens in its line, by the end that it stands at; what stands in the way of a board belongs there. */
  readonly devices: readonly LineDevice[];
}

export interface LineDevice {
  readonly end: "from" | "to";
  readonly kind: "fuse" | "breaker";
  /** A; null: not known. */
  readonly amps: number | null;
  /** The plan does not say it: it was chosen. */
  readonly isProposed: boolean;
}

/** A part with all that lands on it and leaves it. */
export interface Block {
  readonly part: SystemPart;
  readonly inputs: readonly Link[];
  readonly outputs: readonly Link[];
  /** What it holds, without breakers in lines of circuits. */
  readonly inside: readonly InternalElement[];
  /** Nothing leaves it and nothing in it opens: it ends a circuit. */
  readonly isLeaf: boolean;
  /** Where current comes from: it has one circuit out and none in. */
  readonly isSource: boolean;
}

const ORDER = ["L", "L1", "L2", "L3", "N", "PE"];
const CORE = new Set(ORDER);

/** What a terminal such as `CU:2:N` is for: the last of its name. */
export const fnOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);

/** Whether a terminal belongs to a core of alternating current. */
export const isCore = (terminal: string): boolean => CORE.has(fnOf(terminal));

/** A breaker in a line ends on a terminal of its own name. */
function lineTest(circuits: readonly SystemCircuit[]): (e: InternalElement) => e is ContactElement | Element<"join"> {
  const own = new Set(circuits.flatMap(({ id }) => [`${id}:breaker`, `${id}:breaker:to`]));
  return (e): e is ContactElement | Element<"join"> =>
    (e.is === "contact" || e.is === "join") && e.b === e.id && own.has(e.id.slice(0, e.id.lastIndexOf(":")));
}

/**
 * Reads the alternating side as blocks and links, in the order of the plan.
 *
 * @returns parts that no conductor of an alternating circuit touches are not among them
 */
export function readBlocks({
  system,
  design,
}: {
  readonly system: System;
  readonly design: Design;
}): Map<string, Block> {
  const isInLine = lineTest(system.circuits);
  const inLine = new Map(system.elements.flatMap((e) => (isInLine(e) ? [[e.b, e] as const] : [])));
  const parts = new Set(system.parts.map(({ id }) => id));
  const ways = new Set(system.elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.b] : [])));
  const links = system.circuits
    .filter(({ current, conductors }) => current === "AC" && conductors.length > 0)
    .map((circuit): Link => {
      const lines = linesOf(circuit, inLine, parts);
      const designed = design.circuits.find(({ id }) => id === circuit.id) ?? null;
      const inline = [...new Set(lines.flatMap((l) => (l.fn === "PE" ? [] : l.between)))];
      return { circuit, design: designed, lines, inline, devices: devicesOf(circuit, designed, lines, ways) };
    });
  const blocks = new Map<string, Block>();
  for (const part of system.parts) {
    const inputs = links.filter(({ circuit }) => circuit.to.part === part.id);
    const outputs = links.filter(({ circuit }) => circuit.from.part === part.id);
    if (inputs.length + outputs.length === 0) continue;
    const inside = system.elements.filter((e) => e.part === part.id && !isInLine(e));
    const opens = inside.some((e) => e.is === "contact" && isCore(e.a));
    const gives = inside.some((e) => (e.is === "source" && e.from !== "transformer") || (e.is === "converter" && e.outCurrent === "AC")); // prettier-ignore
    blocks.set(part.id, {
      part,
      inputs,
      outputs,
      inside,
      // Metal in the soil or of the craft is drawn at each conductor that ends there.
      isLeaf: outputs.length === 0 && !opens && (inputs.length === 1 || part.traits.electrode === true || part.traits.structure === true), // prettier-ignore
      isSource: gives && inputs.length === 0 && outputs.length === 1 && !opens,
    });
  }
  return blocks;
}

function linesOf(
  { conductors }: SystemCircuit,
  inLine: ReadonlyMap<string, ContactElement | Element<"join">>,
  parts: ReadonlySet<string>,
): LineRun[] {
  const fns = [...new Set(conductors.map(({ fn }) => fn as string))]; // compared with the ends of terminal names
  const rank = (fn: string): number => (ORDER.includes(fn) ? ORDER.indexOf(fn) : ORDER.length);
  return fns
    .sort((a, b) => rank(a) - rank(b))
    .map((fn): LineRun => {
      const own = conductors.filter((c) => c.fn === fn);
      const [from, to] = [own[0]?.from ?? "", own.at(-1)?.to ?? ""];
      const [before, after] = [inLine.get(from), inLine.get(to)];
      return {
        fn,
        conductors: own,
        from: before?.a ?? from,
        to: after?.a ?? to,
        before: before?.is === "contact" ? before : null,
        after: after?.is === "contact" ? after : null,
        between: own.slice(1).map((c) => partOf(c.from, parts) ?? ""),
      };
    });
}

/** One at each end at most: of several at one end the first is drawn, and named. */
function devicesOf(
  circuit: SystemCircuit,
  design: CircuitDesign | null,
  lines: readonly LineRun[],
  ways: ReadonlySet<string>,
): LineDevice[] {
  return (["from", "to"] as const).flatMap((end): LineDevice[] => {
    if (lines.some((l) => ways.has(l[end]))) return [];
    const designed = design?.devices.find((d) => d.end === end);
    if (designed !== undefined)
      return [{ end, kind: designed.kind, amps: designed.ratingA, isProposed: designed.by === "proposed" }];
    const given = typeof circuit.devices === "string" ? undefined : circuit.devices.find((d) => d.end === end);
    const isSetIn = lines.some((l) => (end === "from" ? l.before : l.after) !== null);
    if (given === undefined && !isSetIn) return [];
    const amps = given === undefined || given.rating === "unknown" ? null : given.rating.high;
    return [{ end, kind: given?.kind ?? "breaker", amps, isProposed: false }];
  });
}
