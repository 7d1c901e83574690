import type { Rule } from "../rule.ts";
import { currentAboveManagementLimit } from "./current-above-management-limit.ts";
import { missingDisconnect } from "./missing-disconnect.ts";
import { mixedString } from "./mixed-string.ts";
import { overloadedSource } from "./overloaded-source.ts";
import { surgeAboveManagementLimit } from "./surge-above-management-limit.ts";
import { switchedOffAlwaysOnLoad } from "./switched-off-always-on-load.ts";
import { tappedMidPoint } from "./tapped-mid-point.ts";
import { undersizedDisconnect } from "./undersized-disconnect.ts";
import { unequalLeads } from "./unequal-leads.ts";
import { unevenSharing } from "./uneven-sharing.ts";

export const batteryRules: readonly Rule[] = [
  surgeAboveManagementLimit,
  currentAboveManagementLimit,
  unevenSharing,
  unequalLeads,
  tappedMidPoint,
  mixedString,
  missingDisconnect,
  undersizedDisconnect,
  switchedOffAlwaysOnLoad,
  overloadedSource,
];
