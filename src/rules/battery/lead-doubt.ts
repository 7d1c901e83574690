import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { numbersNeeded } from "../lacks-numbers.ts";
import { needed } from "../report.ts";
import type { Bank } from "./banks.ts";

/** What is not known of the conductors at the terminals of a bank's units, without which nobody can say how its current divides. */
export function leadDoubt(build: Build, bank: Bank): readonly Needed[] {
  if (bank.abreast.every((n) => n < 2)) return [];
  const { grid, system } = build.settled.model;
  const circuits = new Set(
    bank.units.flatMap((i) => {
      const store = grid.stores[i];
      if (store === undefined) return [];
      return [store.plus, store.minus].flatMap((node) =>
        // What leads to one user alone does not divide the bank's current.
        (grid.at[node] ?? []).flatMap((e) => {
          const edge = grid.edges[e];
          return edge === undefined || edge.circuit < 0 || build.settled.model.trees.isTree[e] === 1
            ? []
            : [edge.circuit];
        }),
      );
    }),
  );
  const needs = new Map<string, Needed>();
  for (const index of circuits) {
    const view = build.circuit(system.circuits[index]?.id ?? "");
    if (view === undefined) continue;
    const { circuit, subject, run, id } = view;
    const numbers = numbersNeeded(build, view);
    const own = [
      ...(numbers === null ? [] : [numbers]),
      ...(circuit.size === "unknown" ? [needed(`the wire of ${id}`, subject)] : []),
      ...(run.lengthM.origin === "unknown" ? [needed(`the length of ${id}`, subject)] : []),
    ];
    for (const need of own) needs.set(`${need.about} ${need.fact}`, need);
  }
  return [...needs.values()];
}
