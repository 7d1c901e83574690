import type { CableFamily, PrintedSize } from "../make/wire-make.ts";
import type { Draft, SizeThere } from "./draft.ts";
import type { LabelContext } from "./label-reading.ts";
import { printSae, printSaeLabel, printVehicleDiameter } from "./print-size.ts";
import { namedFamily } from "./make-of.ts";
import { isIecArea } from "./size-options.ts";

const METRIC: ReadonlySet<CableFamily> = new Set([
  "harmonised cable",
  "twin and earth",
  "japanese building cable",
] as const);
const AMERICAN: ReadonlySet<CableFamily> = new Set([
  "building cable",
  "building wire",
  "flexible cord",
  "service cable",
  "boat cable",
] as const);
const AMERICAN_TYPE = /^(?:GPT|TWP|HDT|GXL|SXL|TXL|GTE|HTE|TWE|STS|HTS|SG[TXRE]|STX|DLO|CL[23]|AWM|TEW|PV WIRE)$/;
const METRIC_TYPE = /^(?:FL|C?AV|KIV|HKIV|VCT|CV|[HA]\d|N|6\d{3}|31\d|32|21)/;
/** Japanese wire of one solid core, and flat cable of such cores, are named by its diameter. */
const SOLID_TYPE = /^(?:VVF|VVR|IV|EM-EEF|HIV)/;

const isMetricFraction = ({ size }: SizeThere): boolean =>
  size.system === "mm²" && !Number.isInteger(size.areaMm2) && isIecArea(size.areaMm2);

/** Whether a metric size has the figures of a label of vehicle cable, and is meant as another. */
const isOtherThanSae = ({ system, areaMm2 }: PrintedSize, sizes: number): boolean =>
  system === "JIS" || (sizes === 1 && system === "mm²" && printSaeLabel(areaMm2) !== null);

/** In what the trade of a type counts; null: in either. */
function countsIn(draft: Draft, family: CableFamily | null): "metric" | "american" | null {
  if (draft.types.some(({ code }) => AMERICAN_TYPE.test(code))) return "american";
  if (draft.types.some(({ code }) => METRIC_TYPE.test(code))) return "metric";
  // `1.5 3 core`: fractions of the metric sizes beside cores; gauges have none.
  if (draft.single.count !== undefined && draft.sizes.length > 0 && draft.sizes.every(isMetricFraction))
    return "metric";
  if (family === null) return null;
  return METRIC.has(family) ? "metric" : AMERICAN.has(family) ? "american" : null;
}

/** Whether the label has a number alone, and nothing tells what it counts. */
export const isUnitMissing = (draft: Draft): boolean =>
  draft.sizes.some(({ bare }) => bare) && countsIn(draft, namedFamily(draft) ?? null) === null;

/**
 * Whether one way to read the parts of a label makes a wire that anybody would name so.
 *
 * @param hasWidth whether the label gives a number of millimetres that may be a diameter
 */
