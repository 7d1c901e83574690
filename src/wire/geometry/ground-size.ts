import { cite, findRow } from "../../explain/index.ts";
import { awg } from "../../reference/awg.ts";
import type { PrintedSize, WireMake } from "../make/wire-make.ts";
import type { Assumption } from "./cable-section-shape.ts";

/** Earth of flat twin and earth by the size of its cores, mm²: BS 6004, from memory. */
const twinAndEarth: Readonly<Record<string, number>> = {
  "1": 1,
  "1.5": 1,
  "2.5": 1.5,
  "4": 1.5,
  "6": 2.5,
  "10": 4,
  "16": 6,
};
/** Ground of North American building cable by the gauge of its conductors, above 10 AWG where it is thinner: from memory. */
const buildingCable: Readonly<Record<string, string>> = { "8": "10", "6": "10", "4": "8", "3": "8", "2": "8" };

const metric = (areaMm2: number): PrintedSize => ({
  system: "mm²",
  name: String(areaMm2),
  label: `${areaMm2} mm²`,
  areaMm2,
  basis: "label",
});
const gauge = (name: string): PrintedSize => ({
  system: "AWG",
  name,
  label: `${name} AWG`,
  areaMm2: findRow(awg, name)?.areaExactMm2 ?? NaN,
  basis: "metal",
});

/**
 * Size of a bare or concentric ground: as told, else as usual for the cable, else like the others.
 *
 * @param assumed takes what was assumed
 */
export function groundSize({ cores, family }: WireMake, size: PrintedSize, assumed: Assumption[]): PrintedSize {
  if (cores?.groundSize != null) return cores.groundSize;
  const earth = family === "twin and earth" && size.system === "mm²" ? twinAndEarth[size.name] : undefined;
  const thinner = family === "building cable" && size.system === "AWG" ? buildingCable[size.name] : undefined;
  const usual = earth !== undefined ? metric(earth) : thinner !== undefined ? gauge(thinner) : null;
  const trust = usual === null ? "practice" : "memory";
  const source = cite("trade-practice", "usual size of the ground", trust);
  const says = `the size of the ground is not told; ${usual === null ? "it is drawn like the others" : `${usual.label} is usual`}`;
  assumed.push({ about: "ground", says, trust, source });
  return usual ?? size;
}
