import type { PrintedSize } from "../make/wire-make.ts";
import type { Facts, Option } from "./part.ts";
import { printAwg, printMetric, printSolid, printStrandsAwg, printStrandsMm, wireOfAwg } from "./print-size.ts";
import { areaOptions, bareOptions, gaugeOptions, isIecArea, readFigures, widthOptions } from "./size-options.ts";

/** Strand counts that conductors are built of; `19/27` counts strands, `14/24` may count conductors. */
const STRAND_COUNTS = new Set([7, 10, 16, 19, 26, 37, 41, 49, 65]);
const isStrandCount = (count: number): boolean => STRAND_COUNTS.has(count) || count > 40;

export const map = (options: readonly Option[], facts: Facts): readonly Option[] =>
  options.map((each) => ({ ...each, facts: { ...each.facts, ...facts } }));

/** A size with the unit that was written beside it. */
export function sized(written: string, unit: string | undefined): readonly Option[] {
  if (unit === undefined && written.includes("/")) return gaugeOptions(written, null);
  if (unit === undefined) return bareOptions(written.replace(/ /g, ""));
  if (/^(?:ga|gau)/.test(unit)) return gaugeOptions(written, "ga");
  if (/^(?:aw|a\.|b|am)/.test(unit)) return gaugeOptions(written, "awg");
  if (unit === "mm") return widthOptions(written);
  return areaOptions(written, /^sq\.?$/.test(unit) ? "sq" : "mm2");
}

const areaNamed = (written: string): PrintedSize | null => {
  const [value] = readFigures(written);
  return value === undefined ? null : printMetric(value);
};

/** How many wires stranded conductors of the old British sizes have. */
const BRITISH_COUNTS = new Set([1, 3, 7, 19, 37, 61, 91, 127]);

/** `19/.083`: old British cable counted its wires in inches, .018 to .103, and such a figure may be thin wires in mm as well. */
const isBritishInch = (wires: number, thick: number): boolean =>
  BRITISH_COUNTS.has(wires) && thick >= 0.018 && thick <= 0.103 && thick !== 0.1;

/** `7/1.04`: metric British stranding of thick wires. */
const isThickStranding = (wires: number, thick: string): boolean =>
  BRITISH_COUNTS.has(wires) && Number(thick.replace(",", ".")) < 4 && (wires > 3 || /[.,]\d\d$/.test(thick));

/** `19/.083 in`: strands that are said to be measured in inches. */
export const saidInInches = ([, count = "", thick = ""]: RegExpExecArray): readonly Option[] | null =>
  strandsInch(count, thick);

function strandsInch(count: string, thick: string): readonly Option[] | null {
  const wires = Number(count);
  const inches = Number(thick.replace(",", "."));
  if (wires < 1 || inches < 0.003 || inches > 0.2) return null;
  const name = `${count}/${inches}`;
  const strands = { ...printStrandsMm(wires, inches * 25.4, name), label: `${name} in` };
  return [{ facts: { strands, wires, wireMm: Number((inches * 25.4).toFixed(4)) } }];
}

function strandsMm(count: string, thick: string, isMm = false): readonly Option[] | null {
  const wires = Number(count);
  const wireMm = Number(thick.replace(",", "."));
  const plain = `${count}/${thick
    .replace(",", ".")
    .replace(/^\./, "0.")
    .replace(/^(0\.\d)$/, "$10")}`;
  if (wireMm >= 0.05 && (wires >= 3 || isMm || wireMm >= 1)) {
    const inMm: readonly Option[] = [{ facts: { strands: printStrandsMm(wires, wireMm, plain), wires, wireMm } }];
    return isMm || !isBritishInch(wires, wireMm) ? inMm : [...(strandsInch(count, thick) ?? []), ...inMm];
  }
  if (isMm) return null;
  // `19/.027`: thousandths of an inch, or a gauge with a point before it that trade notes print.
  const gauge = Math.round(wireMm * 1000);
  const inches = printStrandsMm(wires, wireMm * 25.4, plain);
  const byGauge = gauge >= 20 && gauge <= 40 ? printStrandsAwg(wires, String(gauge), `${count}/${gauge}`) : null;
  if (wireMm < 0.01 || wires < 1) return null;
  const inInches = { ...inches, label: `${plain} in` };
  return [
    { facts: { strands: inInches, wires, wireMm: wireMm * 25.4 } },
    ...(byGauge === null ? [] : [{ facts: { strands: byGauge, wires, wireMm: wireOfAwg(gauge) } }]),
  ];
}

