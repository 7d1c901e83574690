import type { Rule } from "../rule.ts";
import { switchedOffAlwaysOnLoad } from "./switched-off-always-on-load.ts";

export const batteryRules: readonly Rule[] = [switchedOffAlwaysOnLoad];
