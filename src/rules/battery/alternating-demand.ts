import {
  closedInStates,
  inLines,
  lineVolts,
  vaPerAmp,
  type Converter,
  type Draw,
  type GivenState,
  type System,
} from "../../system/index.ts";

/** What hangs on a source of alternating current in a state, as far as it lies on the lines that were followed. Volt-amperes: watts at the power factor that a load states, else at 1. */
export interface OnAlternating {
  readonly part: string;
  readonly isOn: boolean;
  /** What it takes for long; of a charger whose input is not stated, between nothing lost and a fifth. */
  readonly low: number;
  readonly high: number;
  /** While it starts; what it takes for long where it states no start. */
  readonly start: number;
  readonly startSeconds: number;
  /** It takes what it was set to, which the plan does not say: anything up to its greatest. */
  readonly isSet: boolean;
  readonly isUnknown: boolean;
}

/** Of what a charger takes so much may be lost, where its input is not stated: custom of the trade. */
const CHARGER_EFFICIENCY = 0.8;

/** Follows the live conductors of the alternating-current side through what is closed in a state, and through what passes shore power on. */
export type FollowAlternating = (
  from: readonly string[],
  state: GivenState,
  /** Terminals that it does not go back to. */
  not?: ReadonlySet<string>,
) => readonly OnAlternating[];

const put = <T>(into: Map<string, T[]>, key: string, one: T): void => {
  const list = into.get(key);
  if (list === undefined) into.set(key, [one]);
  else list.push(one);
};

const NOWHERE: ReadonlySet<string> = new Set();

interface Link {
  readonly to: string;
  readonly part: string;
  readonly closedIn: readonly string[] | undefined;
  /** From an input of a switch to what it leads to. */
  readonly isOnward: boolean;
}

/** The core that a terminal is of. */
export const coreOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);

/** What a finding calls a moment; of a plan without states it says so. */
export const momentName = ({ id, isImplied }: GivenState): string =>
  isImplied === true ? `${id}, as the plan gives no states` : id;

/** Follows live metal from terminals as far as a state lets it, through what passes a supply on. */
export function walkAlternating(
  system: System,
): (from: readonly string[], state: GivenState, not?: ReadonlySet<string>) => ReadonlySet<string> {
  const passing: { readonly from: string; readonly to: readonly string[] }[] = [];
  const links = new Map<string, Link[]>();
  const link = (a: string, b: string, part: string, closedIn?: readonly string[]): void => {
    put(links, a, { to: b, part, closedIn, isOnward: true });
    put(links, b, { to: a, part, closedIn, isOnward: false });
  };
  for (const { current, conductors } of system.circuits) {
    if (current === "AC") for (const c of conductors) if (c.role === "live") link(c.from, c.to, "");
  }
  const isInLine = inLines(system.circuits);
  const alternating = new Set(system.parts.filter((p) => p.current === "AC").map((p) => p.id));
  for (const e of system.elements) {
    if (e.is === "converter") {
      if (e.passesFrom !== undefined) passing.push({ from: e.passesFrom, to: e.outLines ?? [e.outPlus] });
    } else if (e.is === "source" && e.from === "transformer") {
      const out = Object.entries(e.terminals).flatMap(([fn, t]) => (fn.startsWith("L") ? [t] : []));
      (e.fedBy ?? []).forEach((from, i) => passing.push({ from, to: out.slice(i, i + 1) }));
    } else if (e.is === "join" && alternating.has(e.part)) link(e.a, e.b, e.part);
    else if (e.is === "contact" && (alternating.has(e.part) || isInLine(e))) link(e.a, e.b, e.part, closedInStates(e));
  }
  // Line by line where all its lines come in, else the one that does to all.
  const passes = new Map(
    passing.flatMap(({ from, to }): [string, readonly string[]][] => {
      const port = from.slice(0, from.length - coreOf(from).length);
      const pairs = to.map((out): [string, readonly string[]] => [port + coreOf(out), [out]]);
      return pairs.every(([at]) => links.has(at)) ? pairs : [[from, to]];
    }),
  );
  const first = new Map(system.parts.map((p) => [p.id, p.positions[0]]));
  return (from, state, not = NOWHERE) => {
    const seen = new Set(from);
    for (const at of seen) {
      for (const to of passes.get(at) ?? []) seen.add(to);
      for (const { to, part, closedIn, isOnward } of links.get(at) ?? []) {
        const position = state.positions[part] ?? first.get(part);
        // Without states a switch stands at what the source comes in by.
        const isTurned = state.isImplied === true && isOnward;
        if (not.has(to)) continue;
        if (closedIn === undefined || isTurned || (position !== undefined && closedIn.includes(position))) seen.add(to);
      }
    }
    return seen;
  };
}

