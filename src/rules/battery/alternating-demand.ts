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
export type FollowAlternating = (from: readonly string[], state: GivenState, volts: number) => readonly OnAlternating[];

export function followAlternating(system: System): FollowAlternating {
  const loads = new Map<string, Draw[]>();
  const chargers = new Map<string, Converter[]>();
  const passes = new Map<string, readonly string[]>();
  const put = <T>(into: Map<string, T[]>, key: string, one: T): void => {
    const list = into.get(key);
    if (list === undefined) into.set(key, [one]);
    else list.push(one);
  };
  const links = new Map<string, { to: string; part: string; closedIn: readonly string[] | undefined }[]>();
  const link = (a: string, b: string, part: string, closedIn?: readonly string[]): void => {
    put(links, a, { to: b, part, closedIn });
    put(links, b, { to: a, part, closedIn });
  };
  for (const { current, conductors } of system.circuits) {
    if (current === "AC") for (const c of conductors) if (c.role === "live") link(c.from, c.to, "");
  }
  const isInLine = inLines(system.circuits);
  const alternating = new Set(system.parts.filter((p) => p.current === "AC").map((p) => p.id));
  for (const e of system.elements) {
    if (e.is === "draw" && e.current === "AC") put(loads, e.plus, e);
    else if (e.is === "converter") {
      if (e.inCurrent === "AC") put(chargers, e.inPlus, e);
      if (e.passesFrom !== undefined) passes.set(e.passesFrom, e.outLines ?? [e.outPlus]);
    } else if (e.is === "join" && alternating.has(e.part)) link(e.a, e.b, e.part);
    else if (e.is === "contact" && (alternating.has(e.part) || isInLine(e))) link(e.a, e.b, e.part, closedInStates(e));
  }
  // Of what both inverts and charges a person sets how much it charges.
  const inverts = new Set(
    system.elements.flatMap((e) => (e.is === "converter" && e.passesFrom !== undefined ? [e.part] : [])),
  );
  const first = new Map(system.parts.map((p) => [p.id, p.positions[0]]));

  return (from, state, volts) => {
    const seen = new Set(from);
    const found: OnAlternating[] = [];
    for (const at of seen) {
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
      for (const to of passes.get(at) ?? []) seen.add(to);
      for (const { to, part, closedIn } of links.get(at) ?? []) {
        const position = state.positions[part] ?? first.get(part);
        if (closedIn === undefined || (position !== undefined && closedIn.includes(position))) seen.add(to);
      }
    }
    return [...new Map(found.map((f) => [f.part, f])).values()];
  };
}
