import { listed, map, saidInInches, sized, slashed, times } from "./number-meanings.ts";
import type { Facts, Option } from "./part.ts";
import {
  areaOptions,
  bareOptions,
  circularMilOptions,
  gaugeOptions,
  readFigures,
  widthOptions,
} from "./size-options.ts";

/** A way of writing, tried where a number begins; the first that fits and gives a meaning is taken. */
export interface Form {
  /** Signs of which one must stand at the key of the place, empty: any; for words what they may begin with, parted by strokes. Spares trying what cannot fit. */
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
const MM2 = String.raw`(?:mm\^?2|mm 2(?= ?(?:$|[,;)]))|mm\.? ?sq\.?|sq\.? ?mm\.?2?|square (?:mm|mill?imet(?:er|re)s?)|sq\.?|square|mmq|qmm|²)`;
const AWG = String.raw`(?:awg|a\.w\.g\.?|b ?(?:&|and) ?s|american wire gau?ge)`;
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

const COUNT_WORD = String.raw`(?:\/? ?c(?:ores?|onductors?|onds?\.?)?|-?conductors?|-?cores?|-?wires?|-?way|-?pole|cdr)`;

const one = (facts: Facts): readonly Option[] => [{ facts }];
const nothing: readonly Option[] = [{ facts: {} }];
const or = (options: readonly Option[]): readonly Option[] | null => (options.length === 0 ? null : options);
/** Voltages of supplies, which are said of wire without being what it bears. */
const SUPPLY = new Set(["12", "24", "36", "48", "110", "115", "120", "220", "230", "240", "120/240"]);
const UNIT_M = { m: 1, ft: 0.3048 } as const;

function length(value: number, unit: "m" | "ft"): Option {
  return { facts: { quantity: { value, unit, metres: Number((value * UNIT_M[unit]).toFixed(6)) } } };
}

const KEY = /[\d.,]+(?: ?([/x-])(?: ?[\d.,]+)?)? ?-? ?([^])?/y;
const byKey = new Map<string, readonly Form[]>();

/** The forms that can fit where a number begins, by the first sign behind it and the first word behind that. */
export function numberFormsAt(low: string, at: number): readonly Form[] {
  KEY.lastIndex = at;
  const found = KEY.exec(low);
  const sep = found?.[1] ?? "";
  const key = found?.[2] ?? "";
  const signs = sep + (key >= "0" && key <= "9" ? "0" : key);
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
  form(
    "rsp)",
    String.raw`(\d)\)? ?-?(?:parallel )?(?:runs?|sets?|parallel(?= \d))(?: of| in parallel)?${END}`,
    ([, runs = ""]) => (runs === "0" ? null : one({ runs: Number(runs) })),
  ),
  form(
    "x",
    String.raw`(\d{1,2}) ?x ?(\d{1,4}(?:[.,]\d{1,2})?) ?(m|met(?:er|re)s?|ft\.?|feet|foot)${END}`,
    ([, n = "", value = "", unit = ""]) => {
      if (Number(n) === 0) return [];
      const each = Number(value.replace(",", "."));
      return [length(Number(n) * each, unit.startsWith("f") ? "ft" : "m")];
    },
  ),
  form(
    "xg",
    String.raw`(\d{1,3}) ?([xg]) ?(?:(\d) ?x ?)?(awg ?)?#?(${AUGHT}|${NUMBER})(?: ?(${UNIT}))?(?: ?([\/+]) ?(?:(1) ?x ?)?(${NUMBER}))?(?: ?(?:${MM2}|mm))?${FIGURE_END}`,
    times,
  ),
  form("/", String.raw`(\d{1,3}) ?\/ ?(0?[.,]\d{2,4}) ?(?:in\.?|inch(?:es)?|")(?![a-z\d])`, saidInInches),
  form(
    "/-xabmsqg²",
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
  // What a fuse or a load takes is no size, nor what a battery is at or a wire costs.
  form(
    "awkh%v€p",
    String.raw`\d{1,4}(?:[.,]\d{1,2})? ?(?:a|amps?|amperes?|ah|w|watts?|kw|kva|va|hp|hz|%|percent|€|eur|gbp|usd)(?: ?\/ ?(?:m|ft))?${END}(?!\/)`,
    () => nothing,
  ),
  form("/", String.raw`\d{1,4}[.,]\d{2} ?\/ ?(?:m|ft|each|ea|metre|meter|foot)${END}`, () => nothing),
  form("v", String.raw`\d{1,2}(?:[.,]\d{1,2})? ?v(?: ?[ad]\.?c\.?|olts?)?${END}`, () => nothing),
  form("ab", String.raw`(${GAUGE}) ?-? ?(?:${AWG})(?: ${GA})?${END}`, ([, name = ""]) => gaugeOptions(name, "awg")),
  form("s", String.raw`([1-7] ?\/ ?0|\d{1,2}) ?-? ?(?:swg|s\.w\.g\.?)${END}`, ([, name = ""]) =>
    gaugeOptions(name, "swg"),
  ),
  form("gs", String.raw`(${GAUGE}) ?-? ?(?:${GA} ?,? ?)?${SAE}(?: ${GA})?${END}`, ([, name = ""]) =>
    gaugeOptions(name, "sae"),
  ),
  form("g", String.raw`(${GAUGE}) ?-? ?(?:${GA})${END}`, ([, name = ""]) => gaugeOptions(name, "ga")),
  form("m", String.raw`\d{2,3} ?mm (?:pvc )?(?:conduit|pipe|trunking|tube|gland|hole|emt)s?${END}`, () => nothing),
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
  form("msq²", String.raw`(${NUMBER}) ?(${MM2})${END}`, ([, value = "", unit]) => sized(value, unit)),
  form("km", String.raw`(\d{1,4}(?:,\d{3}|\.\d{1,3})?) ?-?(?:kcmil|mcm|kcm)${END}`, ([, value = ""]) =>
    circularMilOptions(value, "thousands"),
  ),
  form("c0", String.raw`(\d{1,3}(?:[ ,]\d{3})+|\d{3,7}) ?(?:cmils?|circ(?:ular|\.)? ?mils?)${END}`, ([, value = ""]) =>
    or(circularMilOptions(value, "ones")),
  ),
  form("m", String.raw`(${NUMBER}) ?(?:mm|mill?|mill?imet(?:er|re)s?)${END}`, ([, value = ""]) =>
    // Hundreds of millimetres are as likely the length of a lead.
    or(/^\d{3,}$/.test(value) ? [...widthOptions(value), length(Number(value) / 1000, "m")] : widthOptions(value)),
  ),
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
    String.raw`(\d{1,3},\d{3}|\d{1,4}(?:[.,]\d{1,2})?) ?-?(m|met(?:er|re|ro|ri)s?|mètres?|mtrs?\.?|ft\.?|feet|foot|')(?: (?:long|in length))?${END}`,
    ([, value = "", unit = ""]) => {
      const feet = /^(?:f|')/.test(unit);
      const values = readFigures(value);
      return or((feet ? values.slice(-1) : values).map((each) => length(each, feet ? "ft" : "m")));
    },
  ),
  form("kg", String.raw`\d{3,4} ?g(?:rams?|rms?)?${END}|\d{1,3}(?:[.,]\d)? ?kg${END}`, () => nothing),
  {
    ...form("c", String.raw`([1-9]\d{0,3}) ?cm(?: long)?${END}`, ([, value = ""]) => [
      length(Number(value) / 100, "m"),
    ]),
    isCased: true,
  },
  // Inches of conduit are not those of the wire.
  form(
    '"/-i',
    String.raw`\d{1,2}(?:[- ]?\d\/\d{1,2}|\/\d)? ?(?:"|in\.?|inch(?:es)?) ?(?:c|conduit|emt|pvc|rmc|imc|pipe|trunking)${END}`,
    () => nothing,
  ),
  {
    ...form("c0", String.raw`(\d{1,3}(?:[ ,]\d{3})+|\d{3,7}) ?(?:CM|C\.M\.)(?![A-Za-z0-9])`, ([, value = ""]) => {
      const mils = circularMilOptions(value, "ones");
      // Few are as likely centimetres in capitals.
      const centimetres = Number(value.replace(/[ ,]/g, ""));
      return or(centimetres < 10_000 ? [...mils, length(centimetres / 100, "m")] : mils);
    }),
    isCased: true,
  },
  // Feet that run into a figure, or a flame test behind a number that tells nothing.
  form("f", String.raw`\d{1,4} ?ft\d`, () => []),
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
