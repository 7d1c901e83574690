import type { Compiled } from "../compile.ts";
import { coordinate } from "../coordinate/index.ts";
import type { Trust } from "../explain/index.ts";
import type { PairMethod, PairVerdict } from "../protect/selectivity/index.ts";
import type { FaultCourse } from "../size/index.ts";
import { deviceLabels } from "./device-label.ts";

/** Two devices in series. */
export interface PairOnPaper {
  /** Nearer to the fault: it alone is to open. */
  readonly downstream: string;
  /** Nearer to the sources. */
  readonly upstream: string;
  /** Nothing stands between the two. */
  readonly isNext: boolean;
  readonly verdict: PairVerdict;
  /** Null: unless selective up to a current. */
  readonly upToA: number | null;
  /** The greatest fault current through the downstream device, and where that fault is. */
  readonly greatestA: number;
  readonly at: string;
  readonly method: PairMethod;
  readonly because: string;
  /** The figure that would tell more; null: none is missing. */
  readonly missing: string | null;
  readonly trust: Trust;
  /** Loads that lose their supply for nothing when the upstream device opens too. */
  readonly lostToo: readonly string[];
}

/** What a fault leaves dark. */
export interface DarkOnPaper {
  readonly circuit: string;
  readonly conductor: string;
  readonly end: "from" | "to";
  readonly outcome: FaultCourse["outcome"];
  /** Devices that part it from every battery, nearest first: the first alone is to open. */
  readonly partedBy: readonly string[];
  /** Loads without supply once that one has opened. */
  readonly dark: readonly string[];
  /** Further devices that may open with it, and the loads that these would leave dark besides. */
  readonly mayOpen: readonly string[];
  readonly mayBeDark: readonly string[];
}

/** A device that feeds others. */
export interface FeederOnPaper {
  readonly device: string;
  readonly ratingA: number;
  /** With all that can run together. Null: not known. */
  readonly demandA: number | null;
  readonly branches: readonly string[];
  /** What the ratings of its branches sum to: no measure of what it carries. */
  readonly branchRatingsA: number;
}

/** Which device opens for which fault. */
export interface CoordinationOnPaper {
  readonly pairs: readonly PairOnPaper[];
  readonly faults: readonly DarkOnPaper[];
  readonly feeders: readonly FeederOnPaper[];
}

/** Coordination of a build with devices by name. */
export function coordinationOnPaper({ settled }: Pick<Compiled, "settled">): CoordinationOnPaper {
  const found = coordinate(settled);
  const label = deviceLabels(found);
  return {
    pairs: found.pairs.map(({ downstream, upstream, isNext, greatest, at, judgement, lostToo }): PairOnPaper => ({
      downstream: label(downstream),
      upstream: label(upstream),
      isNext,
      verdict: judgement.verdict,
      upToA: judgement.upTo,
      greatestA: greatest,
      at,
      method: judgement.method,
      because: judgement.because,
      missing: judgement.missing,
      trust: judgement.trust,
      lostToo,
    })),
    faults: found.faults.map(({ whole, mayOpen, ...fault }): DarkOnPaper => ({
      circuit: fault.circuit,
      conductor: fault.conductor,
      end: fault.end,
      outcome: fault.outcome,
      partedBy: whole.map(label),
      dark: fault.dark,
      mayOpen: mayOpen.map(label),
      mayBeDark: fault.mayBeDark,
    })),
    feeders: found.feeders.map(({ device, rating, demand, branches, branchRatings }): FeederOnPaper => ({
      device: label(device),
      ratingA: rating,
      demandA: demand,
      branches: branches.map(label),
      branchRatingsA: branchRatings,
    })),
  };
}
