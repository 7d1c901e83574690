import type { StrandingName } from "../make/wire-make.ts";
import { isGaugeRange, isTooMany } from "./number-meanings.ts";
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

/** `AWG 12/3`: the gauge with what follows it. */
function gaugeFirst([, name = "", count, said]: RegExpExecArray): readonly Option[] | null {
  const sizes = gaugeOptions(name, "awg");
  if (count === undefined) return or(sizes);
  if (said === undefined && isGaugeRange(Number(name), Number(count), "-")) return [];
  if (isTooMany(Number(name), Number(count))) return [];
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
  "ul 719": { family: "building cable" },
  "en 50525": { family: "harmonised cable" },
  "astm b33": { plating: "tinned" },
};

const byFirst = new Map<string, readonly Form[]>();

/** The forms that can begin with two signs: those of which one of the beginnings is theirs. */
export function wordFormsAt(first: string): readonly Form[] {
  const known = byFirst.get(first);
  if (known !== undefined) return known;
  const forms = wordForms.filter(({ keys }) => keys.split("|").some((start) => first.startsWith(start)));
  if (byFirst.size < 500) byFirst.set(first, forms);
  return forms;
}

const wordForms: readonly Form[] = [
  form(
    "aw|a.|b |b&",
    String.raw`(?:awg|a\.w\.g\.?|b ?(?:&|and) ?s) ?(?:#|no\.? ?|size )?(${GAUGE})(?: ?[\/-] ?([2-9]|1\d)(?: ?(c|core|cond\.?|conductors?))?)?${END}`,
    gaugeFirst,
  ),
  form("sw|s.", String.raw`(?:swg|s\.w\.g\.?) ?#?(${GAUGE})${END}`, ([, name = ""]) => or(gaugeOptions(name, "swg"))),
  form("sa", String.raw`sae ?#?(${GAUGE})${END}`, ([, name = ""]) => or(gaugeOptions(name, "sae"))),
  form(
    "no|nr|nu|si",
    String.raw`(?:no\.? ?|nr\.? ?|number |size )(${GAUGE})(?: ?-? ?(awg|ga\.?|gau?ge|b ?(?:&|and) ?s|swg|sae))?${END}`,
    ([, name = "", unit = ""]) =>
      or(gaugeOptions(name, unit.startsWith("g") ? "ga" : unit === "swg" || unit === "sae" ? unit : null)),
  ),
  form("ga", String.raw`gau?ge ?#?(${GAUGE})${END}`, ([, name = ""]) => or(gaugeOptions(name, "ga"))),
  // Ten times the diameter in millimetres: the thicker the wire, the greater the number.
  form("me", String.raw`metric (?:wire )?gau?ge ?(\d{1,3})${END}`, ([, tenths = ""]) =>
    Number(tenths) === 0 ? null : one({ size: printSolid(Number(tenths) / 10), strandName: "solid" }),
  ),
  form(
    "#",
    String.raw`#(${GAUGE})(?: ?-? ?(awg|ga\.?|gau?ge|b ?(?:&|and) ?s|swg|sae))${END}`,
    ([, name = "", unit = ""]) =>
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
  form("cl|ty", String.raw`(class|cl\.?|type) ?([1-6]|i{1,3}|[bcdghikm])${END}`, stranding),
  form(
    "od|o.|ou|di|ø",
    String.raw`(?:o\.?d\.?|outside diameter|outer diameter|ø|dia\.?|diameter) ?[:=]? ?(?:over insulation )?ø?(${NUMBER}) ?mm${END}`,
    ([, value = ""]) => or(readFigures(value).map((outsideMm) => ({ facts: { outsideMm } }))),
  ),
  form(
    "ul|sa|is|bs|en|di|ie|cs|as|nf|vd|ji|ce|ab",
    String.raw`(ul|sae|iso|(?:bs |din )?en|iec|bs|csa|astm|as\/nzs|as|nf|din(?: vde)?|vde|jis|cei|abyc) ?[-:]? ?(j\d{4}|b\d{1,3}|c\d{2}(?:\.\d)?|c \d{2,4}|e-?\d{1,2}|\d{2,6})(?:[-.]\d{1,3}){0,3}${END}`,
    ([whole, body = "", number = ""]) => {
      const facts = STANDARDS[`${body.replace(/^(?:bs|din) en$/, "en")} ${number}`];
      // A standard that is not listed says nothing but its number, which has three digits or letters.
      return facts !== undefined
        ? [{ facts }]
        : (/[a-z]\d|\d{4}/.test(number) || (body !== "as" && body !== "en" && /\d{3}/.test(whole))) &&
            (body !== "ul" || number.length < 5) &&
            (body !== "sae" || number.startsWith("j"))
          ? nothing
          : null;
    },
  ),
  form("j", String.raw`j ?(112[78])${END}`, ([, number = ""]) => [{ facts: STANDARDS[`sae j${number}`] ?? {} }]),
  form(
    "m1|m3|m4|m5|m6|m8",
    String.raw`m(?:3|3\.5|4|5|6|8|10|12|16) (?=(?:(?:copper|crimp|cable|ring|both|each|eyelet) )?(?:rings?|lugs?|studs?|terminals?|holes?|eyes?|eyelets?|bolts?|ends?)(?![a-z]))`,
    () => one({ fitting: "a stud" }),
  ),
  // What is numbered on a drawing or a list.
  form(
    "pi|it|po|ci|cc|fu|li|pa|fi|ro|zo|st|re|te|sl|br|wi|ca",
    String.raw`(?:pin|item|pos\.?|position|circuit|cct|fuse|line|page|fig\.?|row|zone|step|ref\.?|terminal|relay|slot|breaker|(?:wire|cable|circuit) (?:no\.?|number)) ?(?:no\.? ?|number |# ?)?\d{1,3}(?![\d.,/]*\d)(?! ?(?:awg|ga|mm|sq|a(?:mps?)?(?![a-z])|v(?![a-z])|x ?\d|[gx]\d|m(?![a-z])|ft|-?cores?|-?cond|["'/]))`,
    () => nothing,
  ),
  form("e-|e0|e1|e2|e3|e4|e5|e6|e7|e8|e9|ul|cu|cs", String.raw`e-?\d{5,6}${END}|c?(?:ul|csa)us${END}`, () => nothing),
  form("@", String.raw`@ ?\d{1,4}[.,]\d{2}(?: ?\/ ?(?:m|ft|each|ea|metre|meter|foot))?${END}`, () => nothing),
  form("wi|ca|ci|ck", String.raw`(?:wire|cable|circuit|ckt) ?#?\d{1,4}:(?!\d)`, () => nothing),
  form("ip", String.raw`ip ?[x\d]{2}${END}`, () => nothing),
  form("qt|qu", String.raw`(?:qty|quantity|qté)[:.]? ?(\d{1,4})(?! ?[a-z\d.,/"'])`, ([, value = ""]) =>
    one({ quantity: { value: Number(value), unit: "piece", metres: null } }),
  ),
  form("mi", String.raw`mil[- ](?:[a-z]{1,4}[- ])+\d{2,6}(?:\/\d{1,3})?${END}`, () => nothing),
  form("@|~|≥|≤|<|>", String.raw`(?:@|[~≥≤<>]=?) ?(?=[£$€.\d])`, () => nothing),
  form(
    "£|$|€",
    String.raw`[£$€] ?\d[\d.,]*(?: ?(?:\/|per|a|an|each|ea|pr?o) ?(?:lin(?:ear)? ?)?(?:m|met(?:er|re)|ft|foot|reel|roll|coil|spool|drum|each|ea|100 ?(?:m|ft))?)?(?![a-z])`,
    () => nothing,
  ),
  form("g/|gn|gr|y/", String.raw`(?:g(?:n|rn)?\/y(?:e|el)?|y\/g)${END}`, () => one({ coloursOrTracers: ["GNYE"] })),
  form("x", String.raw`x ?(\d{2,3})(?= ?(?:$|[,;)]|pcs|pieces|off|no|reels?|rolls?|lengths?))`, ([, value = ""]) =>
    one({ quantity: { value: Number(value), unit: "piece", metres: null } }),
  ),
  form("sq", String.raw`sq ?mm ?(${NUMBER})${END}`, ([, value = ""]) => or(areaOptions(value))),
  form(
    "p/|pn|pa|it|sk|ar|st|re|ca|or",
    String.raw`(?:p\/?n|part(?: (?:no|number)\.?)?|item(?: no\.?)?|sku|art(?:ikel|\.)?(?:[ -]?nr\.?| no\.?)?|stock (?:no|code)\.?|ref\.?|cat(?:alog(?:ue)?)?\.? no\.?|order no\.?):? ?#?(?=[a-z-]{0,8}\d)[a-z0-9][a-z0-9-]{3,20}${END}`,
    () => nothing,
  ),
  form(
    "aw|st|ul",
    String.raw`(?:awm )?style (?:no\.? ?)?\d{4,5}${END}|awm \d{4,5}${END}|ul ?(?:1007|1015|1061|1213|1283|1284|1430|2464|2468)${END}`,
    () => nothing,
  ),
  form("-", String.raw`-\d{2}(?: ?°? ?c)? ?(?:to|\/|\.\.\.?|…) ?\+?(?=\d)`, () => nothing),
];
