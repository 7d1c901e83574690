import type { Rule } from "../rule.ts";
import { unprotectedConductor } from "./unprotected-conductor.ts";

export const protectionRules: readonly Rule[] = [unprotectedConductor];
