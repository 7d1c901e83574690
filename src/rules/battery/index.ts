import type { Rule } from "../rule.ts";

export const batteryRules: readonly Rule[] = [];
