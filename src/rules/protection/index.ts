import type { Rule } from "../rule.ts";
import { acOnlyDeviceOnDc } from "./ac-only-device-on-dc.ts";
import { alternatorDeviceOffRating } from "./alternator-device-off-rating.ts";
import { cableBurntBeforeClearing } from "./cable-burnt-before-clearing.ts";
import { deviceAboveApplianceLimit } from "./device-above-appliance-limit.ts";
import { deviceTrippedByStart } from "./device-tripped-by-start.ts";
import { distantDevice } from "./distant-device.ts";
import { faultTooSmallToClear } from "./fault-too-small-to-clear.ts";
import { fusedEarthedConductor } from "./fused-earthed-conductor.ts";
import { heatSappedDevice } from "./heat-sapped-device.ts";
import { lowVoltageRating } from "./low-voltage-rating.ts";
import { missingPole } from "./missing-pole.ts";
import { oneEndedTwoSourceCable } from "./one-ended-two-source-cable.ts";
import { overdrawnFeeder } from "./overdrawn-feeder.ts";
import { oversizedDevice } from "./oversized-device.ts";
import { polarisedBreakerBothWays } from "./polarised-breaker-both-ways.ts";
import { selfResettingBreaker } from "./self-resetting-breaker.ts";
import { undersizedDevice } from "./undersized-device.ts";
import { unguardedStalledMotor } from "./unguarded-stalled-motor.ts";
import { unprotectedConductor } from "./unprotected-conductor.ts";
import { weakInterruptRating } from "./weak-interrupt-rating.ts";

export const protectionRules: readonly Rule[] = [
  unprotectedConductor,
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
  polarisedBreakerBothWays,
  fusedEarthedConductor,
  missingPole,
  overdrawnFeeder,
  selfResettingBreaker,
];
