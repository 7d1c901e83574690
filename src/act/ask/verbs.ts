/** Verbs of the ask field that there is something behind now. */
export type Verb =
  | "why"
  | "curves"
  | "go"
  | "add"
  | "feed"
  | "insert"
  | "pin"
  | "unpin"
  | "length"
  | "rename"
  | "name"
  | "remove"
  | "turn"
  | "way"
  | "battery"
  | "engine"
  | "apply"
  | "waive"
  | "open"
  | "save"
  | "new"
  | "undo"
  | "redo"
  | "rub out"
  | "set";

const VERBS: readonly (readonly [Verb, readonly string[]])[] = [
  ["why", ["why is", "why"]],
  ["curves", ["curves of", "curves"]],
  ["go", ["go to", "goto", "find", "select", "show me"]],
  ["add", ["add a", "add"]],
  ["feed", ["feed"]],
  ["insert", ["insert a", "insert"]],
  ["pin", ["pin"]],
  ["unpin", ["unpin"]],
  ["length", ["length of", "length"]],
  ["rename", ["rename", "number"]],
  ["name", ["name", "call"]],
  ["remove", ["remove", "delete"]],
  ["turn", ["turn", "switch", "plug", "flip"]],
  ["way", ["move"]],
  ["battery", ["what if battery", "battery", "charge"]],
  ["engine", ["what if engine", "engine"]],
  ["apply", ["apply"]],
  ["waive", ["waive"]],
  ["open", ["open", "show", "view"]],
  ["save", ["save to", "save as", "save"]],
  ["new", ["new plan", "new build"]],
  ["undo", ["undo to", "undo"]],
  ["redo", ["redo"]],
  ["rub out", ["rub out"]],
  ["set", ["set"]],
];

const PHRASES = VERBS.flatMap(([verb, phrases]) => phrases.map((phrase) => ({ verb, phrase }))).sort(
  (a, b) => b.phrase.length - a.phrase.length,
);

/** First words of all verbs, for whoever mistypes one. */
export const verbWords: readonly string[] = [...new Set(PHRASES.map(({ phrase }) => phrase.split(" ")[0] ?? phrase))];

/** The verb that a text begins with, and what follows it. */
export function takeVerb(text: string): { readonly verb: Verb; readonly phrase: string; readonly rest: string } | null {
  const lower = text.toLowerCase();
  for (const { verb, phrase } of PHRASES) {
    if (!lower.startsWith(phrase)) continue;
    const next = text.charAt(phrase.length);
    if (next === "" || /\s/.test(next)) return { verb, phrase, rest: text.slice(phrase.length).trim() };
  }
  return null;
}
