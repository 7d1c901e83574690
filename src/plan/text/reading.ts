import type { Diagnostic } from "../../diagnostic.ts";
import { plainText } from "./scalars.ts";
import type { Token } from "./tokens.ts";
import { tell, type Facts, type WordId } from "./words.ts";

/** The block that is being read, how far, and what there was to say about it. The one thing here that changes. */
export interface Reading {
  readonly text: string;
  readonly tokens: Token[];
  /** Index of the next token. */
  at: number;
  /** Collections around the next token. */
  depth: number;
  /** Closers that the open brackets wait for, outermost first. */
  readonly closers: ("}" | "]")[];
  /** Tokens before this one have had their commas judged. */
  commasJudged: number;
  /** Names around the next token. */
  readonly path: string[];
  readonly diagnostics: Diagnostic[];
}

/** No fact of a plan is deeper than six levels; more than this is an accident or an attack, and would use up the stack. */
export const MOST_LEVELS = 32;

/** Nobody reads more; a hostile text could have one for each character. */
export const MOST_MESSAGES = 1000;

/** Something with a place: a token, or a stretch of text. */
interface Place {
  readonly start: number;
  readonly end: number;
}

export function say(r: Reading, id: WordId, place: Place, facts: Facts = {}): void {
  if (r.diagnostics.length > MOST_MESSAGES) return;
  r.diagnostics.push(tell(id, [[place.start, place.end]], r.path.join("."), facts));
}

/** The next token outside brackets; the mark of a cut bracket says nothing there. */
export function peek(r: Reading): Token | undefined {
  while (r.tokens[r.at]?.kind === "cut") r.at++;
  return r.tokens[r.at];
}

export function isScalar(token: Token | undefined): token is Token & { readonly kind: "plain" | "single" | "double" } {
  return token?.kind === "plain" || token?.kind === "single" || token?.kind === "double";
}

export function isProperty(token: Token): token is Token & { readonly kind: "anchor" | "tag" } {
  return token.kind === "anchor" || token.kind === "tag";
}

/** The source of a token, for messages. */
export function sourceOf(r: Reading, token: Token): string {
  return r.text.slice(token.start, token.end);
}

/**
 * Reports an anchor or a tag and steps over it. What follows on its line takes its column, so that the line keeps its
 * place among its neighbours.
 */
export function refuseProperty(r: Reading, token: Token): void {
  say(r, token.kind === "tag" ? "plan/tag" : "plan/anchor", token, { sign: sourceOf(r, token) });
  r.at++;
  const next = r.tokens[r.at];
  if (next?.line === token.line) r.tokens[r.at] = { ...next, column: token.column, first: token.first };
}

/** Steps over the rest of the line, and over what its brackets and quotes run on to. */
export function skipLine(r: Reading): void {
  const line = r.tokens[r.at]?.line;
  do r.at++;
  while (r.tokens[r.at] !== undefined && (r.tokens[r.at]?.line === line || r.tokens[r.at]?.first !== true));
}

/** A plain text in few words, for messages. */
export function shortOf(r: Reading, token: Token): string {
  return plainText(sourceOf(r, token));
}
