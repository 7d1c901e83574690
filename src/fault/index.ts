export { clearFault, whenRead, type Cleared, type Opening, type Outcome } from "./clear-fault.ts";
export type { Guard, Opens, Sight } from "./sights.ts";
export type { EdgeFlow, FaultCase, FaultMetal, FaultPoint, FaultPorts, FaultShape } from "./fault-metal.ts";
export type { FaultPlace } from "./find-fault.ts";
export { prepareFaults, type LaidFaults, type PreparedFaults } from "./lay-faults.ts";
export { timeConstant } from "./loop-inductance.ts";
export { faultAmps, solveFault, type SolvedFault } from "./solve-fault.ts";
export { findSources, notStudied, type FaultSources, type GridLimited } from "./sources/find-sources.ts";
export type { LimitedSource } from "./sources/limited-source.ts";
export {
  storeSource,
  type ManagementOpening,
  type Range,
  type StoreBasis,
  type StoreSource,
} from "./sources/store-source.ts";
