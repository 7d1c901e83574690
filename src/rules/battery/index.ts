import type { Rule } from "../rule.ts";
import { missingDisconnect } from "./missing-disconnect.ts";
import { switchedOffAlwaysOnLoad } from "./switched-off-always-on-load.ts";

export const batteryRules: readonly Rule[] = [missingDisconnect, switchedOffAlwaysOnLoad];
