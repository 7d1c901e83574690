import type { Rule } from "../rule.ts";

export const protectionRules: readonly Rule[] = [];
