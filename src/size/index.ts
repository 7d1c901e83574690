export { steadyShareOf } from "./alternating-place.ts";
export { type Case } from "./cases.ts";
export { bankSharing, type BankSharing, type UnitShare } from "./bank-sharing.ts";
export { boughtAmps, readBoughtWire, type BoughtMake, type BoughtWire } from "./bought-wire.ts";
export { functionOfCore, proposedColours } from "./colour-scheme.ts";
export { constraintIds } from "./design.ts";
export type {
  BareEnd,
  BoughtOnPaper,
  CableOnPaper,
  CircuitDesign,
  CollapseInState,
  ColourOnPaper,
  Constraint,
  ConstraintId,
  Design,
  DeviceDesign,
  LoadDesign,
  LoadInState,
  SizeOnPaper,
  SourceInState,
  StateDesign,
} from "./design.ts";
export { ampacityAt, runOhms, steadyAt, temperatureAt, type Rungs } from "./ladder.ts";
export type {
  CircuitFaults,
  ConductorFault,
  DeviceFault,
  EndFault,
  EndFaults,
  FaultCourse,
  FaultDevice,
  FaultStudy,
  GreatestFault,
  LeastFault,
  OpenedBy,
  OpenFault,
  SeenBy,
  TerminalFault,
  Withstand,
} from "./fault-study.ts";
export { fillCase, layNetwork, type Laid } from "./lay-network.ts";
export { caseName, settleDesign, settleDesignInSteps, type SettledDesign } from "./make-design.ts";
export type { CircuitModel, Judged, Model } from "./model.ts";
export { ampacityIn } from "./make-design.ts";
export { onPaper, stocked } from "./weigh-constraints.ts";
export { mostAllowed, mostAllowedAt } from "./devices-allow.ts";
export { applianceLimitAt } from "./device-setting.ts";
export type { CircuitDevices, NoDevice, PlacedDevice } from "./place-devices.ts";
export { labelContextOf, ruleSetOf, suppliesBySet, whyNoRules, withRules } from "./rule-set-of.ts";
export { runToEnd } from "./run-to-end.ts";
export { sizesByConstraint, type SizesByConstraint } from "./sizes-by-constraint.ts";
export type { LeadAnswer, Settled, Sides, SizeLeads } from "./settled.ts";
export { studyHeat, type CircuitHeat, type HeatInState, type HeatRange, type HeatStudy } from "./study-heat.ts";
export type { JudgedWorst, Weigher } from "./weigher.ts";
export { studyEnds, studyFaults } from "./study-faults.ts";
