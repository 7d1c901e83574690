export {
  type AmpacityColumn,
  type AmpacityRow,
  type AmpacityRules,
  type AmpacityTable,
  type BundleNote,
  type BundleStep,
} from "./ampacity-rules.ts";
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
  type CurrentKind,
  type DeviceLimit,
  type DeviceLimitInput,
  type DeviceSizeRule,
  type DeviceSizeRules,
  type LawLine,
} from "./device-limit.ts";
export { dropClass, dropProperties, type DropClass, type DropProperty, type DropRules } from "./drop-class.ts";
export { findRuleSet, type FoundRuleSet, type NoRuleSet } from "./find-rule-set.ts";
export { isoSmallCraft } from "./iso-small-craft.ts";
export { leastSize, type LeastSize, type LeastSizeInput, type LeastSizeRules, type SmallUse } from "./least-size.ts";
export type { CarriedRuleSet, Edition, NamedRuleSet, RuleSet } from "./rule-set.ts";
export { ruleSets } from "./rule-sets.ts";
export { usSmallCraft } from "./us-small-craft.ts";
