import type { AcBranch, AcElement, AcLoad, AcSource } from "../network/alternating/index.ts";
import type { Draw, Fn, Supply, System } from "../system/index.ts";
import type { AlternatingWires, WireAt } from "./study-alternating-wires.ts";
import type { AlternatingMoment } from "./study-alternating-shape.ts";
import { isClosed, isFed, isIn, type Positions } from "./study-alternating-positions.ts";

/** A source of the network, and what it stands for. */
export interface LaidSource {
  readonly id: string;
  readonly part: string;
  readonly from: "shore" | "generator" | "transformer" | "inverter";
  readonly nominal: number;
  /** Terminal aboard of each of its lines, in their order; and of its return. */
  readonly terminals: readonly string[];
  readonly neutral: string;
  /** Branches of its supply lead, those of the lines first. */
  readonly lead: { readonly lines: readonly string[]; readonly back: string } | null;
  readonly phaseAssumed: boolean;
  /** Near side of a transformer, by line: where what it gives is taken. */
  readonly takesAt: readonly (readonly [string, string])[];
}

export interface LaidLoad {
  readonly id: string;
  readonly part: string;
  readonly between: readonly [string, string];
  readonly nominal: number;
  readonly powerFactor: number;
  readonly powerFactorStated: boolean;
}

export interface LaidJoin {
  readonly id: string;
  readonly part: string;
  readonly where: "aboard" | "with the source";
  /** Its branch; null: nobody says when it is closed, and it is left out. */
  readonly branch: string | null;
}

export interface LaidConductor extends WireAt {
  readonly branch: string;
}

/** One moment of a build as a network, with what its elements stand for. */
export interface LaidMoment {
  readonly elements: readonly AcElement[];
  readonly conductors: readonly LaidConductor[];
  readonly sources: readonly LaidSource[];
  readonly loads: readonly LaidLoad[];
  readonly joins: readonly LaidJoin[];
}

/** Where a line of each function stands against the first, degrees. */
const turnOf = (fn: string, isThree: boolean): number => (fn === "L2" ? (isThree ? -120 : 180) : fn === "L3" ? 120 : 0);

const fnOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);
const withFn = (terminal: string, fn: Fn): string => terminal.slice(0, terminal.lastIndexOf(":") + 1) + fn;

