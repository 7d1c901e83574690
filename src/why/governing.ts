import type { CircuitDesign } from "../size/index.ts";

/** What governs a circuit, and how much room it leaves. */
export interface Governing {
  readonly id: string;
  /** Room to its limit as a share of the limit, 0.2: a fifth is free; negative: beyond it; null: it has no figure of this kind. */
  readonly margin: number | null;
}

/**
 * The constraint that governs a circuit with its margin: the one that decided its size where a size was chosen, else the tightest of those that are judged.
 *
 * @param bearsShare what shorts let through, of what its conductors bear; null: not told
 */
export function governingOf(circuit: CircuitDesign, bearsShare: number | null): Governing {
  const { decidedBy, constraints } = circuit;
  if (decidedBy !== null) return { id: decidedBy, margin: marginOf(circuit, decidedBy, bearsShare) };
  let tightest: Governing = { id: circuit.outcome, margin: null };
  for (const { id, outcome } of constraints) {
    if (outcome !== "met" && outcome !== "not met") continue;
    const margin = marginOf(circuit, id, bearsShare);
    if (margin !== null && (tightest.margin === null || margin < tightest.margin)) tightest = { id, margin };
  }
  return tightest;
}

function marginOf(circuit: CircuitDesign, id: string, bearsShare: number | null): number | null {
  const { steadyA, ampacityA, dropShare, dropLimitShare, devices, loads } = circuit;
  const least = (list: readonly number[]): number | null => (list.length === 0 ? null : Math.min(...list));
  switch (id) {
    case "ampacity":
      return steadyA === null || ampacityA === null || ampacityA <= 0 ? null : 1 - steadyA / ampacityA;
    case "drop":
      return dropShare === null || dropLimitShare === null ? null : 1 - dropShare / dropLimitShare;
    case "device":
      return least(
        devices.flatMap(({ ratingA, mostA }) =>
          ratingA === null || mostA === null || mostA <= 0 ? [] : [1 - ratingA / mostA],
        ),
      );
    case "start":
      return least(
        loads.flatMap(({ startVolts, startsAbove }) =>
          startVolts === null || startsAbove === null || startsAbove <= 0 ? [] : [startVolts / startsAbove - 1],
        ),
      );
    case "least-volts":
      return least(
        loads.flatMap(({ leastVolts, runsAbove }) =>
          runsAbove === null || runsAbove <= 0 ? [] : [leastVolts / runsAbove - 1],
        ),
      );
    case "withstand":
      return bearsShare === null ? null : 1 - bearsShare;
    default:
      return null;
  }
}
