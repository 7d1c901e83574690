import { cite, type Citation } from "../../explain/index.ts";
import { resistanceRise, metals } from "../metal.ts";
import type { PrintedMetal } from "../make/wire-make.ts";

/** Aluminium wire under a skin of copper: 10 or 15 % of the volume is copper. Annealed (A). */
export type CladClass = "10A" | "15A";

/** What is known of copper-clad aluminium. */
export interface CladFacts {
  /** Greatest resistivity at 20 °C, Ω·mm²/m. */
  readonly rho20: number;
  /** g/cm³. */
  readonly density: number;
  readonly source: Citation;
}

const source = cite("astm-b566", "classes 10A and 15A", "memory");

/**
 * Copper-clad aluminium by class of ASTM B566. Audio and battery cable that says CCA seldom says the class; 10A is the one to fear and to compute with.
 *
 * @source ASTM B566, from memory: 10A 0.02743, 15A 0.02676 Ω·mm²/m; 3.32 and 3.63 g/cm³
 * @example
 * cladAluminium["10A"].rho20 / 0.017241 //=> 1.591
 */
export const cladAluminium: Readonly<Record<CladClass, CladFacts>> = {
  "10A": { rho20: 0.02743, density: 3.32, source },
  "15A": { rho20: 0.02676, density: 3.63, source },
};

/**
 * How many times the resistance of annealed copper of the same shape a metal has, both at the same temperature.
 *
 * @param metal copper-clad aluminium is taken as class 10A, its aluminium core's temperature coefficient with it
 * @param conductorC °C
 * @example
 * resistanceAgainstCopper("copper-clad aluminium", 20) //=> 1.591
 * resistanceAgainstCopper("aluminium", 20) //=> 1.6393
 */
export function resistanceAgainstCopper(metal: PrintedMetal, conductorC: number): number {
  if (metal === "copper") return 1;
  const rho = metal === "aluminium" ? metals.aluminium.rho20 : cladAluminium["10A"].rho20;
  return ((rho / metals.copper.rho20) * resistanceRise("aluminium", conductorC)) / resistanceRise("copper", conductorC);
}
