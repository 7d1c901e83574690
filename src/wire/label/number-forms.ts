import type { Facts, Option } from "./part.ts";
import { printAwg, printMetric, printSolid, printStrandsAwg, printStrandsMm, wireOfAwg } from "./print-size.ts";
import {
  areaOptions,
  bareOptions,
  circularMilOptions,
  gaugeOptions,
  isIecArea,
  readFigures,
  widthOptions,
} from "./size-options.ts";
import type { PrintedSize } from "../make/wire-make.ts";

/** A way of writing, tried where a number begins; the first that fits and gives a meaning is taken. */
export interface Form {
  /** Signs of which one must stand at the key of the place; empty: any. Spares trying what cannot fit. */
  readonly keys: string;
  /** Sticky, on small letters, and linear in the length of the text. */
  readonly pattern: RegExp;
  /** Tried on letters as they are written: `CM` are circular mils, `cm` is a length. */
  readonly isCased?: true;
  /** Null: it is not this after all; empty: it is, and there is no such size. */
  readonly read: (found: RegExpExecArray) => readonly Option[] | null;
}

const NUMBER = String.raw`(?:\d{1,4}(?:[.,]\d{1,4})?|[.,]\d{1,4})`;
const AUGHT = String.raw`[1-7] ?\/ ?0(?!\d|[.,]\d)`;
const GAUGE = String.raw`(?:${AUGHT}|0{1,4}(?!\d|[.,]\d)|\d{1,2}(?![\d.,]*\d))`;
const MM2 = String.raw`(?:mm\^?2|mm 2(?= ?(?:$|[,;)]))|mm\.? ?sq\.?|sq\.? ?mm\.?2?|square (?:mm|mill?imet(?:er|re)s?)|sq\.?|mmq|qmm)`;
const AWG = String.raw`(?:awg|a\.w\.g\.?|b ?& ?s|american wire gau?ge)`;
const GA = String.raw`(?:ga\.?|gau?ge|guage)`;
const SAE = String.raw`sae(?: ?j ?112[78])?`;
const UNIT = String.raw`(?:${AWG}|${MM2}|mm|${GA})`;
const END = String.raw`(?![a-z0-9²])(?![.,]\d)`;

/** The end of a form whose last sign is a figure: nothing may hang on it that makes another label of it. */
const FIGURE_END = String.raw`${END}(?! ?[\/x] ?[\d\/])(?!-\d)(?! ?(?:"|inch|in\.))`;

export const form = (keys: string, pattern: string, read: Form["read"]): Form => ({
  keys,
  pattern: new RegExp(pattern, "y"),
  read,
});

/** Strand counts that conductors are built of; `19/27` counts strands, `14/24` may count conductors. */
const STRAND_COUNTS = new Set([7, 10, 16, 19, 26, 37, 41, 49, 65]);
const isStrandCount = (count: number): boolean => STRAND_COUNTS.has(count) || count > 40;

const map = (options: readonly Option[], facts: Facts): readonly Option[] =>
  options.map((each) => ({ ...each, facts: { ...each.facts, ...facts } }));

