import type { Pairs } from "./pairs.ts";
import type { Core } from "./solve-core.ts";
import type { Held, Pair } from "./standing.ts";

/** Volts lost on the way from a source, and volts at the source; Infinity there: it would have to push more than it can. */
export interface Lost {
  drop: number;
  source: number;
}

/** Finds volts lost in the core; asked thousands of times for each choice of sizes, so it writes what it finds into one and the same place. */
export interface LostToPair {
  /** What was found last. */
  readonly found: Readonly<Lost>;
  /** Between the sources and a pair, when amps are drawn there above what the case has. */
  readonly find: (caseIndex: number, pair: number, extra: number) => void;
}

/**
 * @param sources by case and pair: what its drop is counted from, as they stand now
 * @param overload what would have to push more than it can
 */
export function prepareLost(
  pairs: Pairs,
  core: Core,
  sources: () => readonly (readonly (readonly Pair[])[])[],
  overload: (caseIndex: number, pair: number, extra: number) => Held | null,
): LostToPair {
  const pairPlus = Int32Array.from(pairs.list, (p) => p.plus);
  const pairMinus = Int32Array.from(pairs.list, (p) => p.minus);
  const found: Lost = { drop: 0, source: 0 };
  return {
    found,
    find(j, p, extra) {
      found.drop = 0;
      found.source = 0;
      const volts = core.volts[j];
      const per = core.voltsPerAmp[p];
      const list = sources()[j]?.[p];
      if (volts === undefined || per === undefined || list === undefined) return;
      let high = -Infinity;
      let low = Infinity;
      for (const s of list) {
        high = Math.max(high, (volts[s.plus] ?? 0) + extra * (per[s.plus] ?? 0));
        low = Math.min(low, (volts[s.minus] ?? 0) + extra * (per[s.minus] ?? 0));
      }
      if (high === -Infinity) return;
      // No size of wire is to blame: the chooser passes over it, and it is told apart from volts that are too low.
      if (overload(j, p, extra) !== null) {
        found.source = Infinity;
        return;
      }
      const plus = pairPlus[p] ?? 0;
      const minus = pairMinus[p] ?? 0;
      const up = (volts[plus] ?? 0) + extra * (per[plus] ?? 0);
      const down = (volts[minus] ?? 0) + extra * (per[minus] ?? 0);
      found.drop = high - up + down - low;
      found.source = high - low;
    },
  };
}
