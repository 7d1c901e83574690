import type { Rule } from "../rule.ts";
import { ambiguousCableName } from "./ambiguous-cable-name.ts";
import { missingCore } from "./missing-core.ts";

export const cableRules: readonly Rule[] = [missingCore, ambiguousCableName];
