import { runOhms } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { needed } from "../report.ts";
import type { Needed } from "../finding.ts";
import { bankFlowsOf } from "./bank-flows.ts";
import type { Bank } from "./banks.ts";

/** Circuits whose conductors stand at a terminal of a unit, and carry current that its bank divides. */
export function leadsAt(build: Build, unit: number): readonly CircuitView[] {
  const { grid, system, trees } = build.settled.model;
  const store = grid.stores[unit];
  const circuits = [store?.plus ?? -1, store?.minus ?? -1].flatMap((node) =>
    (grid.at[node] ?? []).flatMap((e) => {
      const edge = grid.edges[e];
      // What leads to one user alone does not divide the bank's current.
      return edge === undefined || edge.circuit < 0 || trees.isTree[e] === 1 ? [] : [edge.circuit];
    }),
  );
  return [...new Set(circuits)].flatMap((c) => build.circuit(system.circuits[c]?.id ?? "") ?? []);
}

/** The lengths of a bank's leads that are ranges. */
export const openLengths = (build: Build, bank: Bank): readonly Needed[] =>
  [...new Set(bank.units.flatMap((u) => leadsAt(build, u)))]
    .filter(isRange)
    .map(({ id, subject }) => needed(`the length of ${id}, closer`, subject));

const isRange = ({ run: { lengthM } }: CircuitView): boolean =>
  lengthM.low < lengthM.high && Number.isFinite(lengthM.high);

/** Ohms of an edge of a grid at the least length that its circuit can have. */
export function leastOhms(build: Build, edge: number): number {
  const { model, chosen } = build.settled;
  const all = bankFlowsOf(build).ohms[edge] ?? 0;
  const c = model.circuits[model.at[model.grid.edges[edge]?.circuit ?? -1] ?? -1];
  const view = c === undefined ? undefined : build.circuit(c.circuit.id);
  if (c === undefined || c.rungs === null || view === undefined || !isRange(view)) return all;
  const run = runOhms(c.rungs, chosen.rungs[c.position] ?? 0, view.design.steadyA ?? 0);
  return all - run * (c.shares[c.edges.indexOf(edge)] ?? 0) * (1 - view.run.lengthM.low / view.run.lengthM.high);
}
