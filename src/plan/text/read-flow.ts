import { reportCutValue, reportHiddenValue, valueLikeComment } from "./comments.ts";
import type { MapEntry, Node, ScalarNode } from "./node.ts";
import { readName, reportDuplicates, reportNoColon } from "./read-name.ts";
import { readPlain, readPlainInBrackets, readQuoted, readTextBlock } from "./read-scalar.ts";
import { isProperty, isScalar, MOST_LEVELS, refuseProperty, say, shortOf, sourceOf, type Reading } from "./reading.ts";
import type { Token } from "./tokens.ts";

/**
 * Reads what stands after a colon, a dash or a comma, on the same line or in the same brackets.
 *
 * @param indent of the name or dash before it; null inside brackets
 * @returns null when nothing can be read; then a message says so, and what it was about has been stepped over
 */
export function readInline(r: Reading, indent: number | null): Node | null {
  for (;;) {
    const token = r.tokens[r.at];
    if (token === undefined || token.kind === "cut") return null;
    if (isProperty(token)) {
      refuseProperty(r, token);
      const next = r.tokens[r.at];
      if (indent === null ? endsItem(next) : next?.line !== token.line) return null;
      continue;
    }
    switch (token.kind) {
      case "plain":
        return indent === null ? readPlainInBrackets(r, token) : readPlain(r, token);
      case "single":
      case "double":
        return readQuoted(r, token);
      case "header":
        return readTextBlock(r, token, indent ?? 0);
      case "{":
      case "[":
        return readFlow(r, token);
      case "?":
        return readUnknown(r, token, indent === null);
      case "-":
        say(r, indent === null ? "plan/stray-dash" : "plan/list-on-name-line", token);
        break;
      case "alias":
        say(r, "plan/alias", token, { sign: sourceOf(r, token) });
        break;
      case ":":
        say(r, indent === null ? "plan/missing-name" : "plan/second-colon", token);
        break;
      default:
        say(r, "plan/stray-sign", token, { sign: sourceOf(r, token) });
    }
    r.at++;
    return null;
  }
}

/** A lone `?` says that nobody knows. */
function readUnknown(r: Reading, token: Token, inBrackets: boolean): ScalarNode | null {
  r.at++;
  const next = r.tokens[r.at];
  if (inBrackets ? endsItem(next) : next?.line !== token.line) {
    return { kind: "scalar", text: "unknown", quoted: false, span: [token.start, token.end] };
  }
  say(r, "plan/question-mark", token);
  return null;
}

function endsItem(token: Token | undefined): boolean {
  return token === undefined || token.kind === "," || token.kind === "}" || token.kind === "]" || token.kind === "cut";
}

/** A map or list in brackets, up to its closer or to where it is cut. */
function readFlow(r: Reading, open: Token): Node | null {
  const from = r.at;
  r.at++;
  if (r.depth === MOST_LEVELS) {
    say(r, "plan/too-deep", open, { limit: MOST_LEVELS });
    skipBrackets(r);
    return null;
  }
  r.depth++;
  const closer = open.kind === "{" ? "}" : "]";
  r.closers.push(closer);
  const entries: MapEntry[] = [];
  const items: Node[] = [];
  const closed = readItems(r, open, closer === "}" ? () => { readPair(r, entries); } : () => { readItem(r, items); }); // prettier-ignore
  r.closers.pop();
  r.depth--;
  if (closed && r.closers.length === 0) for (let i = from; i < r.at; i++) reportCutValue(r, r.tokens[i]);
  const span = [open.start, r.tokens[r.at - 1]?.end ?? open.end] as const;
  if (closer === "]") return { kind: "list", flow: true, items, span };
  reportDuplicates(r, entries);
  return { kind: "map", flow: true, entries, span };
}