function strandsAwg(count: number, gauge: string, name = `${count}/${gauge}`): readonly Option[] {
  const strands = printStrandsAwg(count, gauge, name);
  return strands === null ? [] : [{ facts: { strands, wires: count, wireMm: wireOfAwg(Number(gauge)) } }];
}

/** `2-2-4`: feeder conductors one by one, the thick ones first. */
export function listed([, first = "", rest = ""]: RegExpExecArray): readonly Option[] | null {
  const names = [first, ...rest.slice(1).split("-")];
  const sizes = names.flatMap((name) => printAwg(name.replace(/ /g, "")) ?? []);
  const [size] = sizes;
  if (size === undefined || sizes.length !== names.length) return null;
  if (sizes.some((each, index) => index > 0 && each.areaMm2 > (sizes[index - 1]?.areaMm2 ?? 0))) return null;
  if (size.areaMm2 < 8) return null;
  const others = sizes.filter((each) => each.name !== size.name).map((each) => ({ count: 1, size: each }));
  return [
    {
      facts: { family: "service cable", size, count: sizes.length, others },
      by: "sizes one by one name the conductors of a feeder",
    },
  ];
}

/** `3G2.5`, `3x2.5`, `3x25/16`, `4x2x0.5`, `7x19/30`, `2x 2/0`. */
export function times(found: RegExpExecArray): readonly Option[] | null {
  const [, first = "", sign = "", middle, awg, written = "", unit, join, , second] = found;
  const count = Number(first);
  const isG = sign === "g";
  if (join === "/" && second !== undefined && unit === undefined && !isG && middle === undefined) {
    const rope = Number(written);
    const end = Number(second.replace(",", "."));
    if (Number.isInteger(rope) && rope >= 7 && /^[2-4]\d$/.test(second) && end > rope && isStrandCount(count * rope))
      return strandsAwg(count * rope, second, `${count}x${written}/${second}`);
  }
  if (count < 1 || count > 61) return null;
  const options = sized(written, awg === undefined ? unit : "awg").filter(({ facts }) => facts.size !== undefined);
  // After a sign of times a number alone is an area: gauges are written the other way round, `12/3`.
  const areas = unit === undefined && awg === undefined && !written.includes("/") ? areaOptions(written) : options;
  if (areas.length === 0) return null;
  if (middle !== undefined) {
    const inner = Number(middle);
    if (inner === 2) return map(areas, { count: count * 2, paired: true });
    return inner === 1 ? map(areas, { runs: count, count: 1 }) : null;
  }
  if (join !== undefined && second !== undefined) {
    const groundSize = areaNamed(second);
    const large = areas[0]?.facts.size;
    if (groundSize === null || large === undefined || groundSize.areaMm2 >= large.areaMm2) return null;
    return map(areas, { count, ground: "and", groundKind: "not stated", groundSize });
  }
  const cores = map(areas, { count, ...(isG ? { ground: "with" } : { countByX: true }) });
  if (isG) return cores;
  const size = areas[0]?.facts.size ?? null;
  const single = map(areas, { runs: count, count: 1, runsBySign: true });
  const value = Number(written.replace(",", "."));
  // Thin strands beside the size of the conductor: 1.5 mm² (30x0.25).
  const strands =
    count >= 7 && value < 0.6 && unit !== "mm2" ? map(strandsMm(first, written) ?? [], { strandsBySign: true }) : [];
  return [...cores, ...(count > 1 && size !== null ? single : []), ...strands];
}

/** Whether no cable is made of so many conductors of a gauge: from 8 AWG on, seven are the most. */
export const isTooMany = (gauge: number, count: number): boolean => gauge <= 8 && count > 7;

