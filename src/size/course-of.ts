import type { Cleared, Sight, SolvedFault } from "../fault/index.ts";
import type { Grid } from "../system/index.ts";
import type { Contribution, FaultCourse, FaultDevice, SeenBy } from "./fault-study.ts";
import type { FaultSources } from "../fault/index.ts";

/**
 * What each source pushes into a fault, the most first; what pushes less than a thousandth is left out, and so is what flows on other metal whether or not there is a
 * fault here: an alternator that charges a battery behind a converter.
 *
 * @param isNear whether a node is one piece of metal with the fault
 */
export function contributionsOf(
  fault: SolvedFault,
  sources: FaultSources,
  isNear: (node: number | undefined) => boolean,
): Contribution[] {
  const list: Contribution[] = [];
  const { ports } = sources;
  const add = (part: string | undefined, plus: number | undefined, amps: number): void => {
    if (part !== undefined && isNear(plus) && amps > 1e-3 * Math.abs(fault.amps)) list.push({ part, amps });
  };
  for (const { store, amps } of fault.stores) add(sources.stores[store]?.part, ports.stores[store]?.plus, amps);
  for (const { limited, amps } of fault.limited)
    add(sources.limited[limited]?.part, ports.limited[limited]?.plus, amps);
  return list.sort((a, b) => b.amps - a.amps);
}

/** The course of a fault as plain data, with terminals by name. */
export function courseOf(
  cleared: Cleared,
  sources: FaultSources,
  devices: readonly FaultDevice[],
  grid: Grid,
  isNear: (node: number | undefined) => boolean,
): FaultCourse {
  const sees: SeenBy[] = [];
  for (const sight of cleared.sees) {
    const own = devices[sight.device];
    if (isNear(grid.edges[own?.edge ?? -1]?.a)) sees.push(seenBy(sight, own, grid));
  }
  const left = cleared.left === null ? [] : contributionsOf(cleared.left, sources, isNear);
  return {
    sees,
    opened: cleared.opened.map((o) => ({ ...seenBy(o, devices[o.device], grid), isSure: o.isSure })),
    // What goes on elsewhere does not go on here.
    outcome: cleared.outcome === "limited" && left.length === 0 ? "cleared" : cleared.outcome,
    seconds: cleared.seconds,
    left,
  };
}

const seenBy = ({ device, amps, from, opens }: Sight, own: FaultDevice | undefined, grid: Grid): SeenBy => ({
  device,
  amps,
  from: sideOf(own, from, grid),
  least: opens.least === Infinity ? null : opens.least,
  most: opens.most,
  why: opens.why,
});

/** Terminal at an end of a device's edge. */
export function sideOf(device: FaultDevice | undefined, from: "a" | "b", grid: Grid): string {
  const edge = grid.edges[device?.edge ?? -1];
  return grid.nodeNames[edge?.[from] ?? -1] ?? "";
}
