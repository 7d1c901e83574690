import { readDeviceFamily } from "../device/index.ts";
import { dimensions } from "../quantity/dimension.ts";
import { printAmount, readQuantity, type Dimension } from "../quantity/index.ts";
import { shown } from "../plan/index.ts";
import { refuse } from "./draft.ts";
import { oneLine, withoutSeparator } from "./read-value.ts";
import type { NotActed } from "./request.ts";

/** A device as a person types it: `10 A`, `breaker 10 A 2-pole`, `fuse 30 A class T`, `fuse`, `none`. */
export interface DeviceSentence {
  readonly none: boolean;
  readonly kind: "fuse" | "breaker" | null;
  /** `10 A`; null: left to be proposed. */
  readonly rating: string | null;
  /** Family and poles, as typed. */
  readonly more: string;
  /** `at BP`, `0.3 m from BP`; null: not said. */
  readonly place: string | null;
}

/** `at BP`, `0.3 m from BP`, `1 ft 2 in from BP`. */
const PLACE = /(?:^|\s)((?:(?:\d+\s*(?:ft|feet|foot|'|′)\s*)?\d\S*(?:\s+\d+\/\d+)?\s*[^\s\d]*\s+from|at)\s+\S.*)$/i;
const RATED = /(?:^|\s)(?:unknown|\d\S*?\s*(?:m?A|amps?|amperes?))(?=\s|$)/i;
const BARE = /(?:^|\s)\d\S*(?=\s|$)/;

const KIND = /(?:^|\s)(fuse|breaker)(?=\s|$)/i;
const oneBlank = (words: string): string => words.replace(/\s+/g, " ").trim();

/** The figure of a device; one without a unit only where none has one: `strip fuse 51 mm 350 A`. */
const figureIn = (words: string): RegExpExecArray | null => {
  const plain = withoutPoles(words);
  return RATED.exec(plain) ?? BARE.exec(plain);
};

/** Reads a device; what its words mean is judged with the plan. */
export function readDeviceSentence(typed: string): DeviceSentence | NotActed {
  const line = oneLine(withoutSeparator(typed));
  if (typeof line !== "string") return line;
  if (/^(?:none|no|without)(?: (?:fuse|breaker|device))?$/i.test(line)) {
    return { none: true, kind: null, rating: null, more: "", place: null };
  }
  const place = PLACE.exec(line);
  let rest = place === null ? line : line.slice(0, place.index);
  const kind = KIND.exec(rest);
  const found = figureIn(rest);
  let rating: string | null = null;
  if (found !== null) {
    const read = readQuantity(found[0].trim(), "current", { min: 0 });
    if (!read.ok) return noRating(found[0].trim(), rest.slice(found.index).replace(KIND, " ").trim());
    rating = printAmount(read.amount);
    rest = `${rest.slice(0, found.index)} ${rest.slice(found.index + found[0].length)}`;
  }
  const more = withoutKind(rest);
  if (kind === null && rating === null) {
    return refuse(`\`${shown(line)}\` is no device`, "write `fuse`, `breaker 10 A` or `none`");
  }
  const said = kind?.[1]?.toLowerCase();
  return {
    none: false,
    kind: said === "fuse" || said === "breaker" ? said : null,
    rating,
    more,
    place: place?.[1]?.trim() ?? null,
  };
}

/** What to write where a figure is no rating. */
function noRating(figure: string, words: string): NotActed {
  const [problem] = readQuantity(figure, "current", { min: 0 }).problems;
  const other = readQuantity(words.replace(/^(\d{1,3}),(\d{3})(?![\d.,])/, "$1$2"), OTHERS);
  if (other.ok && other.amount.form !== "unknown") {
    const { called } = dimensions[other.amount.dimension];
    return refuse(
      `\`${shown(words)}\` is ${called}; the rating of a device in A was expected`,
      "write it as in `10 A` or `breaker 10 A`",
    );
  }
  const { decimal, grouped } = problem?.data ?? {};
  const hint =
    decimal === undefined
      ? (problem?.hint ?? "write it as in `10 A`")
      : `write \`${String(decimal)} A\` or \`${String(grouped)} A\``;
  return refuse(problem?.message ?? "a rating was expected", hint);
}

/** Dimensions that are typed by mistake where a rating belongs. */
const OTHERS: readonly Dimension[] = ["length", "area", "voltage", "power", "charge", "energy", "temperature"];

/** The words of a device in the line of its circuit; what the sentence leaves open is taken from the words that stand. */
export function deviceSentence({ rating, more, place, kind }: DeviceSentence, words: string): string {
  const stands = PLACE.exec(words)?.[1]?.trim() ?? null;
  const where = place ?? stands;
  const figure = rating ?? ratingIn(words);
  if (figure === null) return kind ?? "fuse";
  // Another rating keeps its family where none is said; another family keeps nothing.
  const kept = more !== "" || rating === null ? more : familyIn(words);
  const apart = where !== null && /\sfrom\s/i.test(` ${where}`) ? withoutFigures(kept) : kept;
  return [figure, apart, where ?? ""].filter((w) => w !== "").join(" ");
}

/** A family whose name holds a figure, in other words: in front of a distance the plan takes every figure for a part of it. */
function withoutFigures(family: string): string {
  const id = /(?:^|\s)\d/.test(family) ? readDeviceFamily(family) : null;
  if (id === null) return family;
  const words = id.replaceAll("_", " ");
  return /(?:^|\s)\d/.test(words) ? id : words;
}

/** Words of a family without the word for its kind, unless that is a part of its name: `bolt-down strip fuse 51 mm`. */
function withoutKind(words: string): string {
  const short = oneBlank(words.replace(KIND, " "));
  const whole = oneBlank(words);
  return readDeviceFamily(short) === null && readDeviceFamily(whole) !== null ? whole : short;
}

/** Words of a device that are neither its figure nor its place. */
function familyIn(words: string): string {
  const place = PLACE.exec(words);
  const head = place === null ? words : words.slice(0, place.index);
  const figure = figureIn(head);
  const rest = figure === null ? head : `${head.slice(0, figure.index)} ${head.slice(figure.index + figure[0].length)}`;
  return withoutKind(rest.replace(/(?:^|\s)(?:none|unknown)(?=\s|$)/gi, " "));
}

/** The words of a device in a way of a panel: `breaker 16 A 2-pole`. What the sentence leaves open stays. */
export function wayWords({ kind, rating, more }: DeviceSentence, words: string): string {
  const stands = /(?:^|\s)(fuse|breaker)(?=\s|$)/i.exec(words)?.[1]?.toLowerCase();
  const kept = more !== "" ? more : familyIn(words);
  return [kind ?? stands ?? "breaker", rating ?? ratingIn(words) ?? "", kept].filter((w) => w !== "").join(" ");
}

/** The rating in the words of a device; null: they say none. */
export const ratingIn = (words: string): string | null => figureIn(words)?.[0].trim() ?? null;

const withoutPoles = (words: string): string => words.replace(/\d[ -]?poles?/i, (poles) => " ".repeat(poles.length));
