import type { Rule } from "../rule.ts";

export const recordRules: readonly Rule[] = [];
