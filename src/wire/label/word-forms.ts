import type { StrandingName } from "../make/wire-make.ts";
import { form, type Form } from "./number-forms.ts";
import type { Facts, Option } from "./part.ts";
import { printSolid } from "./print-size.ts";
import { areaOptions, gaugeOptions, readFigures } from "./size-options.ts";

const END = String.raw`(?![a-z0-9²])(?![.,]\d)`;
const GAUGE = String.raw`(?:[1-7] ?\/ ?0(?!\d|[.,]\d)|0{1,4}(?!\d|[.,]\d)|\d{1,2}(?![\d.,]*\d))`;
const NUMBER = String.raw`(?:\d{1,4}(?:[.,]\d{1,4})?|[.,]\d{1,4})`;

const or = (options: readonly Option[]): readonly Option[] | null => (options.length === 0 ? null : options);
const one = (facts: Facts): readonly Option[] => [{ facts }];
const nothing: readonly Option[] = [{ facts: {} }];

const NUMBER_WORDS: Readonly<Record<string, string>> = {
  one: "1",
  single: "1",
  two: "2",
  double: "2",
  three: "3",
  triple: "3",
  four: "4",
  quad: "4",
  quadruple: "4",
  six: "6",
  eight: "8",
  ten: "10",
  twelve: "12",
  fourteen: "14",
  sixteen: "16",
  eighteen: "18",
};

const TENS: Readonly<Record<string, number>> = {
  ten: 10,
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  eighty: 80,
  hundred: 100,
};

/** `AWG 12/3`: the gauge with what follows it. */
function gaugeFirst([, name = "", count, said]: RegExpExecArray): readonly Option[] | null {
  const sizes = gaugeOptions(name, "awg");
  if (count === undefined) return or(sizes);
  const facts: Facts = said === undefined ? { count: Number(count), countByFamily: true } : { count: Number(count) };
  return or(sizes.map((each) => ({ ...each, facts: { ...each.facts, ...facts } })));
}

const ROMAN: Readonly<Record<string, string>> = { i: "1", ii: "2", iii: "3" };
const STRANDING = new Set<string>([
  "class 1",
  "class 2",
  "class 5",
  "class 6",
  "type 1",
  "type 2",
  "type 3",
  "class b",
  "class c",
  "class d",
  "class g",
  "class h",
  "class i",
  "class k",
  "class m",
]);

function stranding([, kind = "", letter = ""]: RegExpExecArray): readonly Option[] | null {
  const of = kind.startsWith("cl") ? "class" : "type";
  const name = `${of} ${(of === "type" ? ROMAN[letter] : undefined) ?? letter}`;
  if (!STRANDING.has(name)) return null;
  return one({ strandName: name.replace(/[a-z]$/, (last) => last.toUpperCase()) as StrandingName }); // one of the set above, its letter made a capital
}

/** Standards that say nothing but that the wire is made to one; with those that name a kind. */
const STANDARDS: Readonly<Record<string, Facts>> = {
  "ul 1426": { family: "boat cable" },
  "sae j1127": { saeGauge: true, family: "battery cable" },
  "sae j1128": { saeGauge: true, family: "vehicle wire" },
  "iso 6722": { family: "vehicle wire" },
  "iso 19642": { family: "vehicle wire" },
  "ul 4703": { family: "solar cable" },
  "en 50618": { family: "solar cable" },
  "ul 62": { family: "flexible cord" },
  "ul 83": {},
  "ul 44": {},
  "ul 493": {},
  "ul 719": { family: "building cable" },
  "ul 758": {},
  "iec 60228": {},
  "en 60228": {},
  "en 50525": { family: "harmonised cable" },
  "bs 6004": {},
  "bs 5467": {},
  "bs 6724": {},
  "bs 7211": {},
  "bs 6500": {},
  "bs 7870": {},
  "bs 6231": {},
  "astm b3": {},
  "astm b33": { plating: "tinned" },
  "astm b174": {},
  "csa c22": {},
};

const byFirst = new Map<string, readonly Form[]>();

/** The forms that can begin with a sign. */
export function wordFormsAt(first: string): readonly Form[] {
  const known = byFirst.get(first);
  if (known !== undefined) return known;
  const forms = wordForms.filter(({ keys }) => keys.includes(first));
  if (byFirst.size < 500) byFirst.set(first, forms);
  return forms;
}

