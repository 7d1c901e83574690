import type { Rule } from "../rule.ts";
import { deviceAboveApplianceLimit } from "./device-above-appliance-limit.ts";
import { distantDevice } from "./distant-device.ts";
import { oneEndedTwoSourceCable } from "./one-ended-two-source-cable.ts";
import { oversizedDevice } from "./oversized-device.ts";
import { undersizedDevice } from "./undersized-device.ts";
import { unprotectedConductor } from "./unprotected-conductor.ts";

export const protectionRules: readonly Rule[] = [
  unprotectedConductor,
  distantDevice,
  oneEndedTwoSourceCable,
  oversizedDevice,
  undersizedDevice,
  deviceAboveApplianceLimit,
];
