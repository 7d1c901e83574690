import type { EarthFault } from "./study-earth-faults-shapes.ts";
import type { Positions } from "./study-earth-faults-ways.ts";

/** A fault by one way, and what movers stand at along it. */
export interface FaultByWay {
  readonly fault: EarthFault;
  readonly positions: Positions;
}

/**
 * Whether a way need not be judged: another of less impedance is there whenever it is, and whatever opens that one opens this one too. Both then carry the
 * fault together, and no state has this one alone: so the two halves of a ring.
 */
export function isCovered({ fault, positions }: FaultByWay, other: FaultByWay): boolean {
  if (other.fault === fault || (other.fault.zsHot ?? Infinity) >= (fault.zsHot ?? Infinity)) return false;
  const isThere = Object.entries(other.positions).every(([mover, within]) =>
    positions[mover]?.every((position) => within.includes(position)),
  );
  const opensBoth = (ofOther: readonly number[], own: readonly number[]): boolean =>
    ofOther.every((d) => own.includes(d));
  return isThere && opensBoth(other.fault.devices, fault.devices) && opensBoth(other.fault.residual, fault.residual);
}

const RANK = { "too late": 3, "cannot tell": 2, "in time": 1, "not asked": 0 } as const;

/** The gravest of some ways, with the others beside it: by what comes of it, then the one that needs its loop, then the greatest loop. */
export function gravest(faults: readonly FaultByWay[]): EarthFault | null {
  const [first, ...rest] = [...faults].sort(
    ({ fault: a }, { fault: b }) =>
      RANK[b.outcome] - RANK[a.outcome] ||
      Number(a.isResidualInTime) - Number(b.isResidualInTime) ||
      (b.zsHot ?? 0) - (a.zsHot ?? 0),
  );
  if (first === undefined) return null;
  if (rest.length === 0) return first.fault;
  return { ...first.fault, stands: first.positions, otherWays: rest.map(({ fault }) => fault) };
}
