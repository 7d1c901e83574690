import type { Runs } from "../route/index.ts";
import type { System } from "../system/index.ts";
import { conflictFacts, type ConflictFact } from "./conflict-facts.ts";
import type { ConstraintId } from "./design.ts";
import type { CircuitModel } from "./model.ts";
import { proposeParallel } from "./propose-parallel.ts";
import type { Settled } from "./settled.ts";
import { unmetAt } from "./unmet-at.ts";

/** A constraint, and the facts that it cannot be met beside: each of them is needed for that, so let one go and it is met. */
export interface Conflict {
  readonly circuit: string;
  readonly constraint: ConstraintId;
  /** What it asks for, in words: `drop of at most 3 %`. */
  readonly asks: string;
  readonly facts: readonly { readonly fact: string; readonly says: string }[];
  /** Single changes, each of which would do with everything else as the plan has it. */
  readonly waysOut: readonly WayOut[];
  /** In one sentence. */
  readonly says: string;
}

export interface WayOut {
  /** Key path of the plan that is changed. */
  readonly fact: string;
  readonly says: string;
}

/**
 * Finds why a circuit cannot have what is asked of it: for each constraint that is not met a smallest set of facts that it conflicts with, found by letting facts go one
 * by one and keeping those without which there is no conflict. Smallest in that none of them can be left out; where several such sets exist, one is told.
 *
 * Settles the whole build again for every fact and every step towards a way out: to be asked for.
 *
 * @param index of the circuit in the system
 * @returns the conflict with the fewest facts first; empty where everything is met or nothing can be told
 */
export function findConflicts(
  system: System,
  runs: Runs,
  settled: Pick<Settled, "model" | "chosen">,
  index: number,
): Conflict[] {
  const c = settled.model.circuits[settled.model.at[index] ?? -1];
  if (c === undefined || c.rungs === null) return [];
  const parallel = proposeParallel(system, settled, index);
  return unmetAt(system, index)
    .map((constraint): Conflict => {
      const isMet = (changed: System): boolean => !unmetAt(changed, index).includes(constraint);
      const all = conflictFacts(system, runs, settled, c, constraint);
      const facts = deletionFilter(system, all, isMet);
      const waysOut = facts.flatMap((fact) => wayOut(system, fact, isMet));
      if (parallel !== null) {
        waysOut.push({
          fact: `circuits.${c.circuit.id}.parallel`,
          says: `${parallel.count} conductors of ${parallel.size} in parallel, all alike and equally long`,
        });
      }
      const asks = asksOf(constraint, c);
      const set = [asks, ...facts.map((f) => f.says)];
      return {
        circuit: c.circuit.id,
        constraint,
        asks,
        facts: facts.map(({ fact, says }) => ({ fact, says })),
        waysOut,
        says: `${c.circuit.id}: ${set.slice(0, -1).join(", ")}${set.length > 1 ? " and " : ""}${set.at(-1) ?? ""} cannot all be`,
      };
    })
    .sort((a, b) => a.facts.length - b.facts.length);
}

/** Lets facts go one after the other; one without which the constraint is met is needed and stays. */
function deletionFilter(
  system: System,
  all: readonly ConflictFact[],
  isMet: (changed: System) => boolean,
): ConflictFact[] {
  let relaxed = system;
  const kept: ConflictFact[] = [];
  for (const fact of all) {
    const without = fact.relaxed(relaxed);
    if (isMet(without)) kept.push(fact);
    else relaxed = without;
  }
  return kept;
}

/** How far one fact alone has to give way; nothing where even all of it is not enough while the others stand. */
function wayOut(system: System, fact: ConflictFact, isMet: (changed: System) => boolean): WayOut[] {
  const { scale } = fact;
  if (scale === undefined) {
    return fact.way !== undefined && isMet(fact.relaxed(system)) ? [{ fact: fact.fact, says: fact.way }] : [];
  }
  const sign = scale.to > scale.now ? 1 : -1;
  const at = (k: number): number => scale.now + sign * k * scale.step;
  const end = Math.floor(Math.abs(scale.to - scale.now) / scale.step + 1e-9);
  if (end < 1 || !isMet(scale.change(system, at(end)))) return [];
  let not = 0;
  let met = end;
  while (met - not > 1) {
    const middle = (not + met) >> 1;
    if (isMet(scale.change(system, at(middle)))) met = middle;
    else not = middle;
  }
  return [{ fact: fact.fact, says: scale.says(at(met)) }];
}

const ASKS: Partial<Record<ConstraintId, string>> = {
  ampacity: "a wire that carries what flows in it for long",
  device: "a wire that its device guards",
  mechanical: "a wire no thinner than the least size",
  bond: "a wire that brings a fault back",
  withstand: "a wire that bears a fault until it is cleared",
  terminal: "terminals that stay cool enough",
  "earth-loop": "an earth that opens the device",
};

function asksOf(constraint: ConstraintId, { judged, charging, supply }: CircuitModel): string {
  const loads = judged.filter((j) => j.draw >= 0);
  const whom = loads.length === 1 ? (loads[0]?.part ?? "") : "the loads behind it";
  switch (constraint) {
    case "drop": {
      const limits = judged.map((j) => j.dropVolts / (supply?.nominal ?? 12));
      const limit = charging === null ? Math.min(...limits) : charging.limitVolts / charging.baseVolts;
      return limit < Infinity
        ? `a drop of at most ${Number((100 * limit).toPrecision(3))} %`
        : "the drop to the loads behind it";
    }
    case "start":
      return `volts enough for ${whom} to start`;
    case "least-volts":
      return `volts enough for ${whom} to run`;
    default:
      return ASKS[constraint] ?? constraint;
  }
}
