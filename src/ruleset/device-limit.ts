import { deviceFamily, isDeviceFamilyId } from "../device/index.ts";
import type { Citation } from "../explain/index.ts";
import { amps, type Amps, type Volts } from "../quantity/index.ts";
import type { ConductorMake, Metal, WireSize } from "../wire/index.ts";
import { isNoThinner } from "./compare-conductors.ts";

/** Which current a circuit carries. */
export type CurrentKind = "DC" | "AC";

/** Ratings that a set itself calls standard, ascending. */
export interface StandardRatings {
  readonly breakers: readonly Amps[];
  readonly fuses: readonly Amps[];
}

/** How far a device may exceed the ampacity of its conductor. */
export interface DeviceSizeRule {
  /** Up to the ampacity, or the next standard rating above it when none fits. */
  readonly upTo: "ampacity" | "next rating up";
  /** Greatest next rating, as a multiple of the ampacity; 1 where there is no next rating up, null where the set names no multiple. */
  readonly ceiling: number | null;
  /** No next rating up above this, A. */
  readonly nextUpTo?: Amps;
  /** The list that the next rating up is taken from; absent: what is on sale of the family. */
  readonly standard?: StandardRatings;
  readonly source: Citation;
}

/** A law that allows more than the standard that decides; it is printed beside it. */
export interface LawLine extends DeviceSizeRule {
  /** Nominal volts below which it allows the ceiling outright, whatever the standard ratings. */
  readonly outrightBelow: Volts;
  /** At and above those volts. */
  readonly otherwise: Citation;
}

/** The greatest device of a small conductor, whatever its ampacity. */
export interface SmallConductor {
  readonly metal: Metal;
  readonly size: WireSize;
  /** Null: from this size on there is none. */
  readonly upTo: Amps | null;
  readonly source: Citation;
}

/** Devices that open late: those of a family, from a rating on, may be no more than the ampacity ÷ divisor. */
export interface LateOpening {
  readonly family: string;
  readonly from: Amps;
  readonly divisor: number;
  readonly source: Citation;
}

/** Device against conductor, for each kind of current. */
export interface DeviceSizeRules {
  readonly DC: DeviceSizeRule;
  readonly AC: DeviceSizeRule;
  /** Small conductors, by metal, thinnest first; absent: the set has no such list. */
  readonly small?: { readonly DC: readonly SmallConductor[]; readonly AC: readonly SmallConductor[] };
  /** By rating, ascending; absent: every device may go up to the ampacity. */
  readonly late?: readonly LateOpening[];
  /** A device is sure to open by so many times the ampacity; absent: the set does not ask when it opens. */
  readonly opensBy?: number;
  readonly law: LawLine | null;
}

/** What a protective device is compared with. */
export interface DeviceLimit {
  /** Greatest rating that may protect the conductor. */
  readonly upTo: Amps;
  /** Whether the conductor's own ampacity is the end, or the next standard rating above it. */
  readonly by: "ampacity" | "next rating up" | "small conductor" | "opens late";
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
  /** Ratings on sale of the family, ascending; none: it is not one device, and nothing stands above the ampacity. */
  readonly ratings: readonly Amps[];
  /** Of the device, where it is known. */
  readonly family?: string | null;
  /** What `smallConductor` says of the conductor; none where left out. */
  readonly small?: SmallConductor | null;
}

/** The ampacity, or the first rating above it where no rating equals it and the ceiling lets it through. */
function limitOf(
  rule: DeviceSizeRule,
  ampacity: Amps,
  { ratings, family = null }: Pick<DeviceLimitInput, "ratings" | "family">,
): Pick<DeviceLimit, "upTo" | "by"> {
  if (rule.upTo === "next rating up" && ratings.length > 0) {
    const isBreaker = family !== null && isDeviceFamilyId(family) && deviceFamily(family).kind === "breaker";
    const next = (rule.standard?.[isBreaker ? "breakers" : "fuses"] ?? ratings).find((rating) => rating >= ampacity);
    if (
      next !== undefined &&
      next > ampacity &&
      (rule.ceiling === null || next <= rule.ceiling * ampacity) &&
      next <= (rule.nextUpTo ?? Infinity)
    ) {
      return { upTo: next, by: rule.upTo };
    }
  }
  return { upTo: ampacity, by: "ampacity" };
}

/**
 * The entry of a set's list of small conductors that holds for one: its own size, the next thinner one listed, the thinnest for anything below.
 *
 * @returns null where the set has no list, and for conductors that are not small
 */
export function smallConductor(
  rules: DeviceSizeRules,
  current: CurrentKind,
  make: ConductorMake,
): SmallConductor | null {
  const list = (rules.small?.[current] ?? []).filter(({ metal }) => metal === make.metal);
  const found = list.findLast(({ size }) => isNoThinner(make, size, "class B")) ?? list[0];
  return found === undefined || found.upTo === null ? null : found;
}

/** What a family that opens late may be rated at most; null where it does not. */
function lateLimit(
  late: readonly LateOpening[],
  family: string | null,
  ampacity: Amps,
): (LateOpening & { upTo: Amps }) | null {
  const steps = late.filter((each) => each.family === family);
  for (let i = steps.length - 1; i >= 0; i--) {
    const step = steps[i];
    if (step === undefined) continue;
    const most = ampacity / step.divisor;
    // Below its own first rating a step says nothing; the one before goes no further than that.
    if (most >= step.from || i === 0) return { ...step, upTo: amps(Math.min(most, steps[i + 1]?.from ?? Infinity)) };
  }
  return null;
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
  const { ampacity, ampacityUnbundled = ampacity, current, nominal, family = null, small = null } = given;
  const rule = rules[current];
  const { law } = rules;
  let beside: DeviceLimit["law"] = null;
  if (law !== null) {
    beside =
      nominal < law.outrightBelow
        ? { upTo: amps((law.ceiling ?? 1) * ampacityUnbundled), source: law.source }
        : { upTo: limitOf(law, ampacity, given).upTo, source: law.otherwise };
  }
  const late = lateLimit(rules.late ?? [], family, ampacity);
  if (late !== null) return { upTo: late.upTo, by: "opens late", source: late.source, law: beside };
  const found = limitOf(rule, ampacity, given);
  if (small !== null && small.upTo !== null && small.upTo < found.upTo) {
    return { upTo: small.upTo, by: "small conductor", source: small.source, law: beside };
  }
  return { ...found, source: rule.source, law: beside };
}
