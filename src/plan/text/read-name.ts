import type { MapEntry, ScalarNode } from "./node.ts";
import { readPlain, readQuoted } from "./read-scalar.ts";
import { say, shortOf, sourceOf, type Reading } from "./reading.ts";
import type { Token } from "./tokens.ts";
import { codeOf } from "./visible.ts";
import { tell } from "./words.ts";
import type { Diagnostic, Span } from "../../diagnostic.ts";

/** A name is printed on a sleeve; longer words have a place under `name:`. */
const LONGEST_NAME = 200;
/** What looks like a space at the ends of a name and is none. */
const ODD_SPACE = /^[^\S ]|[^\S ]$/u;

/** Reads a name and says what is wrong with it as a name. */
export function readName(r: Reading, token: Token): ScalarNode {
  const name = token.kind === "plain" ? readPlain(r, token) : readQuoted(r, token);
  if (token.line !== token.endLine) say(r, "plan/name-over-lines", token);
  if (name.text === "") say(r, "plan/missing-name", token);
  if (name.text.length > LONGEST_NAME) {
    say(r, "plan/name-too-long", token, { length: name.text.length, limit: LONGEST_NAME });
  }
  const odd = ODD_SPACE.exec(name.text)?.[0];
  if (odd !== undefined) say(r, "plan/odd-space", token, { name: name.text, code: codeOf(odd) });
  if (name.quoted) return name;
  if (name.text === "<<") say(r, "plan/merge", token);
  if (/[{}[\]]/.test(name.text)) say(r, "plan/bracket-in-name", token, { name: name.text });
  if (name.text.endsWith(":")) say(r, "plan/second-colon", token);
  return name;
}

/**
 * Outside brackets a name runs up to the first colon, so `W5 { path: …` and `W5:{ path: …` make a name of the wrong half.
 *
 * @returns whether that was so and has been said
 */
export function reportSwallowedBracket(r: Reading, token: Token): boolean {
  const source = sourceOf(r, token);
  const at = token.kind === "plain" ? source.search(/[{[]/) : 0;
  if (at <= 0 || !/[\s:]/.test(source.charAt(at - 1))) return false;
  const name = source.slice(0, at).trimEnd().replace(/:$/, "");
  say(r, "plan/bracket-without-colon", token, { name, sign: source.charAt(at) });
  return true;
}

/** Says that no colon follows a name, or that the colon has no space after it. */
export function reportNoColon(r: Reading, token: Token): void {
  const name = shortOf(r, token);
  const spaced = token.kind === "plain" ? name.replace(/:\s*(?=\S)/u, ": ") : name;
  if (spaced === name) say(r, "plan/missing-colon", token, { name });
  else say(r, "plan/space-after-colon", token, { name, better: spaced });
}

/** One message for each name that stands twice, with all its places. */
export function duplicateNames(
  entries: readonly { readonly base: number; readonly key: ScalarNode }[],
  about: readonly string[],
): Diagnostic[] {
  if (new Set(entries.map(({ key }) => key.text)).size === entries.length) return [];
  const places = new Map<string, Span[]>();
  for (const { base, key } of entries) {
    const span: Span = [base + key.span[0], base + key.span[1]];
    const before = places.get(key.text);
    if (before === undefined) places.set(key.text, [span]);
    else before.push(span);
  }
  return [...places]
    .filter(([, spans]) => spans.length > 1)
    .map(([name, spans]) => {
      // The mark goes to the last: the first was there when it was typed.
      const at = [...spans].reverse();
      return tell("plan/duplicate-name", at, [...about, name].join("."), { name, count: spans.length });
    });
}

/** Says which names stand twice in a map. */
export function reportDuplicates(r: Reading, entries: readonly MapEntry[]): void {
  if (entries.length > 1) {
    const names = entries.map(({ key }) => ({ base: 0, key }));
    for (const diagnostic of duplicateNames(names, r.path)) r.diagnostics.push(diagnostic);
  }
}
