import type { Rule } from "../rule.ts";
import { missingDisconnect } from "./missing-disconnect.ts";
import { mixedString } from "./mixed-string.ts";
import { switchedOffAlwaysOnLoad } from "./switched-off-always-on-load.ts";
import { tappedMidPoint } from "./tapped-mid-point.ts";

export const batteryRules: readonly Rule[] = [tappedMidPoint, mixedString, missingDisconnect, switchedOffAlwaysOnLoad];
