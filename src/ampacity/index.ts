export { leastCounted } from "./least-counted.ts";
export { ambientFactor } from "./ambient-factor.ts";
export { ampacityAmps, capAmps, stretchFactor, tableAmps, worstFactor } from "./ampacity-amps.ts";
export { ampacity, type Ampacity, type AmpacityCap, type AmpacityInput, type StretchAmpacity } from "./ampacity.ts";
export { carriesBy, type Carries, type CarriesLying, type Lying } from "./carries.ts";
export { conductorTemperature } from "./conductor-temperature.ts";
export { findAmpacityRow, type FoundRow, type RowChoice } from "./find-row.ts";
export { asUsual, ratedBy, type Installed, type RatedBy } from "./installed.ts";
export type { AmpacityFactor } from "./stretch-factors.ts";
export type { Stretch } from "./stretch.ts";
export { bundleFactorModel, bundleTemperature, type BundledWire, type Packing } from "./thermal/bundle.ts";
export { conduitAmpacity } from "./thermal/conduit.ts";
export {
  conductorTemperatureFreeAir,
  freeAirAmpacity,
  HOTTEST,
  type FreeAirInput,
  type FreeAirLoad,
  type ThermalConductor,
} from "./thermal/free-air.ts";
export { groupedCablesAmpacity, type Arrangement } from "./thermal/grouped-cables.ts";
export type { Surroundings } from "./thermal/surface-loss.ts";
export { thermalConductor, type InsulationFacts } from "./thermal/thermal-conductor.ts";
