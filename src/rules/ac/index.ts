import type { Rule } from "../rule.ts";
import { doubledNeutralEarthJoin } from "./doubled-neutral-earth-join.ts";
import { missingNeutralEarthJoin } from "./missing-neutral-earth-join.ts";
import { alternatingNumericRules } from "./numeric.ts";
import { overlappingTransfer } from "./overlapping-transfer.ts";
import { parallelSources } from "./parallel-sources.ts";

/** Alternating current: what may meet, where neutral and earth are joined, what guards people. */
export const acRules: readonly Rule[] = [
  parallelSources,
  overlappingTransfer,
  missingNeutralEarthJoin,
  doubledNeutralEarthJoin,
  ...alternatingNumericRules,
];
