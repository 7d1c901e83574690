import { lookUp, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { acImpedance } from "../../reference/ac-impedance.ts";
import type { Metal } from "../metal.ts";
import { americanRow, type WireSize } from "../wire-size.ts";

/** What the conduit is made of: steel adds losses and reactance, aluminium losses. */
export type ConduitMaterial = "PVC" | "aluminium" | "steel";

/** Of one conductor to neutral, at 60 Hz and 75 °C. */
export interface ConduitImpedance {
  readonly resistanceOhmsPerMetre: number;
  readonly reactanceOhmsPerMetre: number;
  readonly trust: Trust;
  readonly source: Citation;
}

/** 1000 ft in metres. */
const KFT = 304.8;

const resistances = {
  copper: { PVC: "rCuPvcConduitOhmPerKft", aluminium: "rCuAlConduitOhmPerKft", steel: "rCuSteelConduitOhmPerKft" },
  aluminium: { PVC: "rAlPvcConduitOhmPerKft", aluminium: "rAlAlConduitOhmPerKft", steel: "rAlSteelConduitOhmPerKft" },
} as const;

/**
 * Published resistance and reactance of building wire in conduit, 600 V, three single conductors.
 *
 * Two digits only: up to 4 AWG Table 8 and `conductorResistance` are finer.
 *
 * @returns Ω/m of one conductor; null where the table has no such size or metal
 * @source NFPA 70 Chapter 9 Table 9
 * @example 4/0 copper in steel: 0.063 + j 0.051 Ω/kft
 * conduitImpedance(awgSize("4/0"), "copper", "steel").reactanceOhmsPerMetre * 304.8 //=> 0.051
 */
export function conduitImpedance(size: WireSize, metal: Metal, conduit: ConduitMaterial): ConduitImpedance | null {
  if (americanRow(size) === null) return null;
  const r = lookUp(acImpedance, size.name, resistances[metal][conduit]);
  const x = lookUp(
    acImpedance,
    size.name,
    conduit === "steel" ? "xlSteelConduitOhmPerKft" : "xlPvcOrAlConduitOhmPerKft",
  );
  if (r === null || x === null) return null;
  return {
    resistanceOhmsPerMetre: r.value / KFT,
    reactanceOhmsPerMetre: x.value / KFT,
    trust: weakestTrust(r.trust, x.trust),
    source: r.source,
  };
}

/**
 * What counts for the voltage drop at a power factor.
 *
 * @param powerFactor 0…1, lagging
 * @returns Ω/m, of one conductor; a two-wire circuit takes twice as much
 * @source NFPA 70 Chapter 9 Table 9 note 2: Ze = R · PF + X · sin(arccos PF)
 * @example
 * effectiveImpedance({ resistanceOhmsPerMetre: 2e-4, reactanceOhmsPerMetre: 1e-4 }, 0.85) //=> 2.2268e-4
 */
export const effectiveImpedance = (
  {
    resistanceOhmsPerMetre,
    reactanceOhmsPerMetre,
  }: Pick<ConduitImpedance, "resistanceOhmsPerMetre" | "reactanceOhmsPerMetre">,
  powerFactor: number,
): number => resistanceOhmsPerMetre * powerFactor + reactanceOhmsPerMetre * Math.sqrt(1 - powerFactor ** 2);
