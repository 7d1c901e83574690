import type { Compiled } from "../compile.ts";
import { coordinate } from "../coordinate/index.ts";
import type { Scene } from "../draw/scene.ts";
import { drawTimeCurrent, plotCircuit } from "../draw/time-current/index.ts";

/**
 * When devices open, for the main and for each feeder: one drawing for each device that feeds others, of the chain that ends in the branch behind it whose
 * short is greatest. Branches of one feeder look alike, so none has a drawing of its own.
 */
export function curveScenes({ settled }: Compiled): Scene[] {
  const { devices, feeders, pairs } = coordinate(settled);
  const circuits = new Set<string>();
  const chains = new Set<string>();
  for (const { device, branches } of feeders) {
    const behind = pairs
      .filter((p) => p.isNext && p.upstream === device && branches.includes(p.downstream))
      .sort((a, b) => b.greatest - a.greatest || a.downstream - b.downstream);
    // The last feeder of a chain shows the whole of it, the main included.
    const ends = behind.filter((p) => !feeders.some((f) => f.device === p.downstream));
    const circuit = devices[(ends[0] ?? behind[0])?.downstream ?? -1]?.circuit;
    if (circuit == null) continue;
    const ahead = devices[device]?.part ?? "";
    // Batteries side by side feed the same: one of their chains stands for all.
    const key = `${circuit} ${ahead}`;
    if (chains.size === chains.add(key).size) continue;
    circuits.add(circuit);
  }
  return [...circuits].flatMap((id): Scene[] => {
    const plot = plotCircuit(settled, id);
    return plot === null ? [] : [drawTimeCurrent(plot, { on: "screen" })];
  });
}
