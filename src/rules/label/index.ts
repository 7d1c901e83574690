import type { Rule } from "../rule.ts";
import { colourClash } from "./colour-clash.ts";

export const labelRules: readonly Rule[] = [colourClash];
