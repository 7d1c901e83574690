/**
 * What plans need of wire. Conversion, geometry, names and the lesson have doors of their own (`convert/`, `geometry/`, `name/`, `lesson/`): who reads a plan
 * does not load them, and the page stays within its first load.
 */
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
export { resistancePerMetre20, type Resistance20 } from "./resistance-per-metre.ts";
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
