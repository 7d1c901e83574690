import type { RuleSet } from "./rule-set.ts";

const made = new WeakMap<RuleSet, RuleSet>();

/**
 * A rule set as the alternating-current side of a build sees it: what it says of direct current is replaced by what it says of alternating current, so that
 * whatever sizes a circuit need not ask which side it stands on.
 *
 * @example the same set, whoever asks
 * alternatingSet(isoSmallCraft) === alternatingSet(isoSmallCraft) //=> true
 * alternatingSet(isoSmallCraft).deviceSize.DC === isoSmallCraft.deviceSize.AC //=> true
 */
export function alternatingSet(set: RuleSet): RuleSet {
  let swapped = made.get(set);
  if (swapped === undefined) {
    const { deviceSize, leastSize, deviceDistance } = set;
    const both = ["DC", "AC"] as const;
    const ofAlternating = <T extends { readonly current: readonly ("DC" | "AC")[] }>(cases: readonly T[]): T[] =>
      cases.filter((c) => c.current.includes("AC")).map((c) => ({ ...c, current: both }));
    swapped = {
      ...set,
      ampacity: set.ampacityAC ?? set.ampacity,
      drop: set.dropAC ?? set.drop,
      deviceSize: {
        ...deviceSize,
        DC: deviceSize.AC,
        ...(deviceSize.small === undefined ? {} : { small: { DC: deviceSize.small.AC, AC: deviceSize.small.AC } }),
        // What the law says below its volts is about direct current.
        law: null,
      },
      leastSize: { ...leastSize, cases: ofAlternating(leastSize.cases) },
      deviceDistance: { ...deviceDistance, cases: ofAlternating(deviceDistance.cases) },
    };
    made.set(set, swapped);
  }
  return swapped;
}
