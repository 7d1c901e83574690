/**
 * Thermal resistivity of insulating materials, K·m/W.
 *
 * @source IEC 60287-2-1, table of thermal resistivities (EVA as quoted)
 */
export const THERMAL_RESISTIVITY = {
  PVC: 5.0,
  PE: 3.5,
  XLPE: 3.5,
  EPR: 3.5,
  rubber: 5.0,
  silicone: 5.0,
  EVA: 4.4,
} as const;

/**
 * Thermal resistance of a round layer around a conductor, per metre of its length.
 *
 * @param resistivity of the layer, K·m/W; ≥ 0
 * @param inner diameter beneath the layer, m; > 0
 * @param outer diameter over the layer, m; ≥ inner
 * @returns K·m/W; 0 for a bare conductor
 * @source IEC 60287-2-1, thermal resistance of the insulation of a single-core cable
 * @example
 * layerResistance(5.0, 0.0064, 0.0097) //=> 0.331
 */
export const layerResistance = (resistivity: number, inner: number, outer: number): number =>
  (resistivity / (2 * Math.PI)) * Math.log(outer / inner);
