import { saeGauge } from "../reference/sae-gauge.ts";
import type { PrintedSize } from "./make/wire-make.ts";
import { awgSize, kcmilSize, LARGEST, metalSize, metricSize, saeSize, type WireSize } from "./wire-size.ts";

/**
 * The size that a conductor is computed with, from the one that is printed on it.
 *
 * Gauges, circular mils and the square millimetres of IEC 60228 and of Japanese wire are sizes as they stand. A metric label of SAE vehicle cable is the gauge that
 * it stands for. Counted strands, British gauge and diameters tell an area of metal.
 *
 * @returns null beyond the sizes that the tables go to
 * @example
 * sizeOfPrint({ system: "SWG", name: "14", label: "14 SWG", areaMm2: 3.243, basis: "metal" }).areaMm2 //=> 3.243
 * sizeOfPrint({ system: "SAE metric label", name: "13", label: "13 mm² SAE", areaMm2: 13, basis: "label" }).label //=> "6 SAE"
 */
export function sizeOfPrint({ system, name, label, areaMm2, basis }: PrintedSize): WireSize | null {
  if (!(areaMm2 > 0 && areaMm2 <= LARGEST.kcmil)) return null;
  switch (system) {
    case "AWG":
      return awgSize(name);
    case "SAE":
      return saeSize(name);
    case "kcmil":
      return Number(name) > 0 && Number(name) <= LARGEST.kcmil ? kcmilSize(Number(name)) : null;
    case "SAE metric label":
      return saeByLabel(areaMm2);
    default:
      if (basis === "metal") return metalSize(areaMm2, label);
      return areaMm2 <= LARGEST.mm2 ? metricSize(areaMm2) : null;
  }
}

/** SAE vehicle cable by the square millimetres that are printed on it. */
function saeByLabel(areaMm2: number): WireSize | null {
  const row = saeGauge.rows.find(({ saeMetricLabelMm2 }) => saeMetricLabelMm2 === areaMm2);
  return row === undefined ? null : saeSize(row.saeGauge);
}