/** Lays the alternating side of a build out as it stands in a moment. */
export function layMoment(
  system: System,
  wires: AlternatingWires,
  { on }: Pick<AlternatingMoment, "on">,
  state: { readonly positions: Positions },
  standing: Positions,
): LaidMoment {
  const elements: AcElement[] = [];
  const sources: LaidSource[] = [];
  const loads: LaidLoad[] = [];
  const joins: LaidJoin[] = [];
  const branch = (id: string, a: string, b: string, ohms = 0, reactance = 0): string => {
    const made: AcBranch = { kind: "branch", id, a, b, ohms, reactance };
    elements.push(made);
    return id;
  };
  const conductors = wires.conductors.map((w): LaidConductor => ({
    ...w,
    branch: branch(`wire ${w.id}`, w.from, w.to, w.ohms, w.reactance),
  }));
  const touched = new Set(wires.conductors.flatMap(({ from, to }) => [from, to]));
  const alternating = new Set(system.parts.filter((p) => p.current === "AC").map((p) => p.id));
  const isHere = (a: string, b: string): boolean => !/:([+−]|pole)$/.test(a) && !/:([+−]|pole)$/.test(b);
  for (const e of system.elements) {
    if (e.is === "join" && isHere(e.a, e.b)) branch(`join ${e.id}`, e.a, e.b);
    else if (e.is === "contact" && isHere(e.a, e.b)) {
      if (isClosed(system, e, state, standing)) branch(`contact ${e.id}`, e.a, e.b, e.ohms.high);
    } else if (e.is === "earth join") {
      const closed = e.closedIn === "unknown" ? null : isIn({ part: e.part, mover: e.mover, positions: standing }, e.closedIn); // prettier-ignore
      if (closed !== false)
        joins.push({ id: e.id, part: e.part, where: "aboard", branch: closed === null ? null : branch(`earth join ${e.id}`, e.neutral, e.earth) }); // prettier-ignore
    } else if (
      e.is === "source" &&
      isIn({ part: e.part, mover: e.mover, positions: standing }, e.givesIn) &&
      isFed(system, standing, e)
    ) {
      // prettier-ignore
      const ends = Object.entries(e.terminals);
      const lines = ends.filter(([fn]) => fn !== "N" && fn !== "PE").map(([, t]) => t);
      const earth = e.terminals.PE;
      const lead = e.from === "shore" ? wires.leads.get(e.part) : undefined;
      const far = (t: string): string => (lead === undefined ? t : `${t} ashore`);
      const leadOf = (t: string): string => branch(`lead ${t}`, far(t), t, lead?.ohms ?? 0, lead?.reactance ?? 0);
      const back = e.terminals.N ?? lines[1];
      const first = lines[0];
      if (back === undefined || first === undefined) continue;
      const given = e.terminals.N === undefined ? [first] : lines;
      const isThree = lines.length === 3;
      const limit = e.gives === undefined || e.gives === "unknown" ? {} : e.gives.unit === "A" ? { lineAmps: e.gives.value.low } : { ratedVA: e.gives.value.low }; // prettier-ignore
      const laid: AcSource = {
        kind: "source",
        id: e.id,
        neutral: far(back),
        lines: given.map((t) => ({ node: far(t), volts: e.volts, degrees: turnOf(fnOf(t), isThree) })),
        // What is stated is the way out and back; the way back of a loop is earth, which is no wider than a neutral. It is found at the inlet, so a lead that is stated too is a part of it: then the
        // lead alone counts, and the site stands at its nominal volts.
        ohms: lead !== undefined || e.loopOhms === undefined || e.loopOhms === "unknown" ? 0 : e.loopOhms.high,
        reactance: 0,
        ...limit,
      };
      elements.push(laid);
      if (earth !== undefined && lead !== undefined) leadOf(earth);
      sources.push({
        id: e.id,
        part: e.part,
        from: e.from,
        nominal: e.volts,
        terminals: given,
        neutral: back,
        lead: lead === undefined ? null : { lines: given.map(leadOf), back: leadOf(back) },
        phaseAssumed: false,
        takesAt: takenAt(e.fedBy ?? [], wires),
      });
      if (e.joined === true && e.earthedApart !== true && e.terminals.N !== undefined && earth !== undefined)
        joins.push({ id: `${e.id}:N–PE`, part: e.part, where: "with the source", branch: branch(`earth join ${e.id}`, far(e.terminals.N), far(earth)) }); // prettier-ignore
    } else if (
      e.is === "converter" &&
      e.outCurrent === "AC" &&
      isIn({ part: e.part, mover: e.mover, positions: standing }, e.worksIn)
    ) {
      // prettier-ignore
      const lines = e.outLines ?? [e.outPlus];
      const supply = wires.supplyAt(lines[0] ?? "");
      const neutral = withFn(e.outPlus, "N");
      const hasNeutral = touched.has(neutral) || supply?.cores.includes("N") === true;
      const back = hasNeutral ? neutral : e.outMinus;
      const given = hasNeutral ? lines : [e.outPlus];
      const volts = nominalBetween(supply, given[0] ?? "", back);
      const together = e.linesInPhase === true;
      elements.push({
        kind: "source",
        id: e.id,
        neutral: back,
        lines: given.map((node) => ({ node, volts, degrees: together ? 0 : turnOf(fnOf(node), lines.length === 3) })),
        ohms: 0,
        reactance: 0,
        // Its rating, as the bank is asked for it.
        ratedVA: e.amps.low * e.volts.low,
      });
      sources.push({ id: e.id, part: e.part, from: "inverter", nominal: volts, terminals: given, neutral: back, lead: null, phaseAssumed: given.length === 2 && typeof e.linesInPhase !== "boolean", takesAt: [] }); // prettier-ignore
    } else if (
      e.is === "converter" &&
      e.inCurrent === "AC" &&
      isIn({ part: e.part, mover: e.mover, positions: standing }, e.worksIn)
    ) {
      // prettier-ignore
      const nominal = nominalBetween(wires.supplyAt(e.inPlus), e.inPlus, e.inMinus);
      const va =
        e.inputAmps === undefined ? (e.amps.high * e.volts.high) / e.efficiency.low : e.inputAmps.high * nominal;
      put({ id: e.id, part: e.part, between: [e.inPlus, e.inMinus], nominal, powerFactor: 1, powerFactorStated: false }, { va }); // prettier-ignore
    } else if (e.is === "draw" && e.current === "AC" && alternating.has(e.part)) {
      if (e.alwaysOn || on.includes(e.part)) layDraw(e);
    }
  }
  return { elements, conductors, sources, loads, joins };

  function put(load: LaidLoad, law: { readonly va: number } | { readonly amps: number }): void {
    loads.push(load);
    const { id, between, powerFactor, nominal } = load;
    const laid: AcLoad = { kind: "load", id, a: between[0], b: between[1], law: { ...law, powerFactor, volts: nominal } }; // prettier-ignore
    elements.push(laid);
  }

  function layDraw(e: Draw): void {
    const lines = e.alternating?.lines ?? [e.plus];
    const neutral = e.alternating === undefined ? e.minus : e.alternating.neutral;
    const factor = e.alternating?.powerFactor;
    const stated = factor !== undefined && factor !== "unknown";
    const powerFactor = stated ? factor.low : 1;
    const amps = e.levels[0]?.amps.high ?? 0;
    const [first, second, third] = lines;
    const pairs: (readonly [string, string])[] =
      neutral !== undefined
        ? lines.map((line) => [line, neutral] as const)
        : first === undefined || second === undefined
          ? []
          : third === undefined
            ? [[first, second]]
            : [[first, second], [second, third], [third, first]]; // prettier-ignore
    const each = pairs.length === 3 && neutral === undefined ? amps / Math.sqrt(3) : amps;
    for (const [a, b] of pairs) {
      const nominal = nominalBetween(wires.supplyAt(a), a, b);
      const id = pairs.length === 1 ? e.id : `${e.id}:${fnOf(a)}`;
      const law = e.law === "amps" ? { amps: each } : { va: each * nominal };
      put({ id, part: e.part, between: [a, b], nominal, powerFactor, powerFactorStated: stated }, law);
    }
  }
}

/** Line and neutral, or two lines, of each line of a near side. */
function takenAt(lines: readonly string[], wires: AlternatingWires): (readonly [string, string])[] {
  const [first, second] = lines;
  if (first === undefined) return [];
  if (wires.supplyAt(first)?.cores.includes("N") === true) return lines.map((t) => [t, withFn(t, "N")] as const);
  return second === undefined ? [] : [[first, second]];
}

/** Volts that the supply has between two of its terminals. */
function nominalBetween(supply: Supply | undefined, a: string, b: string): number {
  const nominal = supply?.nominal ?? 0;
  const lines = supply?.cores.filter((fn) => fn !== "N" && fn !== "PE").length ?? 1;
  const toNeutral = fnOf(a) === "N" || fnOf(b) === "N";
  if (!toNeutral || lines < 2) return nominal;
  return lines === 2 ? nominal / 2 : nominal / Math.sqrt(3);
}
