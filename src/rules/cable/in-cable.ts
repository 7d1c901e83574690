import type { CircuitFacts } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";

/** All circuits that lie in the cable of a circuit, its own among them; itself alone where it shares none. */
export const circuitsInCable = (build: Build, { id, circuit }: CircuitView): readonly CircuitView[] =>
  (circuit.cable?.circuits ?? [id]).flatMap((one) => build.circuit(one) ?? []);

/** A fact of a cable, from the first of its circuits that states it. */
export function factOfCable<Key extends keyof CircuitFacts>(
  together: readonly CircuitView[],
  key: Key,
): CircuitFacts[Key] | undefined {
  return together.find((c) => c.plan?.facts[key] !== undefined)?.plan?.facts[key];
}

/** Whether a circuit is the one with which its cable is judged. */
export const speaksForCable = ({ id, circuit }: CircuitView): boolean =>
  circuit.cable === undefined || circuit.cable.circuits[0] === id;
