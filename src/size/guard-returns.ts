import type { Model } from "./model.ts";
import type { Draft, PlacedDevice } from "./placed-device.ts";

/** What guards a return that is a circuit of its own. */
export interface ReturnGuard {
  /** Devices ahead of all that it brings back. */
  readonly guards: readonly PlacedDevice[];
  /** Circuits that they, or the devices that it answers for, stand in. */
  readonly guardedBy: readonly string[];
  /** Amps that its size answers for whatever else the rule set allows; 0: it has a device ahead. */
  readonly answersFor: number;
  readonly unknown: boolean;
}

const NOTHING: ReturnGuard = { guards: [], guardedBy: [], answersFor: 0, unknown: false };

/**
 * Tells what guards each return that is a circuit of its own: the device of the circuit that it belongs to, as it guards the return of a pair; of several loads the
 * device ahead of them all, or else the sum of those ahead of each. One that joins the minus of a battery on which several conductors stand carries back what a fault sends
 * through it until the largest device there opens.
 *
 * @returns by position; null: it is no return
 */
export function guardReturns(model: Model, drafts: readonly Draft[]): (ReturnGuard | null)[] {
  const { grid, circuits } = model;
  const largestAt = new Map<number, Draft>();
  const ratingOf = ({ devices }: Draft): number => Math.max(0, ...devices.map((d) => d.rating ?? 0));
  for (const d of drafts) {
    for (const { end, rating } of d.devices) {
      const there = largestAt.get(d.node[end]);
      if (there === undefined || (rating ?? 0) > ratingOf(there)) largestAt.set(d.node[end], d);
    }
  }
  return drafts.map((d) => {
    if (d.edge.from >= 0) return null;
    const lead = drafts[d.c.returnOf];
    if (lead !== undefined && (lead.devices.length > 0 || lead.answersFor > 0 || lead.unknown)) {
      const { devices, answersFor, unknown } = lead;
      return { guards: devices, guardedBy: [lead.c.circuit.id], answersFor, unknown };
    }
    const found = ofLoads(d, drafts);
    if (found !== NOTHING || lead !== undefined) return found;
    let answersFor = 0;
    let by: string | null = null;
    for (const e of d.c.edges) {
      for (const { plus, minus } of grid.stores) {
        const largest = largestAt.get(plus);
        if (largest === undefined || (minus !== grid.edges[e]?.a && minus !== grid.edges[e]?.b)) continue;
        if (ratingOf(largest) <= answersFor) continue;
        answersFor = ratingOf(largest);
        by = circuits[largest.c.position]?.circuit.id ?? null;
      }
    }
    return by === null ? NOTHING : { ...NOTHING, answersFor, guardedBy: [by] };
  });
}

/** The device ahead of all the loads of a return, or the sum of those ahead of each. */
function ofLoads({ c }: Draft, drafts: readonly Draft[]): ReturnGuard {
  const covered = new Set<number>();
  const ahead: Draft[] = [];
  for (const { position, loads } of c.bringsBack) {
    const draft = drafts[position];
    if (draft === undefined || loads.some((l) => covered.has(l))) continue;
    if (draft.devices.length === 0 && draft.answersFor === 0 && !draft.unknown) continue;
    ahead.push(draft);
    for (const l of loads) covered.add(l);
  }
  const [first] = ahead;
  if (first === undefined) return NOTHING;
  const guardedBy = ahead.map((d) => d.c.circuit.id);
  const unknown = ahead.some((d) => d.unknown);
  if (ahead.length === 1 && covered.size === c.returns)
    return { guards: first.devices, guardedBy, answersFor: first.answersFor, unknown };

  // Each lets through what the least of its devices does.
  const passes = ({ devices, answersFor }: Draft): number =>
    devices.length === 0 ? answersFor : Math.min(...devices.map((d) => d.rating ?? Infinity));
  const sum = ahead.reduce((amps, d) => amps + (Number.isFinite(passes(d)) ? passes(d) : 0), 0);
  return { guards: [], guardedBy, answersFor: sum, unknown };
}
