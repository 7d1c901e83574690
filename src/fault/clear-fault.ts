import type { EdgeFlow } from "./fault-metal.ts";
import type { FaultPlace } from "./find-fault.ts";
import type { LaidFaults } from "./lay-faults.ts";
import { firstToOpen, NOTHING, noteSights, type Guard, type Guards, type Sight } from "./sights.ts";
import { cutAt, isStub, slowestOrder } from "./slowest-order.ts";
import { solveFault, type SolvedFault } from "./solve-fault.ts";

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
  /**
   * Until no battery feeds it any more, s; whichever device opens first. The greatest is null where one may go on: also where devices may open in an order
   * that leaves a current for which none is certain to open. It is worked out when it is first read: who judges a build asks it of few faults.
   */
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

/**
 * Follows a fault: which device opens first, what still feeds it then, and so on until nothing feeds it or nothing opens.
 *
 * The device with the least greatest opening time is taken to open, and only then; each is taken as cold when the currents change. Where another may open
 * before it, what is left may flow longer: the greatest time is that of the slowest order.
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
  if (first.amps === 0) {
    const seconds = { low: 0, high: 0 };
    return { fault: first, sees: [], opened: [], outcome: "none", seconds, left: null };
  }
  const devices = { guards, at };
  const sees = sightsOf(first, devices);
  const opened: Opening[] = [];
  const cut: number[] = [];
  let fault = first;
  let sights = sees;
  let now = place;
  let low = 0;
  let high = 0;
  const { isTree } = laid.shape.trees;
  for (let step = 0; step <= guards.length; step++) {
    const next = firstToOpen(sights);
    const stays = soonest(sights);
    if (next === null) {
      onPhase?.(fault.flows, stays, null);
      const outcome = outcomeOf(fault, sights);
      const seconds = { low, high: outcome === "limited" ? high : null };
      return { fault: first, sees, opened, outcome, seconds, left: fault };
    }
    const { device, amps, from, opens } = next;
    const took = opens.most ?? 0;
    onPhase?.(fault.flows, stays, took);
    opened.push({ device, amps, from, opens, isSure: isSure(sights, next) });
    low = Math.max(low, opens.least);
    high += took;
    const guard = guards[device];
    if (guard === undefined) break;
    // In a tree, and in a stub, the way that is cut is the only one.
    if (isTree[guard.edge] === 1 || isStub(now, guard.edge)) break;
    now = cutAt(laid, now, guard);
    cut.push(guard.edge);
    fault = solveFault(laid.without(cut), now);
    if (Math.abs(fault.amps) < NOTHING * Math.abs(first.amps)) break;
    sights = sightsOf(fault, devices);
  }
  const seconds = opened.every((o) => o.isSure)
    ? { low, high }
    : whenRead(soonest(sees), () => slowestOrder({ laid, devices, first: Math.abs(first.amps) }, place, sees));
  return { fault: first, sees, opened, outcome: "cleared", seconds, left: null };
}

/** A range whose high end is found when it is first read; whenever that is, it is the same. */
export function whenRead<High extends number | null>(
  low: number,
  find: () => High,
): { readonly low: number; readonly high: High } {
  let high: High | undefined;
  return {
    low,
    get high() {
      return high === undefined ? (high = find()) : high;
    },
  };
}

function soonest(sights: readonly Sight[]): number {
  let least = Infinity;
  for (const { opens } of sights) least = Math.min(least, opens.least);
  return least;
}

function sightsOf(fault: SolvedFault, devices: Guards): Sight[] {
  const sights: Sight[] = [];
  const least = NOTHING * Math.abs(fault.amps);
  for (const { edge, atA, atB } of fault.flows) noteSights(devices, edge, atA, atB, least, sights);
  return sights;
}

/** Whether every other device that sees the fault stays closed until one has opened. */
function isSure(sights: readonly Sight[], next: Sight): boolean {
  const by = next.opens.most ?? 0;
  for (const s of sights) if (s !== next && s.opens.least < by) return false;
  return true;
}

function outcomeOf(fault: SolvedFault, sights: readonly Sight[]): Outcome {
  const least = NOTHING * Math.abs(fault.amps);
  if (!fault.stores.some(({ amps }) => amps > least)) return "limited";
  if (sights.length === 0) return "not seen";
  return sights.some((s) => s.opens.why === "not published") ? "not proven" : "too small";
}
