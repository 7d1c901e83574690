import type { Fitness } from "../make/wire-make.ts";
import type { TypeCode } from "./type-code.ts";

/** What a wire bears that is marked with several types, such as `THHN/THWN-2` or `RHH/RHW-2/USE-2`. */
export type MarkedTypes = Pick<
  TypeCode,
  "code" | "volts" | "voltsSay" | "temperatureC" | "wetTemperatureC" | "fitness"
>;

const most = (values: readonly (number | null)[]): number | null =>
  values.reduce((best, value) => (value === null || (best !== null && best >= value) ? best : value), null);

/** Yes where one type says yes: the wire has passed what each of its types asks; no where all that speak of it say no. */
function either(values: readonly (boolean | null)[]): boolean | null {
  return values.includes(true) ? true : values.includes(false) ? false : null;
}

/**
 * What a wire bears that is marked with several types: it meets each of them, so the best of each fact holds.
 *
 * Ampacity and place of use still follow the type under which it is installed.
 *
 * @param types at least one
 * @example
 * severalTypes([...typeChoices("THHN"), ...typeChoices("THWN-2")]).code //=> "THHN/THWN-2"
 * severalTypes([...typeChoices("THHN"), ...typeChoices("THWN-2")]).wetTemperatureC //=> 90
 */
export function severalTypes(types: readonly TypeCode[]): MarkedTypes {
  const fit = (fact: keyof Fitness) => either(types.map(({ fitness }) => fitness[fact]));
  const volts = most(types.map((type) => type.volts));
  return {
    code: types.map(({ code }) => code).join("/"),
    volts,
    voltsSay: types.find((type) => type.volts === volts)?.voltsSay ?? null,
    temperatureC: most(types.map(({ temperatureC }) => temperatureC)),
    wetTemperatureC: most(types.map(({ wetTemperatureC }) => wetTemperatureC)),
    fitness: { wet: fit("wet"), oil: fit("oil"), sun: fit("sun"), flame: fit("flame"), flexible: fit("flexible") },
  };
}
