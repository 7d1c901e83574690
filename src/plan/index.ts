export { isUnknown, known, placed, type Fact, type Measure } from "./fact.ts";
export { circuitKeys } from "./grammar/circuit-keys.ts";
export { deviceOnLine, type DeviceOnLine } from "./grammar/device-on-line.ts";
export { partKeys } from "./grammar/part-keys.ts";
export { cableLabel, isSizeAlone, wireLabel } from "./grammar/labels.ts";
export type { Path, PathPoint } from "./grammar/path.ts";
export type { Position } from "./grammar/position.ts";
export { foldName, listed, recordOf, shown } from "./grammar/record.ts";
export type { FactsOf, JsonSchema, KeyRule, KeyRules, ValueRule } from "./grammar/rule.ts";
export {
  count,
  either,
  listOf,
  mapOf,
  name,
  quantity,
  quantityIn,
  text,
  word,
  yesNo,
  type MeasureIn,
  type Named,
} from "./grammar/values.ts";
export { residualCurrent } from "./grammar/residual-current.ts";
export { tellsOfCable, type WrittenCable, type WrittenWire } from "./grammar/written-label.ts";
export type {
  CircuitFacts,
  KindWords,
  PartFacts,
  PartInState,
  Plan,
  PlanItem,
  PlanPart,
  PlanState,
  PlanWord,
  StateFacts,
  SystemFacts,
  WayFacts,
} from "./plan.ts";
export { createPlanMemory, readPlan, sectionNames, type PlanMemory } from "./read-plan.ts";
export { nearestNames } from "./text/index.ts";
