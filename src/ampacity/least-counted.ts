import type { AmpacityRules } from "../ruleset/index.ts";

/** Metres of a stretch, where they are known. */
interface Long {
  readonly lengthM?: { readonly low?: number; readonly high: number };
}

/**
 * What a run of several stretches may carry: the least of them, but for short ones that its rule set lets be passed over because the rest carries their heat away.
 *
 * Counts the short ones as long as they may be and the whole as short as it may be; a stretch of no known length is passed over by no set.
 *
 * @param values of the stretches, in their order; A
 * @returns the least that counts; Infinity for no stretch
 * @source the rule set's own clause, `shortStretch`
 * @example half a metre of 20 m through a hot attic leaves the 55 A of the rest
 * leastCounted({ upTo: 3, share: 0.1 }, [40, 55], [{ lengthM: { high: 0.5 } }, { lengthM: { high: 19.5 } }]) //=> 55
 */
export function leastCounted(
  rule: AmpacityRules["shortStretch"],
  values: ArrayLike<number>,
  stretches: readonly Long[],
): number {
  let least = Infinity;
  for (let i = 0; i < values.length; i++) least = Math.min(least, values[i] ?? Infinity);
  if (rule === null || stretches.length < 2) return least;
  let whole = 0;
  for (const { lengthM } of stretches) whole += lengthM === undefined ? 0 : (lengthM.low ?? lengthM.high);
  const most = Math.min(rule.upTo, rule.share * whole);
  let passed = 0;
  // All that carry as little are passed over together, or none.
  while (Number.isFinite(least)) {
    let next = Infinity;
    for (let i = 0; i < values.length; i++) {
      const value = values[i] ?? Infinity;
      if (value === least) passed += stretches[i]?.lengthM?.high ?? Infinity;
      else if (value > least) next = Math.min(next, value);
    }
    // Where nothing may flow nothing is passed over.
    if (next === Infinity || least === 0 || passed > most * (1 + 1e-9)) return least;
    least = next;
  }
  return least;
}