/** @returns whether the brackets were closed */
function readItems(r: Reading, open: Token, readOne: () => void): boolean {
  const what = open.kind === "{" ? "map" : "list";
  const closer = open.kind === "{" ? "}" : "]";
  const from = r.at - 1;
  let due = true; // an item may come: at the start and after a comma
  for (;;) {
    const token = r.tokens[r.at];
    if (token === undefined || token.kind === "cut") {
      reportUnclosed(r, open, from, { sign: open.kind, closer, what });
      return false;
    }
    if (token.kind === closer) {
      r.at++;
      return true;
    }
    if (token.kind === "}" || token.kind === "]") {
      say(r, "plan/wrong-bracket", token, { sign: token.kind, closer, what });
      // It may well close what is around; then only ours is missing.
      if (!r.closers.slice(0, -1).includes(token.kind)) r.at++;
      return true;
    }
    if (token.kind === ",") {
      if (due) say(r, "plan/empty-item", token, { sign: "," });
      due = true;
      r.at++;
    } else if (isProperty(token)) {
      refuseProperty(r, token);
    } else if (!due && token.kind === ":") {
      say(r, "plan/second-colon", token);
      skipToComma(r);
    } else {
      if (!due) say(r, "plan/missing-comma", token, { name: shortOf(r, token) });
      due = false;
      readOne();
    }
  }
}

/** One fault, one message: an open quote or a comment may have swallowed the bracket that closes. */
function reportUnclosed(r: Reading, open: Token, from: number, facts: Readonly<Record<string, string>>): void {
  const said = r.diagnostics.at(-1)?.id;
  if (said === "plan/unclosed-bracket" || said === "plan/unclosed-quote" || said === "plan/value-is-comment") return;
  for (let i = r.at - 1; i >= from; i--) {
    const token = r.tokens[i];
    const comment = valueLikeComment(r, token);
    if (token !== undefined && comment !== null) {
      reportHiddenValue(r, token, comment);
      return;
    }
  }
  say(r, "plan/unclosed-bracket", open, facts);
}

function readPair(r: Reading, entries: MapEntry[]): void {
  const token = r.tokens[r.at];
  if (token === undefined) return;
  if (token.kind === "?") {
    say(r, "plan/question-mark", token);
    r.at++;
    return;
  }
  if (!isScalar(token)) {
    if (token.kind === "{" || token.kind === "[") say(r, "plan/bracket-as-name", token);
    readInline(r, null);
    skipPairValue(r);
    return;
  }
  const key = readName(r, token);
  const colon = r.tokens[r.at];
  if (colon?.kind !== ":") {
    reportNoColon(r, token);
    return;
  }
  r.at++;
  r.path.push(key.text);
  const value = endsItem(r.tokens[r.at]) ? null : readInline(r, null);
  const comment = value === null ? valueLikeComment(r, colon) : null;
  if (comment !== null) reportHiddenValue(r, colon, comment);
  r.path.pop();
  entries.push({ key, value, span: [token.start, value?.span[1] ?? colon.end] });
}

function readItem(r: Reading, items: Node[]): void {
  const item = readInline(r, null);
  if (item !== null) items.push(item);
  const colon = r.tokens[r.at];
  if (colon?.kind === ":") {
    say(r, "plan/pair-in-list", colon);
    skipPairValue(r);
  }
}

/** Steps over a colon and its value that belong to no name. */
function skipPairValue(r: Reading): void {
  if (r.tokens[r.at]?.kind !== ":") return;
  r.at++;
  if (!endsItem(r.tokens[r.at])) readInline(r, null);
}

/** Steps over the rest of an item. */
function skipToComma(r: Reading): void {
  while (!endsItem(r.tokens[r.at])) {
    const opens = r.tokens[r.at]?.kind === "{" || r.tokens[r.at]?.kind === "[";
    r.at++;
    if (opens) skipBrackets(r);
  }
}

/** Steps over brackets that are too deep, however deep they are. */
function skipBrackets(r: Reading): void {
  for (let open = 1; open > 0; r.at++) {
    const kind = r.tokens[r.at]?.kind;
    if (kind === undefined || kind === "cut") return;
    if (kind === "{" || kind === "[") open++;
    if (kind === "}" || kind === "]") open--;
  }
}
