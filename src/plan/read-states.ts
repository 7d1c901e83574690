import { stateKeys } from "./grammar/section-keys.ts";
import { foldName } from "./grammar/record.ts";
import type { Reading } from "./grammar/rule.ts";
import { listOf, name } from "./grammar/values.ts";
import type { PlacedName, PlanState } from "./plan.ts";
import { shift, type ReadOne } from "./read-entry.ts";
import type { PlacedEntry } from "./text/index.ts";

/** States, and beside them the loads that exclude each other. Keys that no rule knows are names of parts, with their positions. */
export function readStates(
  entries: readonly PlacedEntry[],
  readEntry: ReadOne,
  sayAt: (base: number, about: string) => Reading["say"],
): { states: PlanState[]; neverTogether: PlacedName[][] } {
  const states: PlanState[] = [];
  const neverTogether: PlacedName[][] = [];
  for (const placed of entries) {
    const { entry, base } = placed;
    if (foldName(entry.key.text) === "never together") {
      const node = entry.value;
      const groups =
        node?.kind === "list" && node.items.some((i) => i.kind === "list") ? node.items : node === null ? [] : [node];
      for (const group of groups) {
        const say = sayAt(base, "states.never together");
        const fact = listOf(name("a load")).read(group, { about: "states.never together", say });
        if (fact !== undefined && fact.value !== "unknown") {
          neverTogether.push(
            fact.value.flatMap((f) => (f.value === "unknown" ? [] : [{ name: f.value, at: shift(base, f.span) }])),
          );
        }
      }
      continue;
    }
    const read = readEntry(placed, `states.${entry.key.text}`, stateKeys, "states", "a state", "positions");
    const facts = read.facts as PlanState["facts"]; // read by the rules of stateKeys
    states.push({ key: entry.key.text, base, keySpan: entry.key.span, facts, keys: read.keys, positions: read.others });
  }
  return { states, neverTogether };
}
