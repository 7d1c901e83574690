export { constraintIds } from "./design.ts";
export type {
  BareEnd,
  CircuitDesign,
  CollapseInState,
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
export { settleDesign } from "./make-design.ts";
