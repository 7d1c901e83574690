import { metres, type Metres } from "../../quantity/index.ts";
import type { ThermalConductor } from "./free-air.ts";
import { layerResistance } from "./insulation.ts";

/** Mineral wool and closed foam, 0.04 W/(m·K); textbooks, from memory. */
export const WOOL_RESISTIVITY = 25;

/**
 * A conductor with a thick layer of thermal insulation around it, as one conductor: the same metal within an insulation of the same outside and the
 * same resistance to heat, so that it may lie in any way that a bare one can.
 *
 * The layer is taken as round and whole; wool on one side only lets more heat out.
 *
 * @param thickness of the layer on every side, m; ≥ 0
 * @param resistivity of the layer, K·m/W
 * @source two layers in series, IEC 60287-2-1
 * @example 50 mm of wool around a 2.5 mm² wire: 104 mm across
 * wrapped({ metal: "copper", at20: ohmsPerMetre(7.41e-3), conductorDiameter: metres(2e-3), outsideDiameter: metres(3.6e-3), resistivity: 5 }, metres(0.05)).outsideDiameter //=> 0.1036
 */
export function wrapped(
  conductor: ThermalConductor,
  thickness: Metres,
  resistivity = WOOL_RESISTIVITY,
): ThermalConductor {
  const { conductorDiameter, outsideDiameter } = conductor;
  const outside = metres(outsideDiameter + 2 * thickness);
  if (outside === conductorDiameter) return conductor;
  const both =
    layerResistance(conductor.resistivity, conductorDiameter, outsideDiameter) +
    layerResistance(resistivity, outsideDiameter, outside);
  return { ...conductor, outsideDiameter: outside, resistivity: both / layerResistance(1, conductorDiameter, outside) };
}
