import type { Rule } from "../rule.ts";
import { drainedStartBattery } from "./drained-start-battery.ts";
import { mismatchedChargeVoltage } from "./mismatched-charge-voltage.ts";
import { missingTemperatureSensor } from "./missing-temperature-sensor.ts";
import { overdrivenController } from "./overdriven-controller.ts";
import { overworkedAlternator } from "./overworked-alternator.ts";
import { relayJoinedLithium } from "./relay-joined-lithium.ts";
import { starvedConverter } from "./starved-converter.ts";
import { unbufferedAlternator } from "./unbuffered-alternator.ts";

export const chargingRules: readonly Rule[] = [
  overworkedAlternator,
  unbufferedAlternator,
  relayJoinedLithium,
  mismatchedChargeVoltage,
  overdrivenController,
  missingTemperatureSensor,
  starvedConverter,
  drainedStartBattery,
];
