/** Alternating-current networks: complex volts and currents of sources, conductors and loads in one position of their switches. Usable alone, on plain data. */
export type { AcBranch, AcElement, AcLoad, AcSource } from "./ac-network.ts";
export type { AcShortage, AcSolution } from "./ac-solution.ts";
export { conductorImpedance, type Raceway } from "./conductor-impedance.ts";
export type { Phasor } from "./phasor.ts";
export { solveAc, voltsBetween } from "./solve-ac.ts";
