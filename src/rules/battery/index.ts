import type { Rule } from "../rule.ts";
import { batteryByFuel } from "./battery-by-fuel.ts";
import { batteryInTheLivingSpace } from "./battery-in-the-living-space.ts";
import { coldCharging } from "./cold-charging.ts";
import { crankingBeyondTheBattery } from "./cranking-beyond-the-battery.ts";
import { currentAboveManagementLimit } from "./current-above-management-limit.ts";
import { disconnectInOneReturn } from "./disconnect-in-one-return.ts";
import { excessChargeCurrent } from "./excess-charge-current.ts";
import { missingDisconnect } from "./missing-disconnect.ts";
import { missingPreCharge } from "./missing-pre-charge.ts";
import { mixedString } from "./mixed-string.ts";
import { overheatedBattery } from "./overheated-battery.ts";
import { overloadedSource } from "./overloaded-source.ts";
import { shortablePost } from "./shortable-post.ts";
import { silentShutdown } from "./silent-shutdown.ts";
import { singlePointBlackout } from "./single-point-blackout.ts";
import { softSwitchedContactor } from "./soft-switched-contactor.ts";
import { surgeAboveManagementLimit } from "./surge-above-management-limit.ts";
import { switchedOffAlwaysOnLoad } from "./switched-off-always-on-load.ts";
import { tappedMidPoint } from "./tapped-mid-point.ts";
import { tooManyUnits } from "./too-many-units.ts";
import { touchableDcPart } from "./touchable-dc-part.ts";
import { undersizedDisconnect } from "./undersized-disconnect.ts";
import { unequalLeads } from "./unequal-leads.ts";
import { unevenSharing } from "./uneven-sharing.ts";
import { unrestrainedBattery } from "./unrestrained-battery.ts";
import { unventedBattery } from "./unvented-battery.ts";
import { wrongVoltageLoad } from "./wrong-voltage-load.ts";

export const batteryRules: readonly Rule[] = [
  surgeAboveManagementLimit,
  currentAboveManagementLimit,
  crankingBeyondTheBattery,
  excessChargeCurrent,
  unevenSharing,
  unequalLeads,
  tappedMidPoint,
  mixedString,
  tooManyUnits,
  wrongVoltageLoad,
  touchableDcPart,
  coldCharging,
  overheatedBattery,
  unventedBattery,
  batteryInTheLivingSpace,
  unrestrainedBattery,
  batteryByFuel,
  shortablePost,
  missingDisconnect,
  undersizedDisconnect,
  disconnectInOneReturn,
  softSwitchedContactor,
  missingPreCharge,
  switchedOffAlwaysOnLoad,
  silentShutdown,
  singlePointBlackout,
  overloadedSource,
];
