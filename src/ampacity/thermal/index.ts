/** Heat of conductors beyond the tables: at any current, in pulses and cycles, in faults, and beside what is published. Loaded where it is asked for. */
export {
  adiabaticK,
  adiabaticTemperature,
  adiabaticTime,
  iceaFaultCurrent,
  leastFaultArea,
  withstandI2t,
  type FaultedConductor,
} from "./adiabatic.ts";
export { airPressure } from "./air-pressure.ts";
export { bundleFactorModel, bundleTemperature, type BundledWire, type Packing } from "./bundle.ts";
export { bundledTemperatures, type BundleHeat, type LaidWire } from "./bundled-temperatures.ts";
export { conduitAmpacity } from "./conduit.ts";
export { cycleTemperature, rmsAmps, SHORT_STEP, type CycleHeat } from "./duty-cycle.ts";
export { faultLimit, usualFaultInsulation, type FaultInsulation, type FaultLimit } from "./fault-limit.ts";
export {
  conductorTemperatureFreeAir,
  freeAirAmpacity,
  HOTTEST,
  type FreeAirInput,
  type FreeAirLoad,
  type ThermalConductor,
} from "./free-air.ts";
export { onderdonkCurrent, preeceCurrent } from "./fusing.ts";
export { groupedCablesAmpacity, type Arrangement } from "./grouped-cables.ts";
export { heatBeside, PLAUSIBLE, type BesideInput, type HeatBeside, type PublishedCell } from "./heat-beside.ts";
export { heatCapacity, timeConstant } from "./heat-capacity.ts";
export { ampacityLying, temperatureLying, type HeatWay } from "./lying.ts";
export { nonAdiabaticGain, timeToReach, type SlowFault, type TakesUpHeat } from "./non-adiabatic.ts";
export { pulseAmps, temperatureAfter } from "./pulse.ts";
export type { DutyStep } from "./step-course.ts";
export type { Surroundings } from "./surface-loss.ts";
export { thermalConductor, type InsulationFacts } from "./thermal-conductor.ts";
export { wrapped } from "./wrapped.ts";
