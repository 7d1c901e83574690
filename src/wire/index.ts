export { isStrands, strandClasses, type ConductorMake, type Plating, type Strands } from "./conductor-make.ts";
export { conductorResistance, type ConductorResistanceInput } from "./conductor-resistance.ts";
export {
  conductorDiameter,
  insulatedDiameter,
  usualInsulationThickness,
  type Dimension,
  type InsulatedType,
} from "./diameter.ts";
export {
  labelContexts,
  readLabel,
  type LabelContext,
  type LabelOptions,
  type LabelProblem,
  type LabelReading,
  type WireReading,
} from "./label/index.ts";
export { metals, resistanceRise, type Metal, type MetalFacts } from "./metal.ts";
export { readWireSize, type WireSizeContext, type WireSizeReading } from "./read-wire-size.ts";
export { resistancePerMetre20, type Resistance20 } from "./resistance-per-metre.ts";
export type { WireSizeProblem, WireSizeProblemId } from "./size-problem.ts";
export { compareSizes, isIecSize, nextSizeUp, stockedSizeAtLeast, stockedSizes } from "./stocked-sizes.ts";
export { sizeOfPrint } from "./size-of-print.ts";
export {
  awgSize,
  kcmilSize,
  metalSize,
  metricSize,
  saeSize,
  sizeSystems,
  type SizeSystem,
  type WireSize,
} from "./wire-size.ts";
export * from "./colour/index.ts";
export * from "./type/index.ts";
export * from "./convert/index.ts";
export * from "./geometry/index.ts";
