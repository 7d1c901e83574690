import type { FaultPoint } from "./fault-metal.ts";
import type { LaidFaults } from "./lay-faults.ts";
import { solveFault, type EdgeFlow, type FaultPlace, type SolvedFault } from "./solve-fault.ts";

/** When a device opens at a current. */
export interface Opens {
  /** It stays closed until then, s. */
  readonly least: number;
  /** It has opened by then, s; null: nobody can say that it does. */
  readonly most: number | null;
  /** Where it may stay closed: within its rating; above it, but by its standard it may; or nothing is published of it. */
  readonly why: "opens" | "within its rating" | "may stay closed" | "not published";
}

/** A device in an edge. */
export interface Guard {
  readonly edge: number;
  /** End of the edge that it stands at. */
  readonly at: "a" | "b";
  readonly opens: (amps: number) => Opens;
}

/** A current through a device. */
export interface Sight {
  /** Index of the device. */
  readonly device: number;
  readonly amps: number;
  /** Side that the current comes from: the end of the edge at which it enters. */
  readonly from: "a" | "b";
  readonly opens: Opens;
}

/** A device that opens, in the order of their greatest times. */
export interface Opening extends Sight {
  /** Whether every other device that sees the fault certainly stays closed until then. */
  readonly isSure: boolean;
}

/**
 * How a fault ends. cleared: nothing feeds it any more · limited: only sources with a limit go on feeding it · too small: the devices that see it may stay closed ·
 * not proven: nothing is published of when they open · not seen: no device stands between it and a battery · none: no current flows
 */
export type Outcome = "cleared" | "limited" | "too small" | "not proven" | "not seen" | "none";

/** What happens from the first moment of a fault until nothing changes any more. */
export interface Cleared {
  /** Before anything opens. */
  readonly fault: SolvedFault;
  /** Devices that it goes through before anything opens. */
  readonly sees: readonly Sight[];
  readonly opened: readonly Opening[];
  readonly outcome: Outcome;
  /** Until no battery feeds it any more, s; the greatest is null where one may go on. */
  readonly seconds: { readonly low: number; readonly high: number | null };
  /** What goes on flowing where it is not cleared; null: nothing. */
  readonly left: SolvedFault | null;
}

/**
 * Told of every stretch of time in which the currents stand still.
 *
 * @param least s, before which nothing opens
 * @param most s, by which a device has opened; null: none certainly does
 */
export type OnPhase = (flows: readonly EdgeFlow[], least: number, most: number | null) => void;

/** Less than this share of the fault's current feeds nothing. */
const NOTHING = 1e-6;

/**
 * Follows a fault: which device opens first, what still feeds it then, and so on until nothing feeds it or nothing opens.
 *
 * The device with the least greatest opening time is taken to open, and only then; each is taken as cold when the currents change. The greatest time is
 * therefore the sum of the steps, and no device that opens sooner makes it longer.
 *
 * @param at devices by edge
 */
export function clearFault(
  laid: LaidFaults,
  place: FaultPlace,
  guards: readonly Guard[],
  at: readonly (readonly number[] | undefined)[],
  onPhase?: OnPhase,
): Cleared {
  const first = solveFault(laid, place);
  const none: Cleared = {
    fault: first,
    sees: [],
    opened: [],
    outcome: "none",
    seconds: { low: 0, high: 0 },
    left: null,
  };
  if (first.amps === 0) return none;
  const opened: Opening[] = [];
  const cut: number[] = [];
  let fault = first;
  let sees: readonly Sight[] | null = null;
  let now = place;
  let low = 0;
  let high = 0;
  const { isTree } = laid.shape.trees;
  for (let step = 0; step <= guards.length; step++) {
    const sights = sightsOf(fault, guards, at);
    sees ??= sights;
    const next = nextToOpen(sights);
    const stays = sights.reduce((least, s) => Math.min(least, s.opens.least), Infinity);
    if (next === null) {
      onPhase?.(fault.flows, stays, null);
      const outcome = outcomeOf(fault, sights);
      const seconds = { low, high: outcome === "limited" ? high : null };
      return { fault: first, sees, opened, outcome, seconds, left: fault };
    }
    const took = next.opens.most ?? 0;
    onPhase?.(fault.flows, stays, took);
    opened.push(next);
    low = Math.max(low, next.opens.least);
    high += took;
    const guard = guards[next.device];
    if (guard === undefined) break;
    // In a tree, and in a stub, the way that is cut is the only one.
    if (isTree[guard.edge] === 1 || isStub(now, guard.edge)) break;
    now = cutAt(laid, now, guard);
    cut.push(guard.edge);
    fault = solveFault(laid.without(cut), now);
    if (Math.abs(fault.amps) < NOTHING * Math.abs(first.amps)) break;
  }
  return { fault: first, sees: sees ?? [], opened, outcome: "cleared", seconds: { low, high }, left: null };
}

const isStub = ({ plus, minus }: FaultPlace, edge: number): boolean =>
  ("stub" in plus && plus.stub === edge) || ("stub" in minus && minus.stub === edge);

/** The place once a device is open: where that stands in the faulted edge itself, the rest of the edge hangs on its other end. */
function cutAt(laid: LaidFaults, { plus, minus }: FaultPlace, { edge, at }: Guard): FaultPlace {
  const ohms = laid.one.ohms[edge] ?? 0;
  const cut = (point: FaultPoint): FaultPoint => {
    if (!("edge" in point) || point.edge !== edge) return point;
    return at === "a"
      ? { stub: edge, ohms: (1 - point.share) * ohms, on: "b" }
      : { stub: edge, ohms: point.share * ohms, on: "a" };
  };
  return { plus: cut(plus), minus: cut(minus) };
}

function sightsOf(
  fault: SolvedFault,
  guards: readonly Guard[],
  at: readonly (readonly number[] | undefined)[],
): Sight[] {
  const sights: Sight[] = [];
  const least = NOTHING * Math.abs(fault.amps);
  for (const { edge, atA, atB } of fault.flows) {
    for (const device of at[edge] ?? []) {
      const guard = guards[device];
      const through = guard?.at === "a" ? atA : atB;
      const amps = Math.abs(through);
      if (guard === undefined || amps <= least) continue;
      sights.push({ device, amps, from: through > 0 ? "a" : "b", opens: guard.opens(amps) });
    }
  }
  return sights;
}

function nextToOpen(sights: readonly Sight[]): Opening | null {
  let next: Sight | null = null;
  for (const s of sights) {
    if (s.opens.most === null) continue;
    if (next === null || s.opens.most < (next.opens.most ?? Infinity)) next = s;
  }
  if (next === null) return null;
  const by = next.opens.most ?? 0;
  return { ...next, isSure: sights.every((s) => s === next || s.opens.least >= by) };
}

function outcomeOf(fault: SolvedFault, sights: readonly Sight[]): Outcome {
  const least = NOTHING * Math.abs(fault.amps);
  if (!fault.stores.some(({ amps }) => amps > least)) return "limited";
  if (sights.length === 0) return "not seen";
  return sights.some((s) => s.opens.why === "not published") ? "not proven" : "too small";
}
