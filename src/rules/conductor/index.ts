import type { Rule } from "../rule.ts";
import { overloadedConductor } from "./overloaded-conductor.ts";

export const conductorRules: readonly Rule[] = [overloadedConductor];
