import type { FaultPoint } from "./fault-metal.ts";
import { ampsAtEnd, findFault, storeAmps, throughCore, voltsDuring, type FaultPlace } from "./find-fault.ts";
import { keyOfSet } from "./key-of-set.ts";
import type { LaidFaults } from "./lay-faults.ts";
import { firstToOpen, NOTHING, noteSights, type Guard, type Guards, type Sight } from "./sights.ts";

/** More sets of opened devices than this are not followed: the greatest time is then not proven. */
const MOST_ORDERS = 24;

/** The same of devices that may be first. */
const MOST_FIRST = 8;

/** What every order of opening is followed with. */
export interface Followed {
  readonly laid: LaidFaults;
  readonly devices: Guards;
  /** A, through the fault before anything opens. */
  readonly first: number;
}

/** Seconds until no battery feeds a fault any more, by the slowest order in which its devices may open; null: in one of them it may go on. */
export function slowestOrder(
  { laid, devices, first }: Followed,
  place: FaultPlace,
  sees: readonly Sight[],
): number | null {
  const took = firstToOpen(sees)?.opens.most ?? 0;
  // So many that may be first have more orders than are followed.
  let may = 0;
  for (const { opens } of sees) if (opens.least < took) may++;
  if (may > MOST_FIRST) return null;
  const { guards } = devices;
  const { isTree } = laid.shape.trees;
  // By the devices that are open: what is left does not ask which of them was first.
  const known = new Map<number | string, number | null>();
  const after = (open: readonly number[], now: FaultPlace): number | null => {
    const key = keyOfSet(open, guards.length);
    const found = known.get(key);
    if (found !== undefined) return found;
    if (known.size >= MOST_ORDERS) return null;
    const edges = open.map((d) => guards[d]?.edge ?? -1);
    const sights: Sight[] = [];
    const left = glance(laid.without(edges), now, devices, sights);
    const seconds = left === null || left.amps < NOTHING * first ? 0 : from(left.isFed, sights, open, now);
    known.set(key, seconds);
    return seconds;
  };
  const from = (isFed: boolean, sights: readonly Sight[], open: readonly number[], now: FaultPlace): number | null => {
    const next = firstToOpen(sights);
    if (next === null) return isFed ? null : 0;
    const by = next.opens.most ?? 0;
    let rest = 0;
    for (const s of sights) {
      if (s !== next && s.opens.least >= by) continue;
      const guard = guards[s.device];
      if (guard === undefined || isTree[guard.edge] === 1 || isStub(now, guard.edge)) continue;
      const more = after([...open, s.device], cutAt(laid, now, guard));
      if (more === null) return null;
      rest = Math.max(rest, more);
    }
    return by + rest;
  };
  return from(true, sees, [], place);
}

/** What is asked of a fault on the way: its current, whether a battery feeds it, and into `sights` which devices see it; null: it draws nothing. */
function glance(
  laid: LaidFaults,
  place: FaultPlace,
  devices: Guards,
  sights: Sight[],
): { readonly amps: number; readonly isFed: boolean } | null {
  const found = findFault(laid, place, 0);
  const amps = Math.abs(found?.amps ?? 0);
  if (found === null || !(amps > 0)) return null;
  const least = NOTHING * amps;
  const { coreEdges, ports } = laid.shape;
  const volts = voltsDuring(laid, found);
  for (const { edge, atA, atB } of found.plus.way)
    noteSights(devices, edge, found.amps * atA, found.amps * atB, least, sights);
  for (const { edge, atA, atB } of found.minus.way)
    noteSights(devices, edge, -found.amps * atA, -found.amps * atB, least, sights);
  for (let k = 0; k < coreEdges.length; k++) {
    const edge = coreEdges[k] ?? 0;
    if (devices.at[edge] === undefined) continue;
    const through = throughCore(laid, found, volts, k);
    const atA = ampsAtEnd(found, edge, through, "a");
    noteSights(devices, edge, atA, ampsAtEnd(found, edge, through, "b"), least, sights);
  }
  let isFed = false;
  for (let s = 0; s < ports.stores.length && !isFed; s++) isFed = (storeAmps(laid, found, volts, s) ?? 0) > least;
  return { amps, isFed };
}

/** Whether a place hangs on a stub of an edge. */
export const isStub = ({ plus, minus }: FaultPlace, edge: number): boolean =>
  ("stub" in plus && plus.stub === edge) || ("stub" in minus && minus.stub === edge);

/** The place once a device is open: where that stands in the faulted edge itself, the rest of the edge hangs on its other end. */
export function cutAt(laid: LaidFaults, { plus, minus }: FaultPlace, { edge, at }: Guard): FaultPlace {
  const ohms = laid.one.ohms[edge] ?? 0;
  const cut = (point: FaultPoint): FaultPoint => {
    if (!("edge" in point) || point.edge !== edge) return point;
    return at === "a"
      ? { stub: edge, ohms: (1 - point.share) * ohms, on: "b" }
      : { stub: edge, ohms: point.share * ohms, on: "a" };
  };
  return { plus: cut(plus), minus: cut(minus) };
}
