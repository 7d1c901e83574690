import type { RuleSet } from "../ruleset/index.ts";
import type { Judged } from "./model.ts";
import type { Rungs, SetRungs } from "./ladder.ts";

/**
 * One ladder of what every one of several rule sets lets a circuit have: at each rung the lesser ampacity, of the least sizes the larger. Nothing is averaged.
 *
 * How warm the metal gets is told by the set that lets it carry least, for a temperature that a conductor may reach belongs to the table that says so.
 *
 * @param sets each with its ladder of the same sizes; at least one
 */
export function lesserRungs(sets: readonly [SetRungs, ...SetRungs[]]): Rungs {
  const [only] = sets;
  if (sets.length === 1) return only.rungs;
  const all = sets.map((each) => each.rungs);
  const middle = Math.floor(only.rungs.amps.length / 2);
  const heat = all.reduce((least, each) => ((each.amps[middle] ?? 0) < (least.amps[middle] ?? 0) ? each : least));
  const thickest = all.reduce((most, each) => (each.leastByRule > most.leastByRule ? each : most));
  const lesser = (of: (rungs: Rungs) => Float64Array): Float64Array =>
    of(only.rungs).map((_, r) => Math.min(...all.map((rungs) => of(rungs)[r] ?? 0)));
  return {
    ...heat,
    amps: lesser((rungs) => rungs.amps),
    terminalAmps: lesser((rungs) => rungs.terminalAmps),
    steadyAmps: lesser((rungs) => rungs.steadyAmps),
    least: Math.max(...all.map((rungs) => rungs.least)),
    leastByRule: thickest.leastByRule,
    leastSize: thickest.leastSize ?? all.find((rungs) => rungs.leastSize !== null)?.leastSize ?? null,
    untold: all.find((rungs) => rungs.untold !== null)?.untold ?? null,
    bySet: sets,
  };
}

/** Of what each set asks of the same loads, in the same order, the strictest. */
export function strictestJudged(bySet: readonly (readonly Judged[])[]): readonly Judged[] {
  const [first = [], ...others] = bySet;
  if (others.length === 0) return first;
  return first.map((judged, k) =>
    others.reduce((least, list) => {
      const other = list[k];
      return other !== undefined && other.dropVolts < least.dropVolts ? other : least;
    }, judged),
  );
}

/** The set of several that asks for most, by what each comes to. */
export function leastBy<T extends { readonly ruleSet: RuleSet }>(
  sets: readonly T[],
  value: (set: T) => number,
): T | undefined {
  return sets.reduce<T | undefined>(
    (least, each) => (least === undefined || value(each) < value(least) ? each : least),
    undefined,
  );
}
