import type { Diagnostic } from "../../diagnostic.ts";

/** A replacement that a message names. */
export interface QuickFix {
  readonly put: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Whether a message leaves a choice to the person. What cannot be put in counts: the one that is left over is not the one that was meant.
 */
export function leavesChoice({ hint, data }: Diagnostic): boolean {
  const { near, ways } = data ?? {};
  return Math.max(Number(ways ?? 0), Array.isArray(near) ? near.length : named(hint ?? "").length) > 1;
}

/**
 * Replacements that the hint of a message asks about, as in: did you mean `fridge`?
 *
 * @param from of the marked stretch of the text as it stands now
 * @returns empty where the hint asks for something else, or the stretch no longer holds what the message is about
 */
export function quickFixes({ hint, data }: Diagnostic, text: string, from: number, to: number): QuickFix[] {
  if (hint === undefined || !hint.startsWith("did you mean")) return [];
  const offered = Array.isArray(data?.["near"]) ? (data["near"] as readonly string[]) : named(hint); // texts alone are put there
  const wrong = [data?.["name"], data?.["key"]].find((w) => typeof w === "string");
  const marked = text.slice(from, to);
  let [start, end] = [from, to];
  if (typeof wrong === "string" && wrong !== "") {
    const at = marked.indexOf(wrong);
    if (at < 0) return [];
    [start, end] = [from + at, from + at + wrong.length];
  }
  if (end <= start || text.slice(start, end).includes("\n")) return [];
  // What needs quotes is left to the person: here nobody knows in which brackets it stands.
  return offered
    .filter((name) => name !== "" && !/[\n\r,[\]{}#"'`]|:\s/.test(name) && !/^[\s&*!|>%@?-]|\s$/.test(name))
    .map((put) => ({ put, from: start, to: end }));
}

const named = (hint: string): string[] => Array.from(hint.matchAll(/`([^`]+)`/g), ([, name = ""]) => name);