export function isSensible(draft: Draft, context: LabelContext | null): boolean {
  const family = namedFamily(draft);
  if (family === undefined) return false;
  const { single, sizes, types } = draft;
  const size = sizes[0]?.size ?? null;
  const isBare = sizes.some(({ bare }) => bare);
  // Beside a size a number that tells nothing else is not another one.
  if (isBare && (sizes.length > 1 || draft.strands.length > 0)) return false;
  if (
    single.loose === true &&
    sizes.length > 1 &&
    sizes.some(({ size: each }) => each.areaMm2 >= 100 && each.system === "mm²")
  )
    return false;
  const trade = countsIn(draft, family);
  const kind = family ?? draft.maybeFamilies[0] ?? null;
  const isJapanese = family === "japanese building cable" || types.some(({ code }) => SOLID_TYPE.test(code));
  for (const { size: each } of sizes) {
    if (each.system === "vehicle diameter") {
      const fitsKind = kind === null || kind === "vehicle wire" || kind === "boat cable" || kind === "trailer cable";
      if (
        !fitsKind ||
        types.some(({ inWords }) => !inWords) ||
        single.ground === "with" ||
        single.ground === "and" ||
        single.paired === true
      )
        return false;
    }
    if (single.saeGauge === true && isOtherThanSae(each, sizes.length)) return false;
    // Strands tell which of two equal labels it is: 28/0.30 is 1.98 mm², and 14 SAE 1.88 mm².
    const [strands] = draft.strands;
    if (each.system === "SAE metric label" && strands !== undefined && single.saeGauge !== true) {
      const metal = printSae(/\((\S+) SAE\)/.exec(each.label)?.[1] ?? "")?.areaMm2 ?? 0;
      if (Math.abs(strands.areaMm2 / metal - 1) > Math.abs(strands.areaMm2 / each.areaMm2 - 1)) return false;
    }
    if (each.system === "solid diameter") {
      const isSolid = draft.strandName === null || draft.strandName === "solid";
      if (!isSolid || (kind !== null && !isJapanese) || (types.length > 0 && !isJapanese) || single.ground === "with")
        return false;
      if (
        single.plating === "tinned" ||
        (single.count !== undefined && !isJapanese && single.count > 1 && draft.strandName === null)
      )
        return false;
    }
    if (isBare && trade === "metric" && (each.system === "AWG" || each.system === "kcmil")) return false;
    if (isBare && trade === "american" && (each.system === "mm²" || each.system === "JIS")) return false;
    if (isJapanese && draft.sizes.length === 1 && each.system === "mm²") return false;
    if (types.some(({ code }) => /^(?:VVF|EM-EEF)/.test(code)) && each.system !== "solid diameter") return false;
  }
  // Who says `auto cable` and a width counts as the shops of Australia and New Zealand do; elsewhere it is vehicle cable with an area.
  const isAuto = single.isAutoCable === true || (single.isAutomotive === true && context === "vehicle");
  if (single.loose === true && isAuto && printVehicleDiameter(size?.areaMm2 ?? 0) !== null) return false;
  // A width that is read as the outside of a cable says nothing of the conductors, so nothing else may.
  if (
    size === null &&
    single.outsideMm !== undefined &&
    single.isWidth === true &&
    ((kind !== "vehicle wire" && kind !== "trailer cable" && (kind !== null || single.count !== undefined)) ||
      types.some(({ inWords }) => !inWords) ||
      single.wires !== undefined)
  )
    return false;
  if (size !== null && single.outsideMm !== undefined && single.isWidth === true) return false;
  // Tray cable has a number of conductors; without one TC is tinned copper.
  if (single.count === undefined && types.some(({ code }) => code === "TC")) return false;
  const isSingleType = types.some(({ counts }) => counts === "single");
  if (single.countByX === true && isSingleType && (single.count ?? 1) > 1) return false;
  if (single.countByX === true && single.isParallel === true && (single.count ?? 1) > 1) return false;
  const isRunOfSingles = single.runs !== undefined && single.count === 1 && single.countByX === undefined;
  if (isRunOfSingles && single.runsBySign === true) {
    // Thin conductors are not laid side by side, and three and more are a cable.
    const isPlausible = single.runs === 2 && (size?.areaMm2 ?? 0) >= 8;
    const isCable = types.length > 0 && !isSingleType;
    if (
      !isSingleType &&
      (!isPlausible ||
        isCable ||
        (kind !== null && kind !== "battery cable" && kind !== "welding cable" && kind !== "boat cable"))
    )
      return false;
  }
  // `30x0.25` counts strands only beside the size that they make up, and cores only where there is none.
  if (draft.strands.length > 0 && single.strandsBySign === true && size === null) return false;
  return !(
    single.countByX === true &&
    sizes.length > 1 &&
    !sizes.every(({ size: each }) => each.label === size?.label) &&
    (size?.areaMm2 ?? 0) < 0.6
  );
}
