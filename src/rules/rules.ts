import { acRules } from "./ac/index.ts";
import { batteryRules } from "./battery/index.ts";
import { cableRules } from "./cable/index.ts";
import { chargingRules } from "./charging/index.ts";
import { conductorRules } from "./conductor/index.ts";
import { labelRules } from "./label/index.ts";
import { protectionRules } from "./protection/index.ts";
import { decidingAssumption } from "./record/deciding-assumption.ts";
import { recordRules } from "./record/index.ts";
import { returnRules } from "./return/index.ts";
import type { Rule } from "./rule.ts";

/**
 * Every rule, by topic. A new one is a file in its topic and a line in that topic's list. What can burn comes before what only does not work, and
 * the record last, which gathers what the others could not tell.
 */
export const rules: readonly Rule[] = [
  ...protectionRules,
  ...conductorRules,
  ...cableRules,
  ...batteryRules,
  ...chargingRules,
  ...acRules,
  ...returnRules,
  ...labelRules,
  ...recordRules,
];

/** Rules that take many computations: looked for when asked, never with a judgement. */
export const rulesOnDemand: readonly Rule[] = [decidingAssumption];
