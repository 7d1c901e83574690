import { findRow } from "../../explain/index.ts";
import { cableTypes } from "../../reference/cable-types.ts";
import type { WireMake } from "../make/wire-make.ts";

/**
 * The temperature at which a make may be rated: that of its insulation, or a lower one that the code asks for with its type.
 *
 * Knows nothing of wet places: there the make's own wet temperature counts as well.
 *
 * @returns °C; null: the label does not tell
 * @source NFPA 70 334.80 and 340.80: the wires in NM-B, NMC-B and UF-B are made for 90 °C, and the cable is rated by the column of 60 °C
 * @example
 * ratedTemperature({ type: "NM-B", temperatureC: 90 }) //=> 60
 * ratedTemperature({ type: "XHHW-2", temperatureC: 90 }) //=> 90
 */
export function ratedTemperature({ type, temperatureC }: Pick<WireMake, "type" | "temperatureC">): number | null {
  const limit = type === null ? null : (findRow(cableTypes, type)?.ampacityC ?? null);
  return temperatureC === null || limit === null ? temperatureC : Math.min(temperatureC, limit);
}
