import type { PrintedSize } from "../make/wire-make.ts";
import type { Facts, Option } from "./part.ts";
import {
  printAwg,
  printJis,
  printKcmil,
  printMetric,
  printSae,
  printSaeLabel,
  printSolid,
  printSwg,
  printVehicleDiameter,
} from "./print-size.ts";

/** IEC 60228, and the thin cores of instrument and signal cable. */
const IEC = new Set([
  0.14, 0.22, 0.25, 0.34, 0.35, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300, 400,
  500, 630, 800, 1000,
]);
/** Japanese sizes that are none of IEC 60228. */
const JIS_ALONE = new Set([1.25, 3.5, 5.5, 14, 22, 38, 60, 100]);
/** SAE metric labels that nothing else has. */
const SAE_ALONE = new Set([0.8, 13, 19, 32, 62, 81, 103]);
/** Solid wires of the Japanese trade, mm. */
const JAPANESE_SOLID = new Set([1, 1.2, 1.6, 2, 2.6, 3.2]);

export const isIecArea = (areaMm2: number): boolean => IEC.has(areaMm2);

/**
 * Figures as a label has them: with a point, a comma, or thousands set apart.
 *
 * @returns all that they can mean; none where they are no number that anyone would print
 */
export function readFigures(written: string): readonly number[] {
  if (/^[1-9]\d{0,2},\d{3}$/.test(written))
    return [Number(written.replace(",", ".")), Number(written.replace(",", ""))];
  if (/^0\d/.test(written)) return [];
  const value = Number(written.replace(",", "."));
  return Number.isFinite(value) && value > 0 ? [value] : [];
}

const option = (size: PrintedSize | null, more: Omit<Option, "facts"> = {}, facts: Facts = {}): readonly Option[] =>
  size === null ? [] : [{ facts: { ...facts, size }, ...more }];

const LOST_COMMA = "15 mm² is not made: the comma of 1,5 gets lost";

/** An area that is said to be one. `sq` alone is how the Japanese trade says it. */
export function areaOptions(written: string, unit: "mm2" | "sq" = "mm2"): readonly Option[] {
  return readFigures(written).flatMap((value): readonly Option[] => {
    if (JIS_ALONE.has(value)) return option(printJis(value), { by: `${value} mm² is a size of Japanese wire alone` });
    if (SAE_ALONE.has(value))
      return option(printSaeLabel(value), { by: `${value} mm² stands on vehicle cable of SAE gauge alone` });
    if (value === 2 || value === 8) {
      const japanese = option(printJis(value));
      return unit === "sq"
        ? option(printJis(value))
        : [...japanese, ...option(printSaeLabel(value), { fits: ["vehicle"] })];
    }
    if (value === 3 || value === 5) return [...option(printSaeLabel(value)), ...option(printMetric(value))];
    if (value === 15) return [...option(printMetric(1.5), { by: LOST_COMMA }), ...option(printMetric(15))];
    const trap = IEC.has(value)
      ? {}
      : { trap: `${value} mm² is none of the sizes of IEC 60228; it is taken as printed` };
    return option(printMetric(value), trap);
  });
}

/** `6 mm`, without the square: an area, or one of three diameters. */
export function widthOptions(written: string): readonly Option[] {
  return readFigures(written).flatMap((value): readonly Option[] => {
    const solid = JAPANESE_SOLID.has(value) || (Number.isInteger(value) && value <= 6);
    const vehicle = printVehicleDiameter(value);
    return [
      ...option(printMetric(value), { by: "`mm` is said of mm²" }, { loose: true }),
      ...option(vehicle, {
        fits: ["vehicle", "boat"],
        ...(value === 3 ? { trap: "another list gives 1.13 mm² for this number" } : {}),
      }),
      ...(solid ? option(printSolid(value), { fits: JAPANESE_SOLID.has(value) ? ["building"] : [] }) : []),
      ...(vehicle === null && !solid
        ? [{ facts: { outsideMm: value, isWidth: true as const }, fits: ["vehicle", "boat"] as const }]
        : []),
    ];
  });
}

const loose: Omit<Option, "facts"> = {};

/**
 * A gauge number with what it is said to be counted in. `02` may be 2 or 2/0.
 *
 * `ga` alone is taken for American gauge: that is what it means in all of the trade but the vehicle's, where the reader asks (see `decideGauge`).
 */
export function gaugeOptions(name: string, unit: "awg" | "ga" | "swg" | "sae" | null): readonly Option[] {
  const written = name.replace(/ /g, "");
  if (/^0[1-9]$/.test(written)) {
    const digit = written.charAt(1);
    return [...gaugeOptions(digit, unit), ...(digit <= "4" ? gaugeOptions(`${digit}/0`, unit) : [])];
  }
  if (/^0\d/.test(written) && !/^0+$/.test(written)) return [];
  if (unit === "swg") return option(printSwg(written));
  const vehicle = printSae(written);
  if (unit === "sae") return option(vehicle, loose, { saeGauge: true });
  if (vehicle === null || unit === "awg") return option(printAwg(written), loose);
  return option(printAwg(written), loose, { vehicleSize: vehicle, ...(unit === null ? { isUnitless: true } : {}) });
}

/** Thousands of circular mils, or those counted one by one. */
export function circularMilOptions(written: string, counted: "thousands" | "ones"): readonly Option[] {
  const grouped = written.replace(/[ ,](?=\d{3}(?:\D|$))/g, "");
  const value = counted === "ones" ? Number(grouped) / 1000 : Number(grouped.replace(",", "."));
  return option(printKcmil(value));
}

/** A number with nothing beside it that tells what it counts. */
export function bareOptions(written: string): readonly Option[] {
  const bare: Facts = { bare: true };
  // Here nothing is left open, so that it is not counted among the bare ones.
  if (/^0{1,4}$/.test(written)) return option(printAwg(written), { by: "no area is nought; a gauge is" });
  const gauges = /^\d{1,2}$/.test(written) ? gaugeOptions(written, null) : [];
  const areas = readFigures(written).flatMap((value) => [
    ...(value === 15 ? option(printMetric(1.5), { by: LOST_COMMA, fits: ["metric"] }) : []),
    ...option(JIS_ALONE.has(value) ? printJis(value) : printMetric(value), { fits: ["metric"] }),
    ...(value >= 250 && value % 50 === 0 ? option(printKcmil(value)) : []),
    ...(/[.,]/.test(written) && value < 10
      ? JAPANESE_SOLID.has(value)
        ? option(printSolid(value))
        : [{ facts: { outsideMm: value, isWidth: true as const }, fits: ["vehicle", "boat"] as const }]
      : []),
  ]);
  return [...gauges, ...areas].map((each) => ({ ...each, facts: { ...each.facts, ...bare } }));
}
