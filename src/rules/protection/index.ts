import type { Rule } from "../rule.ts";
import { acOnlyDeviceOnDc } from "./ac-only-device-on-dc.ts";
import { alternatorDeviceOffRating } from "./alternator-device-off-rating.ts";
import { bankWithoutOwnInterrupters } from "./bank-without-own-interrupters.ts";
import { cableBurntBeforeClearing } from "./cable-burnt-before-clearing.ts";
import { deviceAboveApplianceLimit } from "./device-above-appliance-limit.ts";
import { deviceTrippedByStart } from "./device-tripped-by-start.ts";
import { distantDevice } from "./distant-device.ts";
import { faultTooSmallToClear } from "./fault-too-small-to-clear.ts";
import { fusedEarthedConductor } from "./fused-earthed-conductor.ts";
import { heatSappedDevice } from "./heat-sapped-device.ts";
import { lowVoltageRating } from "./low-voltage-rating.ts";
import { misfitArrayFuse } from "./misfit-array-fuse.ts";
import { missingPole } from "./missing-pole.ts";
import { missingSurgeArrester } from "./missing-surge-arrester.ts";
import { oneEndedTwoSourceCable } from "./one-ended-two-source-cable.ts";
import { overdrawnFeeder } from "./overdrawn-feeder.ts";
import { oversizedDevice } from "./oversized-device.ts";
import { polarisedBreakerBothWays } from "./polarised-breaker-both-ways.ts";
import { selfResettingBreaker } from "./self-resetting-breaker.ts";
import { supplementaryBreakerAsMain } from "./supplementary-breaker-as-main.ts";
import { undersizedDevice } from "./undersized-device.ts";
import { unfusedArrayString } from "./unfused-array-string.ts";
import { unfusedBatteryString } from "./unfused-battery-string.ts";
import { unguardedStalledMotor } from "./unguarded-stalled-motor.ts";
import { unguardedTap } from "./unguarded-tap.ts";
import { unprotectedConductor } from "./unprotected-conductor.ts";
import { unreachableDevice } from "./unreachable-device.ts";
import { unselectivePair } from "./unselective-pair.ts";
import { weakInterruptRating } from "./weak-interrupt-rating.ts";

export const protectionRules: readonly Rule[] = [
  unprotectedConductor,
  unguardedTap,
  distantDevice,
  oneEndedTwoSourceCable,
  alternatorDeviceOffRating,
  oversizedDevice,
  undersizedDevice,
  deviceTrippedByStart,
  heatSappedDevice,
  unguardedStalledMotor,
  deviceAboveApplianceLimit,
  lowVoltageRating,
  acOnlyDeviceOnDc,
  weakInterruptRating,
  cableBurntBeforeClearing,
  faultTooSmallToClear,
  unfusedBatteryString,
  unfusedArrayString,
  misfitArrayFuse,
  bankWithoutOwnInterrupters,
  polarisedBreakerBothWays,
  fusedEarthedConductor,
  missingPole,
  overdrawnFeeder,
  unselectivePair,
  selfResettingBreaker,
  supplementaryBreakerAsMain,
  unreachableDevice,
  missingSurgeArrester,
];
