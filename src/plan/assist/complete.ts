import { units } from "../../quantity/units.ts";
import type { Dimension } from "../../quantity/index.ts";
import { baseColours } from "../../wire/colour/index.ts";
import { stockedSizes } from "../../wire/index.ts";
import { known } from "../fact.ts";
import { foldName } from "../grammar/record.ts";
import type { KeyRules, Takes } from "../grammar/rule.ts";
import { sectionNames } from "../read-plan.ts";
import { writeName, writeValue } from "../text/write-value.ts";
import type { Around, Offered } from "./around.ts";
import { namesOf } from "./names.ts";
import type { Completions } from "./completions.ts";
import { offersInPath } from "./path-offers.ts";
import { writingPlaceAt, type WritingPlace } from "./place.ts";
import { rulesAt } from "./rules-at.ts";
import { sectionHelp } from "./sections.ts";

type Option = Completions["options"][number];

/**
 * What may be written at an offset: names, keys with what they mean, words, units, terminals.
 *
 * Works on the lines around the offset alone, so a text that is half written or cannot be read is no hindrance. What is offered is not narrowed to what was
 * typed already.
 *
 * @param offset 0 to the length of the text
 * @returns null where there is nothing to offer
 */
export function completionsAt(text: string, offset: number, around: Around): Completions | null {
  const place = writingPlaceAt(text, offset);
  if (place === null) return null;
  const rules = rulesAt(place, around);
  const { from, to } = place;
  if (place.writes === "key") {
    const options =
      place.path.length === 0 ? sectionOptions(text, place) : keyOptions(text, place, rules.keys, rules.named, around);
    return some(from, to, options);
  }
  if (rules.takes === undefined) return null;
  return valueOptions(text, offset, place, rules.takes, around);
}

const some = (from: number, to: number, options: readonly Option[]): Completions | null =>
  options.length === 0 ? null : { from, to, options };

function sectionOptions(text: string, place: WritingPlace): Option[] {
  const there = new Set(Array.from(text.matchAll(/^[a-z][a-z ]*(?=\s*:)/gm), ([name]) => name));
  const own = text.slice(place.from, place.to);
  return sectionNames
    .filter((name) => name === own || !there.has(name))
    .map((name) => ({ label: name, detail: sectionHelp[name].says, insert: withColon(text, place, name, "") }));
}

function keyOptions(
  text: string,
  place: WritingPlace,
  keys: KeyRules | undefined,
  named: string | undefined,
  around: Around,
): Option[] {
  const there = new Set(place.beside.map(foldName));
  const free = Object.entries(keys ?? {}).filter(([key]) => !there.has(foldName(key)));
  // What no study uses yet comes last.
  const fixed = [...free.filter(([, { idle }]) => idle !== true), ...free.filter(([, { idle }]) => idle === true)].map(
    ([key, { value, doc, idle }]) => ({
      label: key,
      detail: `${doc}${idle === true ? " Read, not used yet." : ""}`,
      insert: withColon(text, place, key, value.takes?.record !== undefined || isMapOnly(value.takes) ? "{  }" : ""),
    }),
  );
  const own = (around.propose?.(place.path) ?? []).map((o) => asKey(text, place, o, ""));
  const names = named === undefined || named === "" ? [] : namesOf(named, around);
  const things = names
    .filter((n) => !there.has(foldName(n.text)))
    .map((n) => asKey(text, place, n, named === "wire number" ? "{ path:  }" : ""));
  return [...own, ...fixed, ...things];
}

const isMapOnly = (takes: Takes | undefined): boolean =>
  takes?.map !== undefined && (takes.words ?? []).length === 0 && (takes.dimensions ?? []).length === 0;

const asKey = (text: string, place: WritingPlace, { text: name, says }: Offered, then: string): Option => ({
  label: name,
  detail: says,
  insert: withColon(text, place, isInQuotes(text, place) ? name : writeName(name, place.flow), then),
});

