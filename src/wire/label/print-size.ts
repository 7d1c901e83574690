import { findRow } from "../../explain/index.ts";
import { saeGauge } from "../../reference/sae-gauge.ts";
import { swg } from "../../reference/swg.ts";
import { vehicleDiameter } from "../../reference/vehicle-diameter.ts";
import type { PrintedSize, PrintedSystem } from "../make/wire-make.ts";
import { awgSize, kcmilSize, saeSize } from "../wire-size.ts";

const made = (
  system: PrintedSystem,
  name: string,
  label: string,
  areaMm2: number,
  basis: PrintedSize["basis"] = "metal",
): PrintedSize => ({ system, name, label, areaMm2, basis });

/** Figures as they are printed: no noughts that say nothing, a point. */
const figures = (value: number): string => String(value);
const round = (diameterMm: number): number => (Math.PI / 4) * diameterMm ** 2;

const aughts = (name: string): string =>
  /^0{1,4}$/.test(name) ? `${name.length}/0` : name.replace(/^0+(?=[1-9])/, "");

/** American gauge; null where the gauge has no such size. */
export function printAwg(name: string): PrintedSize | null {
  const size = awgSize(aughts(name));
  return size === null ? null : made("AWG", size.name, size.label, size.areaMm2);
}

/** Gauge of vehicle cable. */
export function printSae(name: string): PrintedSize | null {
  const size = saeSize(aughts(name));
  return size === null ? null : made("SAE", size.name, size.label, size.areaMm2);
}

/** Thousands of circular mils, above 0 to 2000. */
export function printKcmil(kcmil: number): PrintedSize | null {
  if (!(kcmil > 0 && kcmil <= 2000)) return null;
  const { name, label, areaMm2 } = kcmilSize(kcmil);
  return made("kcmil", name, label, areaMm2);
}

/** British gauge. */
export function printSwg(name: string): PrintedSize | null {
  const row = findRow(swg, aughts(name));
  return row === null ? null : made("SWG", row.swg, `${row.swg} SWG`, row.areaMm2);
}

/** Square millimetres of the metric trade, above 0 to 1000. */
export const printMetric = (areaMm2: number): PrintedSize | null =>
  areaMm2 > 0 && areaMm2 <= 1000 ? made("mm²", figures(areaMm2), `${figures(areaMm2)} mm²`, areaMm2, "label") : null;

/**
 * Square millimetres of Japanese stranded wire.
 *
 * @source sizes after which Japanese crimp terminals are named, as a terminal maker's conversion table gives them
 */
export const printJis = (areaMm2: number): PrintedSize =>
  made("JIS", figures(areaMm2), `${figures(areaMm2)} mm²`, areaMm2, "label");

/** Square millimetres that stand on SAE vehicle cable beside its gauge; null where none has them. */
export function printSaeLabel(areaMm2: number): PrintedSize | null {
  const row = saeGauge.rows.find(({ saeMetricLabelMm2 }) => saeMetricLabelMm2 === areaMm2);
  return row === undefined
    ? null
    : made("SAE metric label", figures(areaMm2), `${figures(areaMm2)} mm² (${row.saeGauge} SAE)`, areaMm2, "label");
}

/**
 * Vehicle cable of Australia and New Zealand, sold by the diameter over its insulation.
 *
 * @returns null where the trade has no such number
 * @source a data sheet of vehicle, marine and battery cable; of two lists that differ for 3 mm the smaller area
 */
export function printVehicleDiameter(diameterMm: number): PrintedSize | null {
  const areaMm2 = findRow(vehicleDiameter, diameterMm)?.areaMm2;
  return areaMm2 === undefined
    ? null
    : made("vehicle diameter", figures(diameterMm), `${figures(diameterMm)} mm vehicle cable`, areaMm2);
}

/** A solid wire by its own diameter, mm. */
export const printSolid = (diameterMm: number): PrintedSize =>
  made("solid diameter", figures(diameterMm), `solid of ${figures(diameterMm)} mm diameter`, round(diameterMm));

/** Strands counted, each of a diameter in mm. */
export const printStrandsMm = (wires: number, wireMm: number, name: string): PrintedSize =>
  made("strands", name, `${name} mm`, wires * round(wireMm));

/** Strands counted, each of an American gauge. */
export function printStrandsAwg(wires: number, gauge: string, name: string): PrintedSize | null {
  const strand = awgSize(gauge);
  return strand === null ? null : made("strands", name, `${name} AWG`, wires * strand.areaMm2);
}

/** Diameter of one wire of an American gauge, mm. */
export const wireOfAwg = (gauge: number): number => Number((0.127 * 92 ** ((36 - gauge) / 39)).toFixed(4));