const wordForms: readonly Form[] = [
  form(
    "ab",
    String.raw`(?:awg|a\.w\.g\.?|b ?& ?s) ?(?:#|no\.? ?|size )?(${GAUGE})(?: ?[\/-] ?([2-9]|1\d)(?: ?(c|core|cond\.?|conductors?))?)?${END}`,
    gaugeFirst,
  ),
  form("s", String.raw`(?:swg|s\.w\.g\.?) ?#?(${GAUGE})${END}`, ([, name = ""]) => or(gaugeOptions(name, "swg"))),
  form("s", String.raw`sae ?#?(${GAUGE})${END}`, ([, name = ""]) => or(gaugeOptions(name, "sae"))),
  form(
    "ns",
    String.raw`(?:no\.? ?|nr\.? ?|number |size )(${GAUGE})(?: ?-? ?(awg|ga\.?|gau?ge|b ?& ?s|swg|sae))?${END}`,
    ([, name = "", unit = ""]) =>
      or(gaugeOptions(name, unit.startsWith("g") ? "ga" : unit === "swg" || unit === "sae" ? unit : null)),
  ),
  form("g", String.raw`gau?ge ?#?(${GAUGE})${END}`, ([, name = ""]) => or(gaugeOptions(name, "ga"))),
  // Ten times the diameter in millimetres: the thicker the wire, the greater the number.
  form("m", String.raw`metric (?:wire )?gau?ge ?(\d{1,3})${END}`, ([, tenths = ""]) =>
    Number(tenths) === 0 ? null : one({ size: printSolid(Number(tenths) / 10), strandName: "solid" }),
  ),
  form("#", String.raw`#(${GAUGE})(?: ?-? ?(awg|ga\.?|gau?ge|b ?& ?s|swg|sae))${END}`, ([, name = "", unit = ""]) =>
    or(gaugeOptions(name, unit.startsWith("g") ? "ga" : unit === "swg" || unit === "sae" ? unit : null)),
  ),
  form("#", String.raw`#(${GAUGE})(?: ?([\/-]) ?([2-9]))?${END}`, ([, name = "", sign, count]) =>
    or(
      gaugeOptions(name, null).map((each) => ({
        ...each,
        facts: {
          ...each.facts,
          ...(sign === undefined ? { hash: true } : { count: Number(count), countByFamily: true }),
        },
      })),
    ),
  ),
  form(
    "ostdfq",
    String.raw`(one|single|two|double|three|triple|four|quad|quadruple)[ -](?:aughts?|oughts?|noughts?|naughts?|zeros?)(?: ?(?:awg|ga\.?|gau?ge))?${END}`,
    ([, word = ""]) => or(gaugeOptions(`${NUMBER_WORDS[word] ?? ""}/0`, null)),
  ),
  form(
    "otfse",
    String.raw`(one|two|four|six|eight|ten|twelve|fourteen|sixteen|eighteen)[ -](?:(awg)|gau?ge|ga)${END}`,
    ([, word = "", awg]) => or(gaugeOptions(NUMBER_WORDS[word] ?? "", awg === undefined ? "ga" : "awg")),
  ),
  form(
    "otfs",
    String.raw`(?:one|two|three|four|five|six|seven)[ -](?:cores?|conductors?|wires?|way)${END}`,
    ([text]) => {
      const word = /^[a-z]+/.exec(text)?.[0] ?? "";
      const count = ["", "one", "two", "three", "four", "five", "six", "seven"].indexOf(word);
      return one({ count });
    },
  ),
  form("ct", String.raw`(class|cl\.?|type) ?([1-6]|i{1,3}|[bcdghikm])${END}`, stranding),
  form(
    "odø",
    String.raw`(?:o\.?d\.?|outside diameter|outer diameter|ø|dia\.?|diameter) ?[:=]? ?(?:over insulation )?ø?(${NUMBER}) ?mm${END}`,
    ([, value = ""]) => or(readFigures(value).map((outsideMm) => ({ facts: { outsideMm } }))),
  ),
  form(
    "usiebca",
    String.raw`(ul|sae|iso|en|iec|bs|csa|astm) ?[-:]? ?(j?[bc]?\d{1,5})(?:-\d{1,2}){0,2}${END}`,
    ([, body = "", number = ""]) => {
      const facts = STANDARDS[`${body} ${number}`];
      return facts === undefined ? null : [{ facts }];
    },
  ),
  form("j", String.raw`j ?(112[78])${END}`, ([, number = ""]) => [{ facts: STANDARDS[`sae j${number}`] ?? {} }]),
  form("m", String.raw`m(?:3|3\.5|4|5|6|8|10|12|16) (?=(?:ring|lug|stud|terminal|hole|eye|bolt)s?)`, () =>
    one({ fitting: "a stud" }),
  ),
  form("s", String.raw`sq ?mm ?(${NUMBER})${END}`, ([, value = ""]) => or(areaOptions(value))),
  form(
    "pisco",
    String.raw`(?:p\/n|part (?:no|number)\.?|item(?: no\.?)?|sku|cat(?:alog(?:ue)?)?\.? no\.?|order no\.?):? ?#?[a-z0-9][a-z0-9-]{2,20}${END}`,
    () => nothing,
  ),
  form(
    "asu",
    String.raw`(?:awm )?style (?:no\.? ?)?\d{4,5}${END}|awm \d{4,5}${END}|ul ?(?:1007|1015|1061|1213|1283|1284|1430|2464|2468)${END}`,
    () => nothing,
  ),
  form(
    "tfseh",
    String.raw`(ten|twenty|thirty|forty|fifty|sixty|eighty|hundred)(?: (m|met(?:er|re)s?|ft|feet|foot))${END}`,
    ([, word = "", unit = ""]) => {
      const value = TENS[word] ?? 0;
      const isFeet = unit.startsWith("f");
      return one({
        quantity: { value, unit: isFeet ? "ft" : "m", metres: isFeet ? Number((value * 0.3048).toFixed(6)) : value },
      });
    },
  ),
  form("-", String.raw`-\d{2}(?: ?°? ?c)? ?(?:to|\/|\.\.\.?|…) ?\+?(?=\d)`, () => nothing),
];
