import { weakestTrust, type Trust } from "../../explain/index.ts";
import { metres, type Metres } from "../../quantity/index.ts";
import {
  conductorDiameter,
  resistancePerMetre20,
  usualInsulationThickness,
  type ConductorMake,
} from "../../wire/index.ts";
import type { ThermalConductor } from "./free-air.ts";
import { THERMAL_RESISTIVITY } from "./insulation.ts";

/** What may be known of a conductor's insulation. */
export interface InsulationFacts {
  /** Over the insulation, measured or from a data sheet. */
  readonly outsideDiameter?: Metres;
  /** PVC, which lets the least heat through, where left out. */
  readonly material?: keyof typeof THERMAL_RESISTIVITY;
}

/**
 * A conductor as the thermal model needs it: resistance and diameters from its make, the usual wall where none was measured.
 *
 * @returns the conductor, and the weakest trust of what it was made from
 * @example
 * thermalConductor({ size: awgSize("10"), metal: "copper", plating: "plain", strands: "class B" }).conductor.outsideDiameter //=> 0.00447
 */
export function thermalConductor(
  make: ConductorMake,
  facts: InsulationFacts = {},
): { readonly conductor: ThermalConductor; readonly trust: Trust } {
  const resistance = resistancePerMetre20(make);
  const bare = conductorDiameter(make);
  const wall = facts.outsideDiameter === undefined ? usualInsulationThickness(make.size) : null;
  const conductor: ThermalConductor = {
    metal: make.metal,
    at20: resistance.ohmsPerMetre,
    conductorDiameter: bare.value,
    // A measured diameter below the metal's own would be a slip; the metal is the least it can be.
    outsideDiameter: metres(Math.max(bare.value, facts.outsideDiameter ?? bare.value + 2 * (wall?.value ?? 0))),
    resistivity: THERMAL_RESISTIVITY[facts.material ?? "PVC"],
  };
  return { conductor, trust: weakestTrust(resistance.trust, bare.trust, wall?.trust ?? "derived") };
}
