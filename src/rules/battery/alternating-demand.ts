import {
  closedInStates,
  inLines,
  type Converter,
  type Draw,
  type GivenState,
  type System,
} from "../../system/index.ts";

/** What hangs on a source of alternating current in a state. Watts at power factor 1. */
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
  volts: number,
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

/** What a finding calls a moment; of a plan without states it says so. */
export const momentName = ({ id, isImplied }: GivenState): string =>
  isImplied === true ? `${id}, as the plan gives no states` : id;

/** Whether a supply from outside gives in a state: plugged in, or running. In a plan without states each has its turn. */
export function givesIn(state: GivenState, part: string, { elements }: System): boolean {
  if (state.isImplied === true || state.on.includes(part)) return true;
  const sources = elements.flatMap((e) => (e.is === "source" && e.from !== "transformer" ? [e] : []));
  const isShore = (from: string): boolean => from === "shore";
  // Where nothing is plugged in, `shore` stands for the generator.
  const first = sources.find((e) => isShore(e.from)) ?? sources[0];
  return state.shore && (first?.part === part || sources.some((e) => e.part === part && isShore(e.from)));
}

/** Follows live metal from terminals as far as a state lets it, through what passes a supply on. */
export function walkAlternating(
  system: System,
): (from: readonly string[], state: GivenState, not?: ReadonlySet<string>) => ReadonlySet<string> {
  const passes = new Map<string, readonly string[]>();
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
      if (e.passesFrom !== undefined) passes.set(e.passesFrom, e.outLines ?? [e.outPlus]);
    } else if (e.is === "join" && alternating.has(e.part)) link(e.a, e.b, e.part);
    else if (e.is === "contact" && (alternating.has(e.part) || isInLine(e))) link(e.a, e.b, e.part, closedInStates(e));
  }
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
    if (e.is === "draw" && e.current === "AC") put(loads, e.plus, e);
    else if (e.is === "converter" && e.inCurrent === "AC") put(chargers, e.inPlus, e);
  }
  const walk = walkAlternating(system);
  // Of what both inverts and charges a person sets how much it charges.
  const inverts = new Set(
    system.elements.flatMap((e) => (e.is === "converter" && e.passesFrom !== undefined ? [e.part] : [])),
  );

  return (from, state, volts, not) => {
    const found: OnAlternating[] = [];
    for (const at of walk(from, state, not)) {
      for (const { part, alwaysOn, levels, atVolts, startSeconds } of loads.get(at) ?? []) {
        const watts = (levels[0]?.amps.high ?? 0) * atVolts;
        const start = levels.find((l) => l.name === "starting")?.amps.high ?? 0;
        found.push({
          part,
          isOn: alwaysOn || state.on.includes(part),
          low: watts,
          high: watts,
          start: Math.max(watts, start * atVolts),
          startSeconds: startSeconds.high,
          isSet: false,
          isUnknown: levels[0]?.amps.origin === "unknown",
        });
      }
      for (const { part, amps, inputAmps, volts: out } of chargers.get(at) ?? []) {
        const full = inputAmps === undefined ? amps.high * out.high : inputAmps.high * volts;
        const isSet = inputAmps === undefined && inverts.has(part);
        found.push({
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
    return [...new Map(found.map((f) => [f.part, f])).values()];
  };
}
