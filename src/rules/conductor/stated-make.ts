import { isUnknown } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { wireNeeded } from "../wire-needed.ts";

/**
 * Whether the plan says what a conductor is made of: on its circuit, or of all that is in stock. What was found is not what is usually bought, so a
 * default of ours is no answer for it.
 */
export function isStated({ plan }: Build, c: CircuitView, key: "metal" | "strands" | "insulation"): boolean {
  const own = c.plan?.facts[key];
  if (own !== undefined) return !isUnknown(own);
  if (c.circuit.size === "unknown") return false;
  const stock = plan.stock[key];
  return stock === undefined ? !c.circuit.asFound : !isUnknown(stock);
}

/** What is missing where it is not stated: the whole wire, or that one fact of it. */
export const unstated = (c: CircuitView, key: "metal" | "strands" | "insulation"): Needed =>
  c.circuit.size === "unknown"
    ? wireNeeded(c)
    : needed(key === "insulation" ? "the rating of its insulation" : `its ${key}`, c.subject);
