import { say, type Reading } from "./reading.ts";
import type { Token } from "./tokens.ts";

/**
 * A comment that looks like a value, from its `#` to the end of the line: a word or number follows the `#` at once
 * (`#10`), where a person who means a comment leaves a space.
 *
 * @returns the comment, or null when there is none after the token or it looks like one
 */
export function valueLikeComment(r: Reading, token: Token | undefined): string | null {
  if (token === undefined || token.comment < 0) return null;
  const end = r.text.indexOf("\n", token.comment);
  const comment = r.text.slice(token.comment, end < 0 ? undefined : end).trimEnd();
  return /^#[\p{L}\p{N}]/u.test(comment) ? comment : null;
}

/** Says that there is no value because a comment stands in its place. */
export function reportHiddenValue(r: Reading, token: Token, comment: string): void {
  say(r, "plan/value-is-comment", { start: token.comment, end: token.comment + comment.length }, { comment });
}

/** Warns where a text without quotes ends at such a comment: `8 AWG #10 ring` loses its ring. */
export function reportCutValue(r: Reading, token: Token | undefined): void {
  if (token?.kind !== "plain") return;
  const comment = valueLikeComment(r, token);
  if (comment === null) return;
  say(r, "plan/comment-in-value", { start: token.comment, end: token.comment + comment.length }, { comment });
}

/** Says where a `#` touches what stands before it, so that it is neither clearly text nor clearly a comment. */
export function reportTouchingComments(r: Reading): void {
  for (const token of r.tokens) {
    if (token.touching) say(r, "plan/comment-needs-space", { start: token.comment, end: token.comment + 1 });
  }
}
