import type { CircuitView } from "../../rules/index.ts";
import type { Case, Move } from "../case.ts";
import { thickerSizes } from "../conductor-sizes.ts";
import { put } from "../write.ts";

/** So many feeders are looked at, those that lose most first. */
const FEEDERS = 3;
/** So many circuits one behind the other are walked up. */
const DEEP = 8;

/** Thicker wire for a feeder between the sources and the circuit; those that lose most first. */
export const upstreamSize: Move = (at) =>
  feedersOf(at)
    .slice(0, FEEDERS)
    .map((c) => thickerSizes(at, c).map((label) => ({ edits: [put(at.document, ["circuits", c.id, "wire"], label)] })));

/** Circuits that lead to where the circuits of a case begin. */
export function feedersOf({ build, circuits }: Pick<Case, "build" | "circuits">): readonly CircuitView[] {
  const found = new Set(circuits);
  const own = new Set(circuits);
  let parts = new Set(circuits.map((c) => c.circuit.from.part));
  for (let i = 0; i < DEEP && parts.size > 0; i++) {
    const before = new Set<string>();
    for (const c of build.circuits) {
      if (c.model === null || found.has(c) || !parts.has(c.circuit.to.part)) continue;
      found.add(c);
      before.add(c.circuit.from.part);
    }
    parts = before;
  }
  return [...found].filter((c) => !own.has(c)).sort((a, b) => lossOf(b) - lossOf(a));
}

/** What a circuit loses, but for constants: amps times metres by area. */
const lossOf = ({ design, run }: CircuitView): number =>
  ((design.steadyA ?? 0) * run.lengthM.high) / (design.size?.areaMm2 ?? Infinity);
