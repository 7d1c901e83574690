export type {
  DcConverter,
  DcDraw,
  DcElement,
  DcFeed,
  DcLaw,
  DcNetwork,
  DcPort,
  DcProblem,
  DcResistor,
  DcStore,
} from "./dc-network.ts";
export type {
  Collapse,
  DcCondition,
  DcSolution,
  ElementPoint,
  Island,
  NodePoint,
  OperatingPoint,
  PortPoint,
} from "./operating-point.ts";
export { prepareDc, type PreparedDc } from "./prepare-dc.ts";
export type { DcValues } from "./read-network.ts";
export { solveDc } from "./solve-dc.ts";
export { prepareLdlt, type SparseLdlt } from "./sparse-ldlt.ts";
