import type { RuleSet } from "../ruleset/index.ts";

/** Kebab-case, as a plan names it. */
export type RuleSetId = RuleSet["id"];