/** A name with its colon, unless that stands there already. */
function withColon(text: string, { to }: WritingPlace, name: string, then: string): string {
  return /^["']?[ \t]*:/.test(text.slice(to, to + 20)) ? name : `${name}: ${then}`;
}

const isInQuotes = (text: string, { from }: Pick<WritingPlace, "from">): boolean => /["']/.test(text.charAt(from - 1));

function valueOptions(
  text: string,
  offset: number,
  place: WritingPlace,
  takes: Takes,
  around: Around,
): Completions | null {
  const inner = place.item ? { ...takes, ...takes.item } : takes;
  const typed = text.slice(place.from, offset);
  if (inner.form === "path") return offersInPath(text, offset, place, around);
  const proposed = (around.propose?.(place.path) ?? []).map((o) => asValue(text, place, o));
  const figure = /^(?:about\s+)?[-−+]?\d[\d.,\s…±-]*?\d*(\s*)([^\d\s.,…±]*)$/.exec(typed);
  const dimensions: readonly Dimension[] = inner.form === "device" ? ["current"] : (inner.dimensions ?? []);
  if (inner.form === "device") {
    const where = /^(.*\s(?:at|from)\s+)(\S.*)?$/i.exec(typed);
    if (where !== null) return some(place.from + (where[1] ?? "").length, place.to, endsOfPath(text, place, around));
  }
  if (figure !== null && (dimensions.length > 0 || isSize(inner))) {
    const from = offset - (figure[2] ?? "").length;
    const rest = text.slice(offset, place.to);
    const to = /^[^\d\s.,]*/.exec(rest)?.[0].length ?? 0;
    const blank = figure[1] === "" ? " " : "";
    const names = isSize(inner) ? WIRE_UNITS : dimensions.flatMap(unitsOf);
    return some(from, offset + to, [
      ...names.map(({ text: unit, says }) => ({ label: unit, detail: says, insert: blank + unit })),
    ]);
  }
  const behind = /^(.*\S\s+)\S*$/.exec(typed);
  if (inner.form === "wire label" && behind !== null && /^\d\S*\s+\S+\s/.test(typed)) {
    return some(
      place.from + (behind[1] ?? "").length,
      place.to,
      LABEL_WORDS.map((o) => ({ label: o.text, detail: o.says, insert: o.text })),
    );
  }
  if (place.from === offset && needsBlank(text, place) && !place.item) {
    // Right behind the colon a blank is missing.
    const options = plainOptions(text, place, inner, proposed, around);
    return some(
      place.from,
      place.to,
      options.map((o) => ({ ...o, insert: ` ${o.insert}` })),
    );
  }
  return some(place.from, place.to, plainOptions(text, place, inner, proposed, around));
}

const needsBlank = (text: string, { from }: WritingPlace): boolean => text.charAt(from - 1) === ":";

function plainOptions(
  text: string,
  place: WritingPlace,
  takes: Takes,
  proposed: readonly Option[],
  around: Around,
): Option[] {
  const option = (o: Offered): Option => asValue(text, place, o);
  const words = (takes.words ?? []).map((w) => option({ text: w, says: "" }));
  const names = (takes.names ?? []).flatMap((what) => namesOf(what, around)).map(option);
  const sizes = isSize(takes) ? sizesOnSale(around).map(option) : [];
  const cables = takes.form === "cable label" ? cablesOnSale(around).map(option) : [];
  const colours = takes.form === "colour" ? COLOURS.map(option) : [];
  const devices = takes.form === "device" ? [...DEVICE_WORDS, ...deviceParts(around)].map(option) : [];
  const figures = takes.dimensions ?? [];
  const scalar =
    words.length + names.length + sizes.length + cables.length + colours.length + devices.length + figures.length > 0;
  const unknown = scalar ? [option({ text: "unknown", says: "no default may take its place" })] : [];
  const map =
    place.flow || !takes.record
      ? []
      : place.path.length === 2 && place.path[0] === "circuits"
        ? [{ label: "{ path: }", detail: "the way through the parts", insert: "{ path:  }" }]
        : place.path[0] === "parts"
          ? [{ label: "{ kind: }", detail: "what it is", insert: "{ kind:  }" }]
          : [{ label: "{ }", detail: "keys and values", insert: "{  }" }];
  return [...proposed, ...map, ...words, ...names, ...sizes, ...cables, ...colours, ...devices, ...unknown];
}

const asValue = (text: string, place: WritingPlace, { text: name, says }: Offered): Option => ({
  label: name,
  detail: says,
  insert: isInQuotes(text, place) ? name.replaceAll(text.charAt(place.from - 1), "") : writeValue(name, place.flow),
});

const DEVICE_WORDS: readonly Offered[] = [
  { text: "none", says: "there is none" },
  { text: "fuse", says: "a fuse; which one is left to be chosen" },
  { text: "breaker", says: "a breaker; which one is left to be chosen" },
];

const deviceParts = ({ plan }: Around): Offered[] =>
  plan.parts.filter((p) => p.kind === "fuse" || p.kind === "breaker").map((p) => ({ text: p.key, says: p.kind ?? "" }));

/** The parts that the path of this circuit names, then the others. */
function endsOfPath(text: string, place: WritingPlace, around: Around): Option[] {
  const path = place.values["path"] ?? "";
  const on = path.split(/→|->|=>|⟶/).map((p) => foldName(p.replace(/:[^:]*$/, "")));
  const offered = namesOf("part", around);
  const first = offered.filter((o) => on.includes(foldName(o.text)));
  return [...first, ...offered.filter((o) => !first.includes(o))].map((o) => asValue(text, place, o));
}

const isSize = ({ form }: Takes): boolean => form === "wire size" || form === "wire label";

/** What a label may go on with behind its size. */
const LABEL_WORDS: readonly Offered[] = [
  { text: "tinned", says: "copper that is tinned" },
  { text: "class 5", says: "fine strands of IEC 60228" },
  { text: "type 3", says: "finest strands of small craft" },
  { text: "105 °C", says: "what the insulation bears" },
  { text: "red", says: "colour of the insulation" },
];

const COLOURS: readonly Offered[] = baseColours.map(({ letters, name }) => ({ text: name, says: letters }));

const WIRE_UNITS: readonly Offered[] = [
  { text: "mm²", says: "area" },
  { text: "AWG", says: "American wire gauge" },
  { text: "kcmil", says: "thousands of circular mils" },
  { text: "SAE", says: "vehicle gauge, with less copper than the American gauge of its number" },
  { text: "SWG", says: "British gauge" },
];

const unitsOf = (dimension: Dimension): Offered[] => {
  const list: Readonly<Record<string, unknown>> = units[dimension] ?? {}; // a dimension without units has none to offer
  return Object.keys(list)
    .filter((u) => u !== "")
    .map((unit) => ({ text: unit, says: dimension === "ratio" ? "share" : dimension }));
};

/** Cables that are usual in the size system that is bought, each with what its label says. */
function cablesOnSale({ plan }: Around): Offered[] {
  const isMetric = (known(plan.stock.sizes) ?? "mm²") === "mm²";
  return isMetric
    ? [
        { text: "2x2.5 mm² H07RN-F", says: "two cores, no earth" },
        { text: "3G2.5 H07RN-F", says: "three cores, one of them green-yellow" },
        { text: "2x1.5 mm² boat cable", says: "two cores for direct current" },
        { text: "3G1.5 H05VV-F", says: "three cores, one of them green-yellow" },
      ]
    : [
        { text: "14/2 boat duplex", says: "two conductors, no ground" },
        { text: "12/2 boat duplex", says: "two conductors, no ground" },
        { text: "12/2 w/G NM-B", says: "two insulated conductors and a bare ground" },
        { text: "12/3 SOOW", says: "three conductors, the green ground counted" },
      ];
}

function sizesOnSale({ plan }: Around): Offered[] {
  return stockedSizes(known(plan.stock.sizes) ?? "mm²").map(({ label }) => ({ text: label, says: "pins the size" }));
}
