import type { Rule } from "../rule.ts";
import { doubledNeutralEarthJoin } from "./doubled-neutral-earth-join.ts";
import { halfOpenedCircuit } from "./half-opened-circuit.ts";
import { lookalikeOutlet } from "./lookalike-outlet.ts";
import { liveInletPins } from "./live-inlet-pins.ts";
import { looseBackFedBreaker } from "./loose-back-fed-breaker.ts";
import { missingArcFaultGuard } from "./missing-arc-fault-guard.ts";
import { missingMainSwitch } from "./missing-main-switch.ts";
import { missingNeutralEarthJoin } from "./missing-neutral-earth-join.ts";
import { missingPolarityGuard } from "./missing-polarity-guard.ts";
import { missingProtectiveConductor } from "./missing-protective-conductor.ts";
import { missingResidualDevice } from "./missing-residual-device.ts";
import { multiwireCircuitOnOnePhase } from "./multiwire-circuit-on-one-phase.ts";
import { multiwireCircuitOpenedApart } from "./multiwire-circuit-opened-apart.ts";
import { alternatingNumericRules } from "./numeric.ts";
import { overloadedPanelBus } from "./overloaded-panel-bus.ts";
import { overlappingTransfer } from "./overlapping-transfer.ts";
import { parallelSources } from "./parallel-sources.ts";
import { residualDeviceSkippedByASource } from "./residual-device-skipped-by-a-source.ts";
import { sharedNeutralBehindTwoGuards } from "./one-neutral-behind-two-guards.ts";
import { unfitResidualDevice } from "./unfit-residual-device.ts";
import { unguardedOutlet } from "./unguarded-outlet.ts";
import { unswitchedNeutral } from "./unswitched-neutral.ts";

/** Alternating current: what may meet, where neutral and earth are joined, what guards people. */
export const acRules: readonly Rule[] = [
  parallelSources,
  overlappingTransfer,
  liveInletPins,
  halfOpenedCircuit,
  missingProtectiveConductor,
  missingNeutralEarthJoin,
  doubledNeutralEarthJoin,
  unswitchedNeutral,
  missingResidualDevice,
  unfitResidualDevice,
  residualDeviceSkippedByASource,
  sharedNeutralBehindTwoGuards,
  unguardedOutlet,
  missingMainSwitch,
  missingPolarityGuard,
  multiwireCircuitOnOnePhase,
  multiwireCircuitOpenedApart,
  looseBackFedBreaker,
  overloadedPanelBus,
  lookalikeOutlet,
  missingArcFaultGuard,
  ...alternatingNumericRules,
];
