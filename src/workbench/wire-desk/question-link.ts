import type { QuestionField, QuestionText } from "../../size/question-text.ts";
import { labelContexts, type LabelContext } from "../../wire/label/label-reading.ts";

/** Whether a field is a text or a yes; a table, so that a field that is added is not forgotten here. */
const fields: Readonly<Record<QuestionField, "text" | "yes">> = {
  load: "text",
  start: "text",
  startTime: "text",
  volts: "text",
  run: "text",
  loop: "text",
  drop: "text",
  rules: "text",
  ambient: "text",
  engineSpace: "yes",
  bundle: "text",
  insulation: "text",
  method: "text",
  terminals: "text",
  stock: "text",
  metal: "text",
  strands: "text",
  sheathed: "yes",
  leastVolts: "text",
  startsAbove: "text",
  sourceVolts: "text",
};

/** No figure with its unit is longer. */
const MOST_LETTERS = 60;

const BEGINS = "wire-desk?";

/** A name that is asked about on the desk. */
export interface NamedLabel {
  readonly text: string;
  /** Where it was met; null: not said. */
  readonly context: LabelContext | null;
}

/** No label is longer; what is cut off here the reader would refuse. */
const LONGEST_LABEL = 300;

/**
 * A question as what stands behind the `#` of an address.
 *
 * @example
 * questionToHash({ load: "45 W", run: "3 m" }) //=> "wire-desk?load=45+W&run=3+m"
 */
export function questionToHash(question: QuestionText): string {
  const pairs = Object.entries(question).map(([field, value]): [string, string] => [field, String(value)]);
  return BEGINS + new URLSearchParams(pairs).toString();
}

/**
 * The question in an address; anybody may have written it, so only known fields and short texts are taken.
 *
 * @param hash with or without its `#`
 * @returns null: it holds none
 * @example
 * questionFromHash("#wire-desk?load=45+W&run=3+m&colour=red") //=> { load: "45 W", run: "3 m" }
 */
export function questionFromHash(hash: string): QuestionText | null {
  const text = hash.replace(/^#\/?/, "");
  return text.startsWith(BEGINS) ? questionFrom([...new URLSearchParams(text.slice(BEGINS.length))]) : null;
}

/**
 * The name in an address.
 *
 * @returns null: it holds none
 * @example
 * labelFromHash("#wire-desk?label=12%2F3&where=cord") //=> { text: "12/3", context: "cord" }
 */
export function labelFromHash(hash: string): NamedLabel | null {
  const text = hash.replace(/^#\/?/, "");
  return text.startsWith(BEGINS) ? labelFrom(Object.fromEntries(new URLSearchParams(text.slice(BEGINS.length)))) : null;
}

/** The name that was remembered as JSON; null: it is none. */
export function labelFromJson(text: string): NamedLabel | null {
  try {
    const read: unknown = JSON.parse(text);
    return typeof read === "object" && read !== null ? labelFrom({ ...read }) : null;
  } catch {
    return null;
  }
}

function labelFrom({ label, where }: { readonly label?: unknown; readonly where?: unknown }): NamedLabel | null {
  if (typeof label !== "string") return null;
  return { text: label.slice(0, LONGEST_LABEL), context: labelContexts.find((context) => context === where) ?? null };
}

/**
 * The same address with another name on the desk; what else stands there stays.
 *
 * @param hash as it is now
 * @example
 * labelIntoHash("#wire-desk?build=b1", { text: "12/3", context: "cord" }) //=> "#wire-desk?build=b1&label=12%2F3&where=cord"
 * labelIntoHash("#wire-desk?label=12%2F3", { text: "", context: null }) //=> "#wire-desk"
 */
export function labelIntoHash(hash: string, { text, context }: NamedLabel): string {
  const [name = "", query = ""] = hash.split("?");
  const pairs = new URLSearchParams(query);
  pairs.delete("label");
  pairs.delete("where");
  if (text !== "") pairs.set("label", text.slice(0, LONGEST_LABEL));
  if (context !== null) pairs.set("where", context);
  const written = pairs.toString();
  return written === "" ? name : `${name}?${written}`;
}

/** The question that was remembered as JSON; null: it is none. */
export function questionFromJson(text: string): QuestionText | null {
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== "object" || read === null || Array.isArray(read)) return null;
    return questionFrom(Object.entries(read).map(([field, value]) => [field, String(value)]));
  } catch {
    return null;
  }
}

function questionFrom(pairs: readonly (readonly [string, string])[]): QuestionText | null {
  const known: [string, string | true][] = [];
  for (const [field, value] of pairs) {
    if (!isField(field) || value.length > MOST_LETTERS) continue;
    if (fields[field] === "text") known.push([field, value.replace(/\p{C}/gu, "")]);
    else if (value === "true") known.push([field, true]);
  }
  return known.length === 0 ? null : { load: "", ...Object.fromEntries(known) };
}

const isField = (name: string): name is QuestionField => Object.hasOwn(fields, name);
