import { fromSi, printQuantity, readQuantity, type Dimension, type Si } from "../../quantity/index.ts";
import type { UnitOf } from "../../quantity/units.ts";
import { compareSizes, sizeOfPrint, stockedSizes, type WireSize } from "../../wire/index.ts";
import { readLabel } from "../../wire/label/read-label.ts";

/** Units that people in the trade think in, where there is more than one. */
const also: Partial<{ readonly [D in Dimension]: readonly UnitOf<D>[] }> = {
  length: ["m", "ft"],
  temperature: ["°C", "°F"],
  mass: ["kg", "lb"],
  energy: ["Wh", "MJ"],
  time: ["s", "min", "h"],
  torque: ["N·m", "lbf·in"],
};

/**
 * A figure as it is written, in other units.
 *
 * @param volts nominal volts where amps and watts may stand for each other; null: nobody knows them
 * @returns empty where it is no figure of these dimensions, or nothing else is in use
 * @example
 * otherUnits("5.2 m", ["length"], null) //=> ["17 ft 1 in"]
 * otherUnits("45 W", ["power"], 12) //=> ["3.75 A at 12 V"]
 */
export function otherUnits(text: string, dimensions: readonly Dimension[], volts: number | null): string[] {
  const read = readQuantity(text, dimensions);
  if (!read.ok || read.amount.form === "unknown") return [];
  const { dimension, low, high, form } = read.amount;
  const written = form === "exact" ? read.amount.terms.map((t) => t.unit) : [];
  const both = (print: (si: number) => string): string =>
    low === high ? print(low) : `${print(low)} … ${print(high)}`;
  const units: readonly string[] = also[dimension] ?? [];
  const said = units
    .filter((unit) => !written.includes(unit as never)) // of the same dimension
    .map((unit) => both((si) => inUnit(si, dimension, unit)))
    .filter((t) => t !== "");
  if (volts !== null && volts > 0 && dimension === "power")
    said.push(`${both((w) => printQuantity((w / volts) as Si<"current">, "current"))} at ${volts} V`); // W / V = A
  if (volts !== null && volts > 0 && dimension === "current")
    said.push(`${both((a) => printQuantity((a * volts) as Si<"power">, "power"))} at ${volts} V`); // A · V = W
  return said.filter((t) => t !== text.trim());
}

function inUnit(si: number, dimension: Dimension, unit: string): string {
  if (dimension === "length" && unit === "ft") return printQuantity(si as Si<"length">, "length", { units: "US" }); // of that dimension
  const value = fromSi(si as never, dimension, unit as never); // a unit out of the list of the dimension
  // Minutes for half a second and hours for a minute are of no use to anybody.
  if (dimension === "time" && (Math.abs(value) < 0.1 || Math.abs(value) > 500)) return "";
  return printQuantity(si as never, dimension, { unit: unit as never }); // as above
}

/**
 * A wire size in the other system: the next one that is not thinner, as sizes are labels and not converted.
 *
 * @example
 * otherSize("2.5 mm²") //=> ["next not thinner: 12 AWG"]
 */
export function otherSize(text: string): string[] {
  const read = readLabel(text);
  const printed = read.verdict === "exact" ? read.readings[0].make.size : null;
  const size = printed === null ? null : sizeOfPrint(printed);
  if (size === null) return [];
  const other = size.system === "mm²" ? "AWG" : "mm²";
  const next: WireSize | undefined = stockedSizes(other).find((s) => compareSizes(s, size) >= 0);
  return [
    ...(size.system === "mm²" ? [] : [`${Number(size.areaMm2.toPrecision(3))} mm² of metal`]),
    ...(next === undefined ? [] : [`next not thinner: ${next.label}`]),
  ];
}
