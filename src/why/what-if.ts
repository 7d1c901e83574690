import { routeRuns } from "../route/index.ts";
import { findSensitivity } from "../size/sensitivity.ts";
import { settleDesign, type Design } from "../size/index.ts";
import { sizeLeads } from "../size/size-leads.ts";
import type { SystemCircuit } from "../system/index.ts";
import type { WireSize } from "../wire/index.ts";
import type { Built } from "./built.ts";
import type { Change } from "./explanation.ts";

/** The build with some circuits at another size and all others held at theirs. */
export function designWith({ system, settled }: Built, sizes: ReadonlyMap<string, WireSize>): Design {
  const circuits = system.circuits.map((circuit, index): SystemCircuit => {
    const position = settled.model.at[index] ?? -1;
    const rungs = settled.model.circuits[position]?.rungs;
    const now = rungs?.ladder.makes[settled.chosen.rungs[position] ?? 0]?.size;
    const size = sizes.get(circuit.id) ?? now;
    return size === undefined || circuit.size === "unknown" ? circuit : { ...circuit, size };
  });
  const changed = { ...system, circuits };
  return settleDesign(changed, routeRuns(changed).value, sizeLeads).design;
}

/** Inputs that an explanation moves. */
const MOVED = ["length", "current", "demand", "ambient"] as const;

/**
 * From which length, current or ambient on a circuit would get another size, everything else chosen anew.
 *
 * @param index of the circuit in the system
 */
export function findChanges({ system, runs, settled }: Built, index: number): Change[] {
  const own = `circuits.${system.circuits[index]?.id ?? ""}.length`;
  return findSensitivity(system, runs, settled, index, MOVED)
    .changes.filter(({ input, fact }) => input !== "length" || fact === own)
    .map(({ fact, unit, when, to, changesAt, until }) => ({
      fact,
      unit,
      when,
      then: to ?? "no size on sale is enough",
      value: changesAt,
      until,
    }));
}
