/** Alternating-current networks: complex volts and currents of sources, conductors and loads in one position of their switches. Usable alone, on plain data. */
export type { AcBranch, AcElement, AcLaw, AcLine, AcLoad, AcNetwork, AcProblem, AcSource } from "./ac-network.ts";
export type {
  AcBranchPoint,
  AcIsland,
  AcLinePoint,
  AcLoadPoint,
  AcNodePoint,
  AcShortage,
  AcSolution,
  AcSourcePoint,
} from "./ac-solution.ts";
export {
  conductorImpedance,
  type ConductorImpedance,
  type ConductorImpedanceInput,
  type Raceway,
} from "./conductor-impedance.ts";
export { phasor, type Phasor } from "./phasor.ts";
export { solveAc, voltsBetween } from "./solve-ac.ts";
