import type { Rule } from "../rule.ts";
import { contradictingLoadFigures } from "./contradicting-load-figures.ts";
import { unknownFact } from "./unknown-fact.ts";
import { unnamedRuleSet } from "./unnamed-rule-set.ts";

/** The last one gathers what all others could not tell. */
export const recordRules: readonly Rule[] = [unnamedRuleSet, contradictingLoadFigures, unknownFact];
