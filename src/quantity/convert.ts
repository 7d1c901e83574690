import type { Dimension, Si } from "./dimension.ts";
import type { Celsius, Coulombs, Joules, Metres, SquareMillimetres } from "./quantity.ts";
import { unitOf, type Unit } from "./spellings.ts";
import type { UnitOf } from "./units.ts";

/** A number on a unit's own scale, in the unit inside. */
export const insideOf = (unit: Unit, value: number): number => ((value - unit.zero) * unit.si[0]) / unit.si[1];

/**
 * A number of any unit in the list, as the branded number inside.
 *
 * For tables that are printed in the trade's units, and for tests; plan texts go through `readQuantity`.
 *
 * @param unit the printed spelling
 * @returns in the unit inside: SI, mm² for areas, °C for temperatures
 * @accuracy the nearest double or its neighbour
 * @source factors: units.ts
 * @example resistance per length out of a table
 * toSi(0.554, "resistance per length", "Ω/km") //=> 0.000554
 * toSi(122, "temperature", "°F") //=> 50
 */
export function toSi<D extends Dimension>(value: number, dimension: D, unit: UnitOf<D>): Si<D> {
  return insideOf(unitOf(dimension, unit), value) as Si<D>; // the list says which brand a dimension has
}

/**
 * The number inside, in any unit of the list: the way back from `toSi`.
 *
 * @param si in the unit inside
 * @param unit the printed spelling
 * @returns in `unit`
 * @accuracy the nearest double or its neighbour
 * @source factors: units.ts
 * @example
 * fromSi(metres(4.9784), "length", "in") //=> 196
 */
export function fromSi<D extends Dimension>(si: Si<D>, dimension: D, unit: UnitOf<D>): number {
  const { si: factor, zero } = unitOf(dimension, unit);
  return (si * factor[1]) / factor[0] + zero;
}

/**
 * International feet.
 *
 * @example
 * feet(11) //=> 3.3528
 */
export const feet = (x: number): Metres => toSi(x, "length", "ft");
/**
 * Inches.
 *
 * @example
 * inches(7) //=> 0.1778
 */
export const inches = (x: number): Metres => toSi(x, "length", "in");
/**
 * Ampere-hours.
 *
 * @example
 * ampHours(150) //=> 540000
 */
export const ampHours = (x: number): Coulombs => toSi(x, "charge", "Ah");
/**
 * Watt-hours.
 *
 * @example
 * wattHours(250) //=> 900000
 */
export const wattHours = (x: number): Joules => toSi(x, "energy", "Wh");
/**
 * Degrees Fahrenheit on the scale.
 *
 * @example
 * fahrenheit(122) //=> 50
 */
export const fahrenheit = (x: number): Celsius => toSi(x, "temperature", "°F");
/**
 * Circular mils, areas of circles of a thousandth of an inch.
 *
 * @example
 * circularMils(211600) //=> 107.219
 */
export const circularMils = (x: number): SquareMillimetres => toSi(x, "area", "cmil");