/** A size with the unit that was written beside it. */
function sized(written: string, unit: string | undefined): readonly Option[] {
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

function strandsMm(count: string, thick: string): readonly Option[] | null {
  const wires = Number(count);
  const wireMm = Number(thick.replace(",", "."));
  const plain = `${count}/${thick.replace(",", ".").replace(/^\./, "0.")}`;
  if (wireMm >= 0.05 && wires >= 3)
    return [{ facts: { strands: printStrandsMm(wires, wireMm, plain), wires, wireMm } }];
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
function listed([, first = "", rest = ""]: RegExpExecArray): readonly Option[] | null {
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
function times(found: RegExpExecArray): readonly Option[] | null {
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

const COUNT_WORD = String.raw`(?:\/? ?c(?:ores?|onductors?|onds?\.?)?|-?conductors?|-?cores?|-?wires?|-?way|-?pole|cdr)`;

/** `12/3`, `7/0.32`, `19/27`, `1.6-2C`, `2.5/1.5`. */
function slashed(found: RegExpExecArray): readonly Option[] | null {
  const [, written = "", unit, sign = "/", second = "", counts, unitAfter] = found;
  if (unit !== undefined && unitAfter !== undefined) return null;
  const unitOf = unit ?? unitAfter;
  const isMetric = unitAfter !== undefined && /^(?:mm|sq|qmm)/.test(unitAfter);
  const b = Number(second.replace(",", "."));
  if (sign === "/" && unitOf !== "awg" && /^\d+$/.test(written) && b < 1 && /[.,]/.test(second) && counts === undefined)
    return strandsMm(written, second);
  const a = Number(written);
  // Thirty-seconds of an inch are written as strands are.
  const inch: readonly Option[] =
    second === "32" && a % 2 === 1 && a < 32
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
        facts: { size, ground: "and", groundKind: "bare", groundSize, count: 2, family: "twin and earth" },
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
  const sizes = gaugeOptions(written, unitOf !== undefined && /^ga/.test(unitOf) ? "ga" : "awg");
  if (sizes.length === 0) return null;
  // `12/3C` says that three are all that are counted; `12/3 wire` says no more than `12/3`.
  return map(sizes, counts?.trim() === "c" ? { count: b } : { count: b, countByFamily: true });
}

const one = (facts: Facts): readonly Option[] => [{ facts }];
const nothing: readonly Option[] = [{ facts: {} }];
const or = (options: readonly Option[]): readonly Option[] | null => (options.length === 0 ? null : options);
/** Voltages of supplies, which are said of wire without being what it bears. */
const SUPPLY = new Set(["12", "24", "36", "48", "110", "115", "120", "220", "230", "240", "120/240"]);
const UNIT_M = { m: 1, ft: 0.3048 } as const;

function length(value: number, unit: "m" | "ft"): Option {
  return { facts: { quantity: { value, unit, metres: Number((value * UNIT_M[unit]).toFixed(6)) } } };
}

const KEY = /[\d.,]+(?: ?(?<sep>[/x-])(?: ?[\d.,]+)?)? ?-? ?(?<key>[^])?/y;
const byKey = new Map<string, readonly Form[]>();

/** The forms that can fit where a number begins, by the first sign behind it and the first word behind that. */
export function numberFormsAt(low: string, at: number): readonly Form[] {
  KEY.lastIndex = at;
  const { sep = "", key = "" } = KEY.exec(low)?.groups ?? {};
  const signs = `${sep}${/\d/.test(key) ? "0" : key}`;
  const known = byKey.get(signs);
  if (known !== undefined) return known;
  const forms = numberForms.filter(({ keys }) => keys === "" || Array.from(signs).some((sign) => keys.includes(sign)));
  if (byKey.size < 500) byKey.set(signs, forms);
  return forms;
}

const numberForms: readonly Form[] = [
  form("v", String.raw`(\d{2,4}(?:\/\d{3,4})?) ?v(?: ?[ad]\.?c\.?|olts?)?${END}`, ([, v = ""]) => {
    if (SUPPLY.has(v)) return nothing;
    const volts = Number(v.split("/").at(-1));
    return volts >= 50 && volts <= 5000 ? one({ volts, voltsSay: v }) : null;
  }),
  form("k", String.raw`(\d(?:[.,]\d)?(?:\/\d(?:[.,]\d)?)?) ?kv(?: ?[ad]\.?c\.?)?${END}`, ([, v = ""]) => {
    const each = v.split("/").map((kilovolts) => Number(kilovolts.replace(",", ".")) * 1000);
    return one({ volts: each.at(-1) ?? 0, voltsSay: each.join("/") });
  }),
  form(
    "°dcf",
    String.raw`(\d{2,3}) ?(?:°|deg\.?|degrees?)? ?(c(?:elsius)?|f(?:ahrenheit)?)(?: ?(dry|wet))?${END}`,
    ([, value = "", unit = "", where]) => {
      const given = Number(value);
      const temperatureC = unit.startsWith("f") ? Math.round(((given - 32) * 5) / 9) : given;
      if (temperatureC < 55 || temperatureC > 260) return null;
      return one(where === "wet" ? { wetTemperatureC: temperatureC } : { temperatureC });
    },
  ),
  form("-/", String.raw`(${GAUGE})((?:-(?:[1-4]\/0|\d)(?![\d.,\/])){2,5})(?: ?${AWG})?${END}`, listed),
  form("x", String.raw`(\d{1,2}) ?x ?\((?=\d)`, ([, runs = ""]) => (runs === "0" ? null : one({ runs: Number(runs) }))),
  form("rs", String.raw`(\d) ?-?(?:runs?|sets?)(?: of| in parallel)?${END}`, ([, runs = ""]) =>
    runs === "0" ? null : one({ runs: Number(runs) }),
  ),
  form(
    "x",
    String.raw`(\d{1,2}) ?x ?(\d{1,4}(?:[.,]\d{1,2})?) ?(m|met(?:er|re)s?|ft\.?|feet|foot)${END}`,
    ([, n = "", value = "", unit = ""]) => {
      const each = Number(value.replace(",", "."));
      return [length(Number(n) * each, unit.startsWith("f") ? "ft" : "m")];
    },
  ),
  form(
    "xg",
    String.raw`(\d{1,3}) ?([xg]) ?(?:(\d) ?x ?)?(awg ?)?#?(${AUGHT}|${NUMBER})(?: ?(${UNIT}))?(?: ?([\/+]) ?(?:(1) ?x ?)?(${NUMBER}))?(?: ?(?:${MM2}|mm))?${FIGURE_END}`,
    times,
  ),
  form(
    "/-xabmsqg",
    String.raw`(${NUMBER})(?: ?(${UNIT}))?(?: ?(?=[\/x])|(?=-\d))([\/x-]) ?(\d{1,2}(?:[.,]\d{1,4})?|[.,]\d{1,4})(?: ?(${COUNT_WORD}))?(?: ?(${AWG}|${MM2}|${GA}|mm))?${FIGURE_END}`,
    slashed,
  ),
  // Vehicle cable by its code: lay of the strands and plating hang on the size.
  form("-s", String.raw`(${NUMBER})(?:-([ab]))? ?(sn)?${END}`, ([, value = "", lay, tinned]) => {
    if (lay === undefined && tinned === undefined) return null;
    const more: Facts = {
      ...(lay === undefined ? {} : { strandLay: lay === "a" ? "A" : "B" }),
      ...(tinned === undefined ? {} : { plating: "tinned" }),
    };
    return or(map(areaOptions(value), more));
  }),
  // A slash that got lost: 2/0, or 20.
  form("0", String.raw`([1-4]) 0 ?awg${END}`, ([, digit = ""]) => [
    ...gaugeOptions(`${digit}/0`, "awg"),
    ...gaugeOptions(`${digit}0`, "awg"),
  ]),
  // What a fuse or a load takes is no size.
  form("a", String.raw`\d{1,3} ?(?:a|amps?|amperes?)${END}`, () => nothing),
  form("ab", String.raw`(${GAUGE}) ?-? ?(?:${AWG})(?: ${GA})?${END}`, ([, name = ""]) => gaugeOptions(name, "awg")),
  form("s", String.raw`([1-7] ?\/ ?0|\d{1,2}) ?-? ?(?:swg|s\.w\.g\.?)${END}`, ([, name = ""]) =>
    gaugeOptions(name, "swg"),
  ),
  form("gs", String.raw`(${GAUGE}) ?-? ?(?:${GA} ?,? ?)?${SAE}(?: ${GA})?${END}`, ([, name = ""]) =>
    gaugeOptions(name, "sae"),
  ),
  form("g", String.raw`(${GAUGE}) ?-? ?(?:${GA})${END}`, ([, name = ""]) => gaugeOptions(name, "ga")),
  form(
    "m",
    String.raw`(${NUMBER}) ?mm (?:o\.?d\.?|outside diameter|outer diameter|over(?:all)? diameter|overall)${END}`,
    ([, value = ""]) => or(readFigures(value).map((outsideMm) => ({ facts: { outsideMm } }))),
  ),
  form(
    'i"',
    String.raw`(${NUMBER}) ?(?:in\.?|inch|") ?(?:o\.?d\.?|outside diameter|outer diameter)${END}`,
    ([, value = ""]) =>
      or(readFigures(value).map((inches) => ({ facts: { outsideMm: Number((inches * 25.4).toFixed(3)) } }))),
  ),
  form("m", String.raw`(${NUMBER}) ?mm (?:auto(?:motive)?|vehicle) (?:cable|wire)${END}`, ([, value = ""]) =>
    or(widthOptions(value).filter(({ facts }) => facts.size?.system === "vehicle diameter")),
  ),
  form("m", String.raw`(${NUMBER}) ?mm (?:diameter solid|dia\.? solid|solid diameter)${END}`, ([, value = ""]) =>
    or(widthOptions(value).filter(({ facts }) => facts.size?.system === "solid diameter")),
  ),
  form("msq", String.raw`(${NUMBER}) ?(${MM2})${END}`, ([, value = "", unit]) => sized(value, unit)),
  form("km", String.raw`(\d{1,4}(?:,\d{3}|\.\d{1,3})?) ?-?(?:kcmil|mcm|kcm)${END}`, ([, value = ""]) =>
    circularMilOptions(value, "thousands"),
  ),
  form("c0", String.raw`(\d{1,3}(?:[ ,]\d{3})+|\d{3,7}) ?(?:cmils?|circ(?:ular|\.)? ?mils?)${END}`, ([, value = ""]) =>
    or(circularMilOptions(value, "ones")),
  ),
  form("m", String.raw`(${NUMBER}) ?(?:mm|mill?imet(?:er|re)s?)${END}`, ([, value = ""]) => or(widthOptions(value))),
  // So the Australian trade counts, whose earth is insulated.
  form("c", String.raw`(\d{1,2}) ?c ?(?:\+|&) ?e${END}`, ([, count = ""]) =>
    one({ count: Number(count), ground: "and", groundKind: "insulated" }),
  ),
  form("c", String.raw`(\d{1,2}) ?(?:c|core|cores) ?(?:\+|&|and) ?(?:e|earth)${END}`, ([, count = ""]) =>
    one({ count: Number(count), ground: "and", groundKind: "bare", family: "twin and earth" }),
  ),
  form("p", String.raw`(\d{1,2}) ?-?(?:pairs?|pr)${END}`, ([, pairs = ""]) =>
    one({ count: 2 * Number(pairs), paired: true }),
  ),
  form("c-wp/", String.raw`([1-9]\d?) ?-?(?:${COUNT_WORD})(?: ?x(?! ?\())?${END}`, ([, count = ""]) =>
    Number(count) <= 61 ? one({ count: Number(count) }) : null,
  ),
  form("sw", String.raw`(\d{1,4}) ?-?(?:strands?|str\.?|wires? strand(?:ed|ing))${END}`, ([, wires = ""]) =>
    one({ wires: Number(wires) }),
  ),
  form(
    "mf'",
    String.raw`(\d{1,3},\d{3}|\d{1,4}(?:[.,]\d{1,2})?) ?-?(m|met(?:er|re)s?|mtrs?\.?|ft\.?|feet|foot|')${END}`,
    ([, value = "", unit = ""]) => {
      const feet = /^(?:f|')/.test(unit);
      const values = readFigures(value);
      return or((feet ? values.slice(-1) : values).map((each) => length(each, feet ? "ft" : "m")));
    },
  ),
  form("kg", String.raw`\d{3,4} g${END}|\d{1,3} ?kg${END}`, () => nothing),
  {
    ...form("c0", String.raw`(\d{1,3}(?:[ ,]\d{3})+|\d{3,7}) ?(?:CM|C\.M\.)(?![A-Za-z0-9])`, ([, value = ""]) => {
      const mils = circularMilOptions(value, "ones");
      // Few are as likely centimetres in capitals.
      const centimetres = Number(value.replace(/[ ,]/g, ""));
      return or(centimetres < 10_000 ? [...mils, length(centimetres / 100, "m")] : mils);
    }),
    isCased: true,
  },
  form(
    "rdscpl",
    String.raw`(\d{1,3}) ?(reels?|rolls?|drums?|spools?|coils?|pcs?|pieces?|lengths?)${END}`,
    ([, value = "", unit = ""]) =>
      one({ quantity: { value: Number(value), unit: /^(?:p|l)/.test(unit) ? "piece" : "reel", metres: null } }),
  ),
  form(
    "/",
    String.raw`(?:x )?[1-9]\d?\/(?:2|4|8|16|32|64)(?:"| ?in\.?(?:ch)?)? (?=(?:ring|lug|stud|terminal|hole|eye|bolt)s?)`,
    () => one({ fitting: "a stud" }),
  ),
  form("-", String.raw`([1-4])-0(?: ?-?(?:${AWG}|${GA}))?${FIGURE_END}`, ([, digit = ""]) =>
    gaugeOptions(`${digit}/0`, null).map((each) => ({
      ...each,
      by: `\`${digit}-0\` is how ${digit}/0 is written over the counter`,
    })),
  ),
  form("", String.raw`([1-4] ?\/ ?0|0{2,4})${FIGURE_END}`, ([, name = ""]) => or(gaugeOptions(name, null))),
  form("", String.raw`(${NUMBER})${FIGURE_END}`, ([, value = ""]) => or(bareOptions(value))),
];
