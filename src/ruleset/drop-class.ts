import type { Citation } from "../explain/index.ts";
import type { Ratio } from "../quantity/index.ts";

/** What a plan says of a load, or of a circuit, that a rule set may give a drop of its own. */
export const dropProperties = [
  "panel feeder",
  "navigation light",
  "bilge blower",
  "bilge pump",
  "electronics",
  "critical",
  "lighting",
] as const;
export type DropProperty = (typeof dropProperties)[number];

/** Greatest voltage drop, of the nominal volts, source to load and back at the design current. */
export interface DropClass {
  readonly limit: Ratio;
  /** The property that asks for it; `rest` where none does. */
  readonly because: DropProperty | "rest";
  readonly source: Citation;
}

/** Drop classes of a rule set. */
export interface DropRules {
  readonly classes: readonly DropClass[];
  readonly rest: DropClass;
}

/**
 * The drop class of a load: the strictest that any of its properties asks for.
 *
 * @param rules `drop` of a rule set
 * @param properties what the plan declares of the load; none gives the rest
 * @example
 * const source = cite("abyc-e-11", "11.14.2.6", "read")
 * const rules = { classes: [{ limit: ratio(0.03), because: "critical", source }], rest: { limit: ratio(0.1), because: "rest", source } }
 * dropClass(rules, ["bilge pump", "critical"]).because //=> "critical"
 * dropClass(rules, ["bilge pump"]).limit //=> 0.1
 */
export function dropClass(rules: DropRules, properties: readonly DropProperty[]): DropClass {
  let strictest: DropClass | null = null;
  for (const drop of rules.classes) {
    if (drop.because === "rest" || !properties.includes(drop.because)) continue;
    if (strictest === null || drop.limit < strictest.limit) strictest = drop;
  }
  return strictest ?? rules.rest;
}
