export { missingSays, type Assumption, type MissingFact } from "./assumption.ts";
export {
  closedInStates,
  vaPerAmp,
  type AlternatingDraw,
  type Contact,
  type Converter,
  type Draw,
  type EarthJoin,
  type Feed,
  type InternalElement,
  type Join,
  type Level,
  type Mover,
  type MoverRule,
  type ResidualGuard,
  type Source,
  type Store,
  type StoreUnit,
} from "./element.ts";
export { alternatingPaths, suppliedIn } from "./alternating-paths.ts";
export { givesIn, mayWork } from "./gives-in.ts";
export { findEarthLeads, type EarthLead } from "./earth-leads.ts";
export { inLines } from "./line-devices.ts";
export { loadedConductors } from "./circuit-cables.ts";
export { coresOf } from "./circuit-colours.ts";
export { kinds } from "./kinds/index.ts";
export { lineVolts } from "./kinds/alternating-poles.ts";
export { defineKind, type Kind, type Traits } from "./kind.ts";
export { straightDistance } from "./circuit-lengths.ts";
export { resolveSystem } from "./resolve-system.ts";
export type {
  Conductor,
  CoreColour,
  GivenDevice,
  GivenState,
  Interlock,
  PlannedCable,
  QuietState,
  Stock,
  Supply,
  System,
  SystemCircuit,
  SystemPart,
  Zone,
  ZoneShare,
} from "./system.ts";
export type { CurrentKind, Fn } from "./terminal.ts";
export { terminalName } from "./terminal.ts";
export { exactly, given, type Origin, type Value } from "./value.ts";
export { makeGrid, type Grid, type GridConverter, type GridDraw, type GridEdge } from "./grid.ts";
export { stripTrees, sumTrees, type Trees } from "./strip-trees.ts";
export { reachAlternating, type AlternatingWatts } from "./reach-alternating.ts";
export {
  coldByCoefficient,
  coldByFactor,
  coldFactor,
  coldVolts,
  fallEachKelvin,
  type ColdVolts,
  type Slope,
} from "./solar-volts.ts";
export { storeVolts } from "./store-volts.ts";
