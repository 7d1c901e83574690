import { foldName, known, type CircuitFacts } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";

/** Names of ways under a key of a circuit, folded; null: nothing is said, or nobody knows. */
export function waysUnder(
  facts: Pick<CircuitFacts, "ways" | "return ways"> | undefined,
  key: "ways" | "return ways",
): readonly string[] | null {
  const list = known(facts?.[key]);
  if (list === undefined) return null;
  const names = list.flatMap(({ value }) => (value === "unknown" ? [] : [foldName(value)]));
  return names.length < list.length ? null : names;
}

/** Circuits by the ways that they go along, outward or back. */
export function circuitsByWay({ circuits }: Build): ReadonlyMap<string, readonly CircuitView[]> {
  const found = new Map<string, CircuitView[]>();
  for (const view of circuits) {
    const facts = view.plan?.facts;
    if (facts?.ways === undefined && facts?.["return ways"] === undefined) continue;
    for (const name of new Set([...(waysUnder(facts, "ways") ?? []), ...(waysUnder(facts, "return ways") ?? [])])) {
      const there = found.get(name);
      if (there === undefined) found.set(name, [view]);
      else there.push(view);
    }
  }
  return found;
}
