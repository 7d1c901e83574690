import { chargerOnItsOwnInverter } from "./charger-on-its-own-inverter.ts";
import type { Rule } from "../rule.ts";
import { coldStringOvervoltage } from "./cold-string-overvoltage.ts";
import { crossMatedConnector } from "./cross-mated-connector.ts";
import { drainedStartBattery } from "./drained-start-battery.ts";
import { hotStringUndervoltage } from "./hot-string-undervoltage.ts";
import { mismatchedChargeVoltage } from "./mismatched-charge-voltage.ts";
import { mismatchedModules } from "./mismatched-modules.ts";
import { missingArrayGroundFaultGuard } from "./missing-array-ground-fault-guard.ts";
import { missingArrayIsolator } from "./missing-array-isolator.ts";
import { missingRapidShutdown } from "./missing-rapid-shutdown.ts";
import { missingTemperatureSensor } from "./missing-temperature-sensor.ts";
import { overdrivenController } from "./overdriven-controller.ts";
import { overworkedAlternator } from "./overworked-alternator.ts";
import { relayJoinedLithium } from "./relay-joined-lithium.ts";
import { starvedConverter } from "./starved-converter.ts";
import { unbufferedAlternator } from "./unbuffered-alternator.ts";
import { undersizedArrayConductor } from "./undersized-array-conductor.ts";

export const chargingRules: readonly Rule[] = [
  overworkedAlternator,
  unbufferedAlternator,
  relayJoinedLithium,
  mismatchedChargeVoltage,
  coldStringOvervoltage,
  overdrivenController,
  undersizedArrayConductor,
  missingArrayIsolator,
  missingRapidShutdown,
  missingArrayGroundFaultGuard,
  crossMatedConnector,
  hotStringUndervoltage,
  mismatchedModules,
  missingTemperatureSensor,
  starvedConverter,
  drainedStartBattery,
  chargerOnItsOwnInverter,
];