/** `12-10 AWG`, `22/18`: what a terminal takes, from one gauge to another. */
export const isGaugeRange = (a: number, b: number, sign: string): boolean =>
  b % 2 === 0 && a % 2 === 0 && a >= 8 && (sign === "-" ? b >= 8 : b >= 10 && Math.abs(a - b) <= 4);

const isMetricArea = (unit: string | undefined): boolean => unit !== undefined && unit !== "mm";

/** `12/3`, `7/0.32`, `19/27`, `1.6-2C`, `2.5/1.5`. */
export function slashed(found: RegExpExecArray): readonly Option[] | null {
  const [, written = "", unit, sign = "/", second = "", counts, unitAfter] = found;
  if (unit !== undefined && unitAfter !== undefined) return null;
  const unitOf = unit ?? unitAfter;
  const isMetric = unitAfter !== undefined && /^(?:mm|sq|qmm)/.test(unitAfter);
  const b = Number(second.replace(",", "."));
  const a = Number(written);
  const isStranding = sign === "/" && unitOf !== "awg" && counts === undefined && /^\d+$/.test(written);
  if (isStranding && /[.,]/.test(second) && (b < 1 || (!isMetricArea(unitOf) && isThickStranding(a, second))))
    return strandsMm(written, second, unitAfter === "mm");
  // Thirty-seconds of an inch are written as strands are.
  const inch: readonly Option[] =
    unitOf === undefined && second === "32" && a % 2 === 1 && a < 32
      ? [{ facts: { outsideMm: Number(((a / 32) * 25.4).toFixed(3)), isWidth: true } }]
      : [];
  if (sign === "/" && /^\d+$/.test(written) && /^[2-4]\d$/.test(second) && counts === undefined && unit === undefined) {
    const strands = a >= 3 ? strandsAwg(a, second) : [];
    if (isStrandCount(a) || a > 30) return [...strands, ...inch];
    const size = printAwg(written);
    return [...strands, ...(size === null ? [] : [{ facts: { size, count: b } }])];
  }
  if (sign === "/" && counts === undefined && (isMetric || (/[.,]/.test(written) && unitOf === undefined))) {
    const size = areaNamed(written);
    const groundSize = areaNamed(second);
    if (size === null || groundSize === null || !isIecArea(size.areaMm2) || groundSize.areaMm2 > size.areaMm2)
      return null;
    return [
      {
        facts: { size, ground: "and", groundKind: "bare", groundSize, family: "twin and earth" },
        by: "a second area after a slash is that of the earth",
      },
    ];
  }
  if (!/^[1-9]\d?$/.test(second)) return null;
  if (/[.,]/.test(written) || (unitOf !== undefined && /^(?:mm|sq|qmm|mmq)/.test(unitOf))) {
    if (counts === undefined && sign !== "x") return null;
    const value = Number(written.replace(",", "."));
    const areas = areaOptions(written);
    const solid: readonly Option[] = [1, 1.2, 1.6, 2, 2.6, 3.2].includes(value)
      ? [
          {
            facts: { size: printSolid(value), count: b, strandName: "solid" },
            by: "the Japanese trade names building cable by the diameter of its solid cores",
          },
        ]
      : [];
    if (unitOf !== undefined && unitOf !== "mm") return map(areas, { count: b });
    const isArea = isIecArea(value) || [2, 3.5, 5.5, 8, 14, 22, 38, 60, 100, 1.25].includes(value);
    return [...solid, ...(solid.length === 0 || isArea ? map(areas, { count: b }) : [])];
  }
  if (b > 61 || (b < 2 && counts === undefined)) return null;
  // `0x12` is no twelve of 1/0, nor `6/14` fourteen of 6 AWG.
  if ((sign === "x" && /^0+$/.test(written)) || isTooMany(a, b)) return [];
  if (counts === undefined && isGaugeRange(a, b, sign)) return [];
  const sizes = gaugeOptions(written, unitOf !== undefined && /^ga/.test(unitOf) ? "ga" : "awg");
  if (sizes.length === 0) return null;
  // `12/3C` says that three are all that are counted; `12/3 wire` says no more than `12/3`.
  return map(sizes, counts?.trim() === "c" ? { count: b } : { count: b, countByFamily: true });
}
