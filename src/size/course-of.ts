import type { Cleared, Sight, SolvedFault } from "../fault/index.ts";
import type { Grid } from "../system/index.ts";
import type { Contribution, FaultCourse, FaultDevice, SeenBy } from "./fault-study.ts";
import type { FaultSources } from "../fault/index.ts";

/** What each source pushes into a fault, the most first; what pushes less than a thousandth is left out. */
export function contributionsOf(fault: SolvedFault, sources: FaultSources): Contribution[] {
  const list: Contribution[] = [];
  const add = (part: string | undefined, amps: number): void => {
    if (part !== undefined && amps > 1e-3 * Math.abs(fault.amps)) list.push({ part, amps });
  };
  for (const { store, amps } of fault.stores) add(sources.stores[store]?.part, amps);
  for (const { limited, amps } of fault.limited) add(sources.limited[limited]?.part, amps);
  return list.sort((a, b) => b.amps - a.amps);
}

/** The course of a fault as plain data, with terminals by name. */
export function courseOf(
  cleared: Cleared,
  sources: FaultSources,
  devices: readonly FaultDevice[],
  grid: Grid,
): FaultCourse {
  const seen = ({ device, amps, from, opens }: Sight): SeenBy => ({
    device,
    amps,
    from: sideOf(devices[device], from, grid),
    least: opens.least === Infinity ? null : opens.least,
    most: opens.most,
    why: opens.why,
  });
  return {
    sees: cleared.sees.map(seen),
    opened: cleared.opened.map((o) => ({ ...seen(o), isSure: o.isSure })),
    outcome: cleared.outcome,
    seconds: cleared.seconds,
    left: cleared.left === null ? [] : contributionsOf(cleared.left, sources),
  };
}

/** Terminal at an end of a device's edge. */
export function sideOf(device: FaultDevice | undefined, from: "a" | "b", grid: Grid): string {
  const edge = grid.edges[device?.edge ?? -1];
  return grid.nodeNames[edge?.[from] ?? -1] ?? "";
}