export function followAlternating(system: System): FollowAlternating {
  const loads = new Map<string, Draw[]>();
  const chargers = new Map<string, Converter[]>();
  for (const e of system.elements) {
    if (e.is === "draw" && e.current === "AC") for (const line of linesOfDraw(e)) put(loads, line, e);
    else if (e.is === "converter" && e.inCurrent === "AC") for (const line of linesInto(e)) put(chargers, line, e);
  }
  const walk = walkAlternating(system);
  const voltsAt = lineVoltsAt(system);
  // Of what both inverts and charges a person sets how much it charges.
  const inverts = new Set(
    system.elements.flatMap((e) => (e.is === "converter" && e.passesFrom !== undefined ? [e.part] : [])),
  );

  return (from, state, not) => {
    const found = new Map<string, OnAlternating>();
    const note = (one: OnAlternating): void => {
      const other = found.get(one.part);
      found.set(one.part, other === undefined ? one : { ...one, low: one.low + other.low, high: one.high + other.high, start: one.start + other.start }); // prettier-ignore
    };
    for (const at of walk(from, state, not)) {
      for (const draw of loads.get(at) ?? []) {
        const { part, alwaysOn, levels, startSeconds } = draw;
        // It lies evenly on its lines.
        const volts = vaPerAmp(draw) / linesOfDraw(draw).length;
        const watts = (levels[0]?.amps.high ?? 0) * volts;
        const start = levels.find((l) => l.name === "starting")?.amps.high ?? 0;
        note({
          part,
          isOn: alwaysOn || state.on.includes(part),
          low: watts,
          high: watts,
          start: Math.max(watts, start * volts),
          startSeconds: startSeconds.high,
          isSet: false,
          isUnknown: levels[0]?.amps.origin === "unknown",
        });
      }
      for (const charger of chargers.get(at) ?? []) {
        const { part, amps, inputAmps, volts: out } = charger;
        const full =
          inputAmps === undefined
            ? (amps.high * out.high) / linesInto(charger).length
            : inputAmps.high * voltsAt(charger.inPlus);
        const isSet = inputAmps === undefined && inverts.has(part);
        note({
          part,
          isOn: true,
          low: isSet ? 0 : full,
          high: inputAmps === undefined ? full / CHARGER_EFFICIENCY : full,
          start: full,
          startSeconds: 0,
          isSet,
          isUnknown: inputAmps === undefined && amps.origin === "unknown",
        });
      }
    }
    return [...found.values()];
  };
}

/** Volts from a line to neutral at a terminal that a circuit lands on, which a charger takes its stated amps at. */
function lineVoltsAt({ supplies, circuits }: System): (terminal: string) => number {
  const alternating = supplies.filter((s) => s.current === "AC");
  return (terminal) => {
    const own = circuits.find((c) => c.conductors.some((k) => k.from === terminal || k.to === terminal))?.supply;
    const supply = alternating.find((s) => s.id === own) ?? alternating[0];
    return supply === undefined ? 0 : lineVolts(supply.nominal, supply.cores);
  };
}

const linesOfDraw = ({ alternating, plus }: Draw): readonly string[] => alternating?.lines ?? [plus];

/** Live terminals that a charger takes from: one and neutral, or two. */
const linesInto = ({ inPlus, inMinus }: Converter): readonly string[] =>
  coreOf(inMinus) === "N" ? [inPlus] : [inPlus, inMinus];
