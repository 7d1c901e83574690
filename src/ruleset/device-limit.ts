import type { Citation } from "../explain/index.ts";
import { amps, type Amps, type Volts } from "../quantity/index.ts";

/** Which current a circuit carries. */
export type CurrentKind = "DC" | "AC";

/** How far a device may exceed the ampacity of its conductor. */
export interface DeviceSizeRule {
  /** Up to the ampacity, or the next standard rating above it when none fits. */
  readonly upTo: "ampacity" | "next rating up";
  /** Greatest next rating, as a multiple of the ampacity; 1 where there is no next rating up. */
  readonly ceiling: number;
  readonly source: Citation;
}

/** A law that allows more than the standard that decides; it is printed beside it. */
export interface LawLine extends DeviceSizeRule {
  /** Nominal volts below which it allows the ceiling outright, whatever the standard ratings. */
  readonly outrightBelow: Volts;
  /** At and above those volts. */
  readonly otherwise: Citation;
}

/** Device against conductor, for each kind of current. */
export interface DeviceSizeRules {
  readonly DC: DeviceSizeRule;
  readonly AC: DeviceSizeRule;
  readonly law: LawLine | null;
}

/** What a protective device is compared with. */
export interface DeviceLimit {
  /** Greatest rating that may protect the conductor. */
  readonly upTo: Amps;
  /** Whether the conductor's own ampacity is the end, or the next standard rating above it. */
  readonly by: "ampacity" | "next rating up";
  readonly source: Citation;
  /** What the law alone would allow; never decides. */
  readonly law: { readonly upTo: Amps; readonly source: Citation } | null;
}

/** A conductor and what could protect it. */
export interface DeviceLimitInput {
  /** After every correction, at the worst stretch; ≥ 0. */
  readonly ampacity: Amps;
  /** The same before the bundle factor, which the law does not count below 50 V; the ampacity where left out. */
  readonly ampacityUnbundled?: Amps;
  readonly current: CurrentKind;
  /** Nominal volts of the system. */
  readonly nominal: Volts;
  /** Standard ratings on offer, ascending. */
  readonly ratings: readonly Amps[];
}

/** The ampacity, or the first rating above it where no rating equals it and the ceiling lets it through. */
function limitOf(rule: DeviceSizeRule, ampacity: Amps, ratings: readonly Amps[]): Pick<DeviceLimit, "upTo" | "by"> {
  if (rule.upTo === "next rating up") {
    const next = ratings.find((rating) => rating >= ampacity);
    if (next !== undefined && next > ampacity && next <= rule.ceiling * ampacity) return { upTo: next, by: rule.upTo };
  }
  return { upTo: ampacity, by: "ampacity" };
}

/**
 * Greatest device that may protect a conductor against overload.
 *
 * Ignores motors, whose devices may be larger behind an overload relay, and cranking circuits, which need none.
 *
 * @param rules `deviceSize` of a rule set
 * @returns `upTo` in A: a rating is fit when it is not above it
 * @source the rule set's own clause, in the result
 * @example a conductor of 28 A: the next standard rating is 30 A, within one and a half times
 * const rule = { upTo: "next rating up", ceiling: 1.5, source: cite("abyc-e-11", "11.10", "article") }
 * deviceLimit({ DC: rule, AC: rule, law: null }, { ampacity: amps(28), current: "DC", nominal: volts(12), ratings: [amps(20), amps(25), amps(30)] }).upTo //=> 30
 */
export function deviceLimit(rules: DeviceSizeRules, given: DeviceLimitInput): DeviceLimit {
  const { ampacity, ampacityUnbundled = ampacity, current, nominal, ratings } = given;
  const rule = rules[current];
  const { law } = rules;
  let beside: DeviceLimit["law"] = null;
  if (law !== null) {
    beside =
      nominal < law.outrightBelow
        ? { upTo: amps(law.ceiling * ampacityUnbundled), source: law.source }
        : { upTo: limitOf(law, ampacity, ratings).upTo, source: law.otherwise };
  }
  return { ...limitOf(rule, ampacity, ratings), source: rule.source, law: beside };
}
