import { rules, type CureMove } from "../../src/rules/index.ts";
import type { Cured } from "./cured-banks.ts";
import { examplesOf } from "../../src/rules/rule.ts";

/** The plan of a rule's example that is found, and what a move makes of it. */
export const curedExample = (move: CureMove, rule: string, says: string, changes: readonly string[]): Cured => {
  const found = rules.flatMap((r) => (r.id === rule ? examplesOf(r).bad : [])).find((b) => b.says === says);
  if (found === undefined) throw new Error(`${rule} has no example "${says}"`);
  return { move, plan: found.plan, rule, about: found.about, changes };
};
