import type { CircuitDesign } from "../size/index.ts";

/** What governs a circuit, and how much room it leaves. */
export interface Governing {
  readonly id: string;
  /** Room to its limit as a share of the limit, 0.2: a fifth is free; negative: beyond it; null: it has no figure of this kind. */
  readonly margin: number | null;
  /** What it is and what it may be, in the unit of the constraint: A, V, a share. */
  readonly is: number | null;
  readonly limit: number | null;
  /** The load at which it is so; empty: the circuit itself. */
  readonly about: string;
}

/**
 * The constraint that governs a circuit with its margin: the one that decided its size where a size was chosen, else the tightest of those that are judged.
 *
 * @param bearsShare what shorts let through, of what its conductors bear; null: not told
 */
export function governingOf(circuit: CircuitDesign, bearsShare: number | null): Governing {
  const { decidedBy, constraints } = circuit;
  if (decidedBy !== null) return marginOf(circuit, decidedBy, bearsShare);
  let tightest = nothing(circuit.outcome);
  for (const { id, outcome } of constraints) {
    if (outcome !== "met" && outcome !== "not met") continue;
    const own = marginOf(circuit, id, bearsShare);
    if (own.margin !== null && (tightest.margin === null || own.margin < tightest.margin)) tightest = own;
  }
  return tightest;
}

const nothing = (id: string): Governing => ({ id, margin: null, is: null, limit: null, about: "" });

function marginOf(circuit: CircuitDesign, id: string, bearsShare: number | null): Governing {
  const { steadyA, ampacityA, dropShare, dropLimitShare, devices, loads } = circuit;
  const below = (is: number | null, limit: number | null): Governing =>
    is === null || limit === null || limit <= 0 ? nothing(id) : { id, margin: 1 - is / limit, is, limit, about: "" };
  const above = (is: number | null, limit: number | null, about: string): Governing =>
    is === null || limit === null || limit <= 0 ? nothing(id) : { id, margin: is / limit - 1, is, limit, about };
  const tightest = (list: readonly Governing[]): Governing =>
    list.reduce((a, b) => (b.margin !== null && (a.margin === null || b.margin < a.margin) ? b : a), nothing(id));
  switch (id) {
    case "ampacity":
      return below(steadyA, ampacityA);
    case "drop":
      return below(dropShare, dropLimitShare);
    case "device":
      return tightest(devices.map(({ ratingA, mostA }) => below(ratingA, mostA)));
    case "start":
      return tightest(loads.map(({ part, startVolts, startsAbove }) => above(startVolts, startsAbove, part)));
    case "least-volts":
      return tightest(loads.map(({ part, leastVolts, runsAbove }) => above(leastVolts, runsAbove, part)));
    case "withstand":
      return below(bearsShare, 1);
    default:
      return nothing(id);
  }
}
