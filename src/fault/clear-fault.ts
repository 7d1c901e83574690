import type { EdgeFlow, FaultPoint } from "./fault-metal.ts";
import type { LaidFaults } from "./lay-faults.ts";
import { solveFault, type FaultPlace, type SolvedFault } from "./solve-fault.ts";

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
  /**
   * Until no battery feeds it any more, s; whichever device opens first. The greatest is null where one may go on: also where devices may open in an order
   * that leaves a current for which none is certain to open.
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

/** Less than this share of the fault's current feeds nothing. */
const NOTHING = 1e-6;

/** More sets of opened devices than this are not followed: the greatest time is then not proven. */
const MOST_ORDERS = 24;

const MOST_FIRST = 8;

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
  const seconds = opened.every((o) => o.isSure)
    ? { low, high }
    : { low: soonest(sees ?? []), high: slowestOrder({ laid, guards, at, first }, place, sees ?? []) };
  return { fault: first, sees: sees ?? [], opened, outcome: "cleared", seconds, left: null };
}

const soonest = (sights: readonly Sight[]): number =>
  sights.reduce((least, s) => Math.min(least, s.opens.least), Infinity);

/** What every order of opening is followed with. */
interface Followed {
  readonly laid: LaidFaults;
  readonly guards: readonly Guard[];
  readonly at: readonly (readonly number[] | undefined)[];
  readonly first: SolvedFault;
}

/** Seconds until no battery feeds a fault any more, by the slowest order in which its devices may open; null: in one of them it may go on. */
function slowestOrder({ laid, guards, at, first }: Followed, place: FaultPlace, sees: readonly Sight[]): number | null {
  const took = nextToOpen(sees)?.opens.most ?? 0;
  // So many that may be first have more orders than are followed.
  if (sees.filter(({ opens }) => opens.least < took).length > MOST_FIRST) return null;
  const { isTree } = laid.shape.trees;
  // By the devices that are open, in one order: what is left does not ask which of them was first.
  const known = new Map<string, number | null>();
  const after = (open: readonly number[], now: FaultPlace): number | null => {
    const key = [...open].sort((a, b) => a - b).join();
    const found = known.get(key);
    if (found !== undefined) return found;
    if (known.size >= MOST_ORDERS) return null;
    const edges = open.flatMap((d) => guards[d]?.edge ?? []);
    const fault = solveFault(laid.without(edges), now);
    const seconds =
      Math.abs(fault.amps) < NOTHING * Math.abs(first.amps) ? 0 : from(fault, sightsOf(fault, guards, at), open, now);
    known.set(key, seconds);
    return seconds;
  };
  const from = (
    fault: SolvedFault,
    sights: readonly Sight[],
    open: readonly number[],
    now: FaultPlace,
  ): number | null => {
    const next = nextToOpen(sights);
    if (next === null) return outcomeOf(fault, sights) === "limited" ? 0 : null;
    const took = next.opens.most ?? 0;
    let rest = 0;
    for (const { device, opens } of sights) {
      const guard = guards[device];
      if (guard === undefined || (device !== next.device && opens.least >= took)) continue;
      if (isTree[guard.edge] === 1 || isStub(now, guard.edge)) continue;
      const more = after([...open, device], cutAt(laid, now, guard));
      if (more === null) return null;
      rest = Math.max(rest, more);
    }
    return took + rest;
  };
  return from(first, sees, [], place);
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
