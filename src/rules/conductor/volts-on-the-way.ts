import type { CircuitModel, JudgedWorst, Settled } from "../../size/index.ts";
import { runOhms } from "../../size/index.ts";
import type { InternalElement, Value } from "../../system/index.ts";
import type { Build, CircuitView, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { wireNeeded } from "../wire-needed.ts";

/** What volts at the end of a circuit rest on and is not known. */
export interface Doubt {
  /** Wires of which nothing is known: no volts can be told. */
  readonly wires: readonly Needed[];
  /** Lengths and currents of which nothing is known: the volts lost are at least those computed. */
  readonly more: readonly Needed[];
  /** Lengths that are ranges, and the most volts that their lower ends could save. */
  readonly ranges: readonly Needed[];
  readonly savesVolts: number;
}

const NONE: Doubt = { wires: [], more: [], ranges: [], savesVolts: 0 };

interface Prepared {
  readonly worst: (readonly JudgedWorst[] | undefined)[];
  readonly doubts: (Doubt | undefined)[];
  readonly views: readonly (CircuitView | undefined)[];
  readonly core: Doubt;
}

const prepared = new WeakMap<Settled, Prepared>();

function prepare(build: Build): Prepared {
  let found = prepared.get(build.settled);
  if (found === undefined) {
    const views: (CircuitView | undefined)[] = build.settled.model.circuits.map(() => undefined);
    let core = NONE;
    for (const view of build.circuits) {
      if (view.model === null) continue;
      views[view.model.position] = view;
      // A charger's own cable is on nobody's way from a bank.
      if (!view.model.radial && view.model.charging === null) core = both(core, ownDoubt(build, view));
    }
    found = { worst: [], doubts: [], views, core };
    prepared.set(build.settled, found);
  }
  return found;
}

/** How what hangs at the end of a circuit stands at its worst, worked out once. */
export function worstOf(build: Build, c: CircuitModel): readonly JudgedWorst[] {
  const { worst } = prepare(build);
  return (worst[c.position] ??= build.settled.weigher.worst(c));
}

/** What is not known of a circuit and of those on the way to it. */
export function doubtOnTheWay(build: Build, c: CircuitModel): Doubt {
  const { doubts, views, core } = prepare(build);
  const known = doubts[c.position];
  if (known !== undefined) return known;
  const view = views[c.position];
  const back = views[c.back];
  const alone = view === undefined ? NONE : ownDoubt(build, view);
  const own = back === undefined ? alone : both(alone, ownDoubt(build, back));
  const parent = build.settled.model.circuits[c.parent];
  const above = !c.radial ? core : parent === undefined ? core : doubtOnTheWay(build, parent);
  return (doubts[c.position] = c.radial || c.charging !== null ? both(above, own) : above);
}

const both = (a: Doubt, b: Doubt): Doubt =>
  a === NONE
    ? b
    : b === NONE
      ? a
      : {
          wires: [...a.wires, ...b.wires],
          more: [...a.more, ...b.more],
          ranges: [...a.ranges, ...b.ranges],
          savesVolts: a.savesVolts + b.savesVolts,
        };

function ownDoubt(build: Build, view: CircuitView): Doubt {
  const { circuit, subject, run, model, design } = view;
  const { lengthM } = run;
  const wires = circuit.size === "unknown" ? [wireNeeded(view, `the wire of ${view.id}`)] : [];
  const more = lengthM.origin === "unknown" ? [needed(`the length of ${view.id}`, subject)] : [];
  const isRange = lengthM.origin === "given" && lengthM.low < lengthM.high;
  if (wires.length + more.length === 0 && !isRange) return NONE;
  if (!isRange || model?.rungs === null || model === null || !Number.isFinite(lengthM.high))
    return { wires, more, ranges: [], savesVolts: 0 };
  const amps = design.steadyA ?? 0;
  const ohms = runOhms(model.rungs, build.settled.chosen.rungs[model.position] ?? 0, amps);
  const outAndBack = model.shares.reduce((sum, s) => sum + s, 0);
  return {
    wires,
    more,
    ranges: [needed(`the length of ${view.id}`, subject)],
    savesVolts: amps * ohms * outAndBack * (1 - lengthM.low / lengthM.high),
  };
}

/** What of the parts nobody knows, looked up once for a build. */
interface Unknowns {
  /** By part. */
  readonly amps: ReadonlyMap<string, Needed>;
  /** The first contact whose resistance nobody knows. */
  readonly joint: Needed | null;
}

const unknowns = new WeakMap<Build, Unknowns>();

function unknownsOf(build: Build): Unknowns {
  const known = unknowns.get(build);
  if (known !== undefined) return known;
  const amps = new Map<string, Needed>();
  let joint: Needed | null = null;
  for (const element of build.system.elements) {
    const value = valueOf(element);
    if (value?.origin !== "unknown") continue;
    const { part } = element;
    const about = build.part(part)?.subject ?? `parts.${part}`;
    if (element.is === "contact") joint ??= needed(`the resistance inside ${part}`, about);
    else if (!amps.has(part))
      amps.set(part, needed(element.is === "draw" ? `what ${part} takes` : `the output of ${part}`, about));
  }
  const found = { amps, joint };
  unknowns.set(build, found);
  return found;
}

function valueOf(element: InternalElement): Value | undefined {
  switch (element.is) {
    case "draw":
      return element.levels[0]?.amps;
    case "converter":
    case "feed":
      return element.amps;
    case "contact":
      return element.ohms;
    default:
      return undefined;
  }
}

/** Whether the current of any part, or the resistance of any joint, is a thing that nobody knows. */
export const hasUnknowns = (build: Build): boolean =>
  unknownsOf(build).amps.size > 0 || unknownsOf(build).joint !== null;

/** The current of a part where nobody knows it: what a load takes while it runs, what a source gives. */
export const unknownAmps = (build: Build, part: string): Needed | null => unknownsOf(build).amps.get(part) ?? null;

/**
 * The joint that holds a charging source down in the reckoning, though nobody knows its resistance: with a good joint it would give all it can.
 */
export function heldDown(build: Build, c: CircuitView): Needed | null {
  const { joint } = unknownsOf(build);
  if (joint === null || c.model === null || c.model.charging === null) return null;
  const amps = sourceAmps(build, c);
  return amps === null || (c.design.steadyA ?? 0) >= 0.99 * amps ? null : joint;
}

/** The most that the source at the start of a charging circuit gives. */
export function sourceAmps(build: Build, { circuit }: CircuitView): number | null {
  for (const element of build.part(circuit.from.part)?.elements ?? [])
    if (element.is === "feed" || element.is === "converter") return element.amps.high;
  return null;
}

/** Facts that are missing, as said of a thing: its own without its name. */
export const saidOf = (subject: Subject, needs: readonly Needed[]): readonly Needed[] =>
  needs.map((n) =>
    n.about === subject.path ? { ...n, fact: n.fact.replace(/^the (wire|length) of .*$/, "its $1") } : n,
  );

/** A load's current where it is a range: its least as a share of its most, else 1. */
export function leastShareOfAmps(build: Build, part: string): number {
  const draw = build.part(part)?.elements.find((e) => e.is === "draw");
  const amps = draw?.levels[0]?.amps;
  return amps === undefined || amps.origin === "unknown" || !(amps.high > 0) ? 1 : Math.max(0, amps.low / amps.high);
}
