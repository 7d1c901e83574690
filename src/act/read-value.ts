import { printAmount, readQuantity, type Dimension } from "../quantity/index.ts";
import { dimensions } from "../quantity/dimension.ts";
import type { Stock } from "../system/index.ts";
import { isSizeAlone, listed, wireLabel, type ValueRule } from "../plan/index.ts";
import { refuse } from "./draft.ts";
import type { NotActed } from "./request.ts";

// every key of the table of dimensions is one
const KEYS = Object.keys(dimensions) as readonly Dimension[];
/** A percentage first: other dimensions complete a % to a unit of their own. */
const ALL: readonly Dimension[] = [
  "ratio",
  ...KEYS.filter((dimension) => dimension !== "ratio" && dimension !== "count"),
];

/** Longer than any figure, name or note that is typed on a drawing. */
const LONGEST = 1000;

/** One line of text without blanks at its ends; or why it cannot stand in a plan. */
export function oneLine(text: string): string | NotActed {
  const line = text.trim();
  if (line.length > LONGEST) {
    return refuse(`a text of ${line.length} characters; at most ${LONGEST} are taken here`, "shorten it");
  }
  return /[\p{Cc}\p{Cs}\u2028\u2029]/u.test(line)
    ? refuse("one line of text was expected, without signs that do not show", "type it again")
    : line;
}

/** A text without the sign that stands between two figures on a drawing: who copies a figure has it with it. */
export const withoutSeparator = (text: string): string => text.replace(/^\s*·\s*/, "");

/**
 * What was typed for a key, as it goes into the plan: the person's own unit, with a decimal point whatever was typed.
 *
 * @param rule of the key, by which the plan's reader will judge it
 * @returns the text, or the question that the reader has
 */
export function readValue(typed: string, rule: ValueRule<unknown>): string | NotActed {
  const isFigure = rule.takes !== undefined && rule.takes.names === undefined;
  const text = oneLine(isFigure ? withoutSeparator(typed) : typed);
  if (typeof text !== "string") return text;
  let refusal: NotActed | null = null;
  const fact = rule.read(
    { kind: "scalar", text, quoted: false, span: [0, text.length] },
    {
      about: "",
      say: ({ level, message, hint, at }) => {
        if (level === "error") refusal ??= refuse(message, hint ?? `expected ${rule.says}`, at);
      },
    },
  );
  if (refusal !== null) return refusal;
  if (typeof fact?.value !== "object" || fact.value === null || !("low" in fact.value)) return text;
  const put = canonical(text);
  return isReadAlike(put, fact.value, rule) ? put : text;
}

/** Whether a text in its canonical spelling says to the rule of its key what the typed one does. */
function isReadAlike(text: string, value: object, rule: ValueRule<unknown>): boolean {
  const node = { kind: "scalar", text, quoted: false, span: [0, text.length] } as const;
  const again = rule.read(node, { about: "", say: () => undefined })?.value;
  if (typeof again !== "object" || again === null) return false;
  return ["low", "high"].every((end) => Reflect.get(again, end) === Reflect.get(value, end));
}

/** A quantity in its canonical spelling; whatever dimension it has, it is printed alike. */
function canonical(text: string): string {
  const read = readQuantity(text, ALL);
  return read.ok ? printAmount(read.amount) : text;
}

type Stocked = Stock["system"];
const SIZES: Readonly<Record<Stocked, string>> = { "mm²": "`2.5 mm²`", AWG: "`12 AWG`", SAE: "`12 SAE`" };

/** A size, or the label of one conductor, as it goes into the plan; or what has to be asked back. */
export function readSize(typed: string, system: Stocked): { label: string; remarks: readonly string[] } | NotActed {
  const text = oneLine(withoutSeparator(typed));
  if (typeof text !== "string") return text;
  if (/^(?:unknown|\?)$/i.test(text)) return { label: "unknown", remarks: [] };
  const said: Said[] = [];
  const rule = wireLabel(system === "SAE" ? "vehicle" : undefined);
  const node = { kind: "scalar", text, quoted: false, span: [0, text.length] } as const;
  const fact = rule.read(node, { about: "", say: (d) => said.push(d) });
  if (fact !== undefined && fact.value !== "unknown") {
    const { size, make } = fact.value;
    const remarks = said.map(({ message }) => message);
    return { label: isSizeAlone(make) ? size.label : text, remarks };
  }
  const problem = said.find(({ level }) => level === "error");
  if (problem === undefined) return refuse("a wire size was expected", `write it as in ${SIZES[system]}`);
  return refuse(problem.message, sizeHint(problem, system), problem.at);
}

type Said = Parameters<Parameters<ValueRule<unknown>["read"]>[1]["say"]>[0];

/** What to write instead, in the system in which the plan buys its wire. */
function sizeHint({ hint, data }: Said, system: Stocked): string {
  const near = Array.isArray(data?.["near"]) ? (data["near"] as readonly string[]) : []; // texts alone are put there
  const like = `write it as in ${SIZES[system]}`;
  if (near.length === 0) return hint?.startsWith("write it behind") === true ? hint : like;
  const own = near.filter((label) => label.endsWith(` ${system}`));
  const all = [...own, ...near.filter((label) => !own.includes(label))];
  const more = system !== "mm²" && own.length === 0 ? `, or a gauge as in ${SIZES[system]}` : "";
  return `write ${listed(all, "or")}${more}`;
}
