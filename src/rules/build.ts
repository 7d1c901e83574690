import type { Span } from "../diagnostic.ts";
import { placed, type CircuitFacts, type Plan, type PlanItem, type PlanPart } from "../plan/index.ts";
import type { Run, Runs } from "../route/index.ts";
import type { RuleSet } from "../ruleset/index.ts";
import {
  ruleSetOf,
  suppliesBySet,
  withRules,
  type CircuitDesign,
  type CircuitDevices,
  type CircuitModel,
  type Design,
  type Settled,
} from "../size/index.ts";
import type { InternalElement, Supply, System, SystemCircuit, SystemPart } from "../system/index.ts";
import type { RuleSetId } from "./rule-set-id.ts";

/** A thing that a rule can speak of. */
export interface Subject {
  /** Key path in the plan: `circuits.W13`. */
  readonly path: string;
  /** As people read it: `W13 (PNL:1 → fridge)`. */
  readonly name: string;
  readonly at: readonly Span[];
  /** Rule set that it is judged by; null: none is named or carried. */
  readonly set: RuleSetId | null;
}

/** A circuit with everything that is known of it. */
export interface CircuitView {
  readonly subject: Subject;
  /** Its two ends, for rules that speak of one of them. */
  readonly ends: { readonly from: Subject; readonly to: Subject };
  readonly id: string;
  readonly plan: PlanItem<CircuitFacts> | undefined;
  readonly circuit: SystemCircuit;
  readonly run: Run;
  readonly design: CircuitDesign;
  readonly supply: Supply | undefined;
  readonly ruleSet: RuleSet | null;
  /** Null for alternating current, which is not studied. */
  readonly model: CircuitModel | null;
  /** Devices as placed, with why an end has none; null for alternating current. */
  readonly devices: CircuitDevices | null;
}

export interface PartView {
  readonly subject: Subject;
  readonly id: string;
  readonly plan: PlanPart | undefined;
  readonly part: SystemPart;
  readonly elements: readonly InternalElement[];
  readonly supply: Supply | undefined;
}

/** A computed build as rules read it. */
export interface Build {
  readonly plan: Plan;
  readonly system: System;
  readonly runs: Runs;
  readonly design: Design;
  readonly settled: Settled;
  /** In the order of the plan. */
  readonly circuits: readonly CircuitView[];
  readonly parts: readonly PartView[];
  readonly circuit: (id: string) => CircuitView | undefined;
  readonly part: (id: string) => PartView | undefined;
  /** The plan as a whole. */
  readonly whole: Subject;
  /** A supply of the plan. */
  readonly supply: (supply: Supply) => Subject;
}

/** What a judgement is made from. */
export interface Computed {
  readonly plan: Plan;
  readonly system: System;
  readonly runs: Runs;
  readonly design: Design;
  readonly settled: Settled;
  /** Of alternating current; null: nothing alternates. Absent: it was not worked out. */
  readonly alternating?: Settled | null;
}

/**
 * Lays out a computed build for the rules: every circuit and part with all that is known of it, found by name.
 *
 * @param at of a circuit that follows several rule sets the one that is shown; past its last one the last
 */
export function viewBuild({ plan, system, runs, design, settled }: Computed, at = 0): Build {
  const circuitPlans = new Map(plan.circuits.map((c) => [c.key, c]));
  const partPlans = new Map(plan.parts.map((p) => [p.key, p]));
  const supplies = new Map(system.supplies.map((s) => [s.id, s]));
  const setOf = new Map(system.supplies.map((s) => [s.id, ruleSetOf(s)]));
  const elementsOf = new Map<string, InternalElement[]>();
  for (const element of system.elements) {
    if (element.is === "join") continue;
    const list = elementsOf.get(element.part);
    if (list === undefined) elementsOf.set(element.part, [element]);
    else list.push(element);
  }
  const followed = (circuit: SystemCircuit): Pick<CircuitView, "supply" | "ruleSet"> => {
    const own = circuit.supply === undefined ? undefined : supplies.get(circuit.supply);
    if (circuit.rules === undefined)
      return { supply: own, ruleSet: own === undefined ? null : (setOf.get(own.id) ?? null) };
    const bySet = suppliesBySet(circuit, own);
    const supply = bySet[Math.min(at, bySet.length - 1)];
    return { supply, ruleSet: ruleSetOf(supply) };
  };
  const circuits: CircuitView[] = [];
  system.circuits.forEach((circuit, i) => {
    const run = runs.runs[i];
    const own = design.circuits[i];
    if (run === undefined || own === undefined) return;
    const position = settled.model.at[i] ?? -1;
    const { supply, ruleSet } = followed(circuit);
    const { id, fromText, toText } = circuit;
    const path = `circuits.${id}`;
    const at = [circuit.keySpan];
    const set = ruleSet?.id ?? null;
    circuits.push({
      subject: { path, name: `${id} (${fromText} → ${toText})`, at, set },
      ends: {
        from: { path: `${path}.from`, name: `${id} at ${fromText}`, at, set },
        to: { path: `${path}.to`, name: `${id} at ${toText}`, at, set },
      },
      id,
      plan: circuitPlans.get(id),
      circuit,
      run,
      design: own,
      supply,
      ruleSet,
      model: settled.model.circuits[position] ?? null,
      devices: settled.devices.circuits[position] ?? null,
    });
  });
  const parts = system.parts.map((part): PartView => {
    const item = partPlans.get(part.id);
    const supply = withRules(part.supply === undefined ? undefined : supplies.get(part.supply), part.rules);
    return {
      subject: {
        path: `parts.${part.id}`,
        name: part.name === part.id ? part.id : `${part.id} (${part.name})`,
        at: item === undefined ? [] : [placed(item.base, item.keySpan)],
        set: (part.rules === undefined ? setOf.get(part.supply ?? "") : ruleSetOf(supply))?.id ?? null,
      },
      id: part.id,
      plan: item,
      part,
      elements: elementsOf.get(part.id) ?? [],
      supply,
    };
  });
  const circuitOf = new Map(circuits.map((c) => [c.id, c]));
  const partOf = new Map(parts.map((p) => [p.id, p]));
  const systemSpans = new Map(plan.systems.map((s) => [s.key, placed(s.base, s.keySpan)]));
  return {
    plan,
    system,
    runs,
    design,
    settled,
    circuits,
    parts,
    circuit: (id) => circuitOf.get(id),
    part: (id) => partOf.get(id),
    whole: { path: "plan", name: "the plan", at: [], set: null },
    supply: (supply) => {
      const span = systemSpans.get(supply.id);
      return {
        path: `systems.${supply.id}`,
        name: `system ${supply.id}`,
        at: span === undefined ? [] : [span],
        set: setOf.get(supply.id)?.id ?? null,
      };
    },
  };
}
