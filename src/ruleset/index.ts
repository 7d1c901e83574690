export { alternatingSet } from "./alternating-set.ts";
export { ambientColumn, type AmbientColumn, type AmbientTable } from "./ambient-table.ts";
export type {
  AmpacityRules,
  AmpacityWay,
  BundleNote,
  BundleStep,
  InsulatedStep,
  TerminalRules,
  UsualMethod,
} from "./ampacity-rules.ts";
export type { AmpacityColumn, AmpacityRow, AmpacityTable } from "./ampacity-table.ts";
export { installMethods, methodSays, type InstallMethod } from "./install-method.ts";
export { isNoThinner, sameSystem } from "./compare-conductors.ts";
export { strandsFault, type Asked, type ConductorRules } from "./conductor-rules.ts";
export {
  deviceDistance,
  exemptionFor,
  type DeviceDistanceLimit,
  type DeviceDistanceRules,
  type DeviceExemption,
  type FeedPoint,
} from "./device-distance.ts";
export {
  deviceLimit,
  smallConductor,
  type CurrentKind,
  type DeviceLimit,
  type DeviceLimitInput,
  type DeviceSizeRule,
  type DeviceSizeRules,
  type LateOpening,
  type SmallConductor,
  type StandardRatings,
  type LawLine,
} from "./device-limit.ts";
export { dropClass, dropProperties, type DropClass, type DropProperty, type DropRules } from "./drop-class.ts";
export { findRuleSet, type FoundRuleSet, type NoRuleSet } from "./find-rule-set.ts";
export { isoSmallCraft } from "./iso-small-craft.ts";
export { leastSize, type LeastSize, type LeastSizeInput, type LeastSizeRules, type SmallUse } from "./least-size.ts";
export type { Edition, RuleSet } from "./rule-set.ts";
export { ruleSets } from "./rule-sets.ts";
export { usSmallCraft } from "./us-small-craft.ts";
