import type { Diagnostic } from "../diagnostic.ts";
import {
  foldName,
  isUnknown,
  known,
  placed,
  shown,
  tellsOfCable,
  type CircuitFacts,
  type Fact,
  type Plan,
  type PlanItem,
} from "../plan/index.ts";
import type { PlannedCable, SystemCircuit } from "./system.ts";

/** The cables of a plan by circuit: of circuits that name one cable, the first label counts for all. */
export function cablesOf({ circuits }: Plan, say: (d: Diagnostic) => void): ReadonlyMap<string, PlannedCable> {
  const found = new Map<string, PlannedCable>();
  const shared = new Map<string, PlanItem<CircuitFacts>[]>();
  for (const item of circuits) {
    const name = known(item.facts["in cable"]);
    if (name === undefined) {
      if (item.keys["cable"] !== undefined) found.set(item.key, cableOf(null, [item], say));
      continue;
    }
    const there = shared.get(foldName(name));
    if (there === undefined) shared.set(foldName(name), [item]);
    else there.push(item);
  }
  for (const items of shared.values()) {
    const cable = cableOf(known(items[0]?.facts["in cable"]) ?? "", items, say);
    for (const { key } of items) found.set(key, cable);
  }
  return found;
}

function cableOf(
  name: string | null,
  items: readonly PlanItem<CircuitFacts>[],
  say: (d: Diagnostic) => void,
): PlannedCable {
  const labelled = items.filter(({ keys }) => keys["cable"] !== undefined);
  const [first, ...others] = labelled.flatMap((item) => {
    const label = known(item.facts.cable);
    return label === undefined ? [] : [{ item, label }];
  });
  for (const { item, label } of others) {
    const fact = item.facts.cable;
    if (first === undefined || fact === undefined || foldName(label.label) === foldName(first.label.label)) continue;
    say({
      id: "system/cable-disagrees",
      level: "warning",
      at: [placed(item.base, fact.span)],
      about: `circuits.${item.key}.cable`,
      message: `\`${shown(item.key)}\` and \`${shown(first.item.key)}\` lie in one cable, \`${shown(name ?? "")}\`, and give it two labels; that of \`${shown(first.item.key)}\` counts`,
      hint: "mend one of the two, or take it out: one label is enough for a cable",
    });
  }
  const unread = labelled.flatMap(({ facts }) => facts.cable?.unread ?? [])[0];
  return {
    name,
    label: first?.label ?? null,
    ...(first !== undefined || unread === undefined ? {} : { unread }),
    isUnclear: first === undefined && labelled.some(({ facts }) => facts.cable === undefined || isUnknown(facts.cable)),
    circuits: items.map(({ key }) => key),
  };
}

/**
 * The facts of a circuit that lies in a cable which another circuit describes: what the label says, where the circuit itself says nothing. What it says itself counts, and a
 * difference is told.
 */
export function withSharedCable(
  item: PlanItem<CircuitFacts>,
  cable: PlannedCable | undefined,
  say: (d: Diagnostic) => void,
): CircuitFacts {
  const { facts, keys } = item;
  if (cable?.label == null || cable.name === null) return facts;
  const told: Record<string, Fact<unknown>> = {};
  const span = facts["in cable"]?.span ?? item.keySpan;
  const own: Readonly<Record<string, Fact<unknown> | undefined>> = facts;
  for (const { key, value, says, agrees } of tellsOfCable(cable.label)) {
    // Which of its cores are whose, nobody says.
    if (key === "colour") continue;
    const fact = own[key];
    if (keys[key] === undefined) told[key] = { value, span };
    // Beside a label of its own it was told where that was read.
    else if (fact !== undefined && !isUnknown(fact) && !agrees(fact.value) && keys["cable"] === undefined)
      say({
        id: "system/differs-from-its-cable",
        level: "warning",
        at: [placed(item.base, fact.span)],
        about: `circuits.${item.key}.${key}`,
        message: `\`${shown(item.key)}\` lies in the cable \`${shown(cable.name)}\`, whose label says ${says}; \`${key}\` says something else, which counts`,
        hint: `mend one of the two, or take \`${key}\` out`,
      });
  }
  return { ...(told as CircuitFacts), ...facts }; // read from the label by the rules of these very keys
}

/** Conductors of a circuit that carry its current. */
export function loadedConductors({ conductors, parallel }: Pick<SystemCircuit, "conductors" | "parallel">): number {
  const fns = new Set(conductors.filter((c) => c.role !== "protective").map((c) => c.fn));
  return Math.max(1, fns.size) * parallel;
}

/** Circuits in one cable lie together: where nothing else is said, the conductors of all of them count as their bundle. */
export function bundleInCables(circuits: readonly SystemCircuit[]): SystemCircuit[] {
  const byId = new Map(circuits.map((c) => [c.id, c]));
  return circuits.map((circuit) => {
    const together = circuit.cable?.circuits ?? [];
    if (together.length < 2 || circuit.bundle !== "own") return circuit;
    const count = together.reduce((sum, id) => {
      const other = byId.get(id);
      return sum + (other === undefined ? 0 : loadedConductors(other));
    }, 0);
    return { ...circuit, bundle: count };
  });
}
