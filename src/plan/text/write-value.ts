import { codeOf } from "./visible.ts";

/** A value to be written into a plan: a text that is to read back as exactly itself, a list, or names with values. */
export type EditValue = string | readonly EditValue[] | EditMap;

export interface EditMap {
  readonly entries: readonly (readonly [name: string, value: EditValue])[];
}

/**
 * A value in the form of the language, on one line.
 *
 * @param inBrackets it stands inside `{ }` or `[ ]`, where commas and brackets mean something
 * @example
 * writeValue({ entries: [["path", "B1 → BP"], ["at", ["1 m", "2 m"]]] }, false) //=> "{ path: B1 → BP, at: [1 m, 2 m] }"
 */
export function writeValue(value: EditValue, inBrackets: boolean): string {
  if (typeof value === "string") return isPlain(value, inBrackets) ? value : quoted(value);
  if (isList(value)) return `[${value.map((item) => writeValue(item, true)).join(", ")}]`;
  const entries = value.entries.map(([name, inner]) => `${writeName(name, true)}: ${writeValue(inner, true)}`);
  return entries.length === 0 ? "{}" : `{ ${entries.join(", ")} }`;
}

/** A name in the form of the language, in quotes when it needs them. */
export function writeName(name: string, inBrackets: boolean): string {
  return isPlain(name, inBrackets) && name !== "<<" && !/[{}[\]]/.test(name) ? name : quoted(name);
}

/** A text in double quotes. */
export function quoted(text: string): string {
  const inside = text.replace(/["\\]|[\u0000-\u001f\u007f-\u00a0\u00ad\u2028\u2029\ufeff]|\p{Cs}/gu, (sign) => {
    if (sign === '"' || sign === "\\") return `\\${sign}`;
    if (sign === "\n") return "\\n";
    if (sign === "\t") return "\\t";
    return `\\u${codeOf(sign).slice(2)}`;
  });
  return `"${inside}"`;
}

export function isList(value: EditValue): value is readonly EditValue[] {
  return Array.isArray(value);
}

/** The text can stand without quotes and means nothing but itself. Rather quotes too many than one too few. */
function isPlain(text: string, inBrackets: boolean): boolean {
  if (text === "" || text.trim() !== text || /[\u0000-\u001f\u007f-\u00a0\u00ad\u2028\u2029\ufeff]/.test(text))
    return false;
  if (/^[,[\]{}#&*!|>'"%@`]/.test(text) || /^[-?:](?:\s|$)/.test(text)) return false;
  if (/:(?:\s|$)/.test(text) || /\s#/.test(text) || /^(?:---|\.\.\.)(?:\s|$)/.test(text)) return false;
  return !inBrackets || !/[,[\]{}]|^[?:]/.test(text);
}
