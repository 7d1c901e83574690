import type { Plan } from "../plan/index.ts";
import type { Runs } from "../route/index.ts";
import type { CircuitDesign, Design, Settled } from "../size/index.ts";
import type { CircuitModel } from "../size/model.ts";
import type { System, SystemCircuit } from "../system/index.ts";

/** A computed build, as far as explanations read it. */
export interface Built {
  readonly plan: Plan;
  readonly system: System;
  readonly runs: Runs;
  readonly design: Design;
  readonly settled: Settled;
  /** Of alternating current; absent or null: nothing alternates. */
  readonly alternating?: Settled | null;
}

/** The build as the circuits of alternating current have it: told in the words of the direct side, as they were sized. */
export function alternatingView<B extends Built>(built: B): B | null {
  const { alternating } = built;
  if (alternating === null || alternating === undefined) return null;
  return { ...built, system: alternating.model.system, settled: alternating, alternating: null };
}

/** A direct-current circuit with all that is known of it. */
export interface CircuitAt {
  /** Place in the lists of system, runs and design. */
  readonly index: number;
  readonly circuit: SystemCircuit;
  readonly design: CircuitDesign;
  /** Null for alternating current. */
  readonly model: CircuitModel | null;
}

export function circuitAt({ system, design, settled }: Built, id: string): CircuitAt | null {
  const index = system.circuits.findIndex((c) => c.id === id);
  const circuit = system.circuits[index];
  const own = design.circuits[index];
  if (circuit === undefined || own === undefined) return null;
  return { index, circuit, design: own, model: settled.model.circuits[settled.model.at[index] ?? -1] ?? null };
}

/** The circuit that a load hangs on, and how it is judged there. */
export function judgedAt(
  { settled }: Built,
  part: string,
): { model: CircuitModel; judged: CircuitModel["judged"][number] } | null {
  for (const model of settled.model.circuits) {
    const judged = model.judged.find((j) => j.part === part);
    if (judged !== undefined) return { model, judged };
  }
  return null;
}

/** The weigher, laid with the sizes that were chosen: others may have asked it for different ones since. */
export function laidWeigher({ settled }: Pick<Built, "settled">): Settled["weigher"] {
  const { weigher, chosen } = settled;
  weigher.solveCore(chosen.rungs);
  weigher.layAll(chosen.rungs);
  return weigher;
}
