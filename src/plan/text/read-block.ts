import type { Diagnostic, Span } from "../../diagnostic.ts";
import { reportCutValue, reportHiddenValue, reportTouchingComments, valueLikeComment } from "./comments.ts";
import type { ListNode, MapEntry, MapNode, Node } from "./node.ts";
import { readInline } from "./read-flow.ts";
import { reportLoneBracket } from "./read-scalar.ts";
import { readName, reportDuplicates, reportNoColon, reportSwallowedBracket } from "./read-name.ts";
import { isProperty, isScalar, MOST_LEVELS, peek, refuseProperty, say, shortOf, skipLine, sourceOf, type Reading } from "./reading.ts"; // prettier-ignore
import { readTokens, type Token } from "./tokens.ts";
import { tell } from "./words.ts";

/** What was read from a block, with spans from its start. */
export interface ReadBlock {
  /** One, unless lines in the block are out of line with its name; none, when the block has no name that can be read. */
  readonly entries: readonly MapEntry[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads the lines of a name and its value.
 *
 * @param source whole lines without control characters; the first holds the name
 */
export function readBlock(source: string): ReadBlock {
  // A line with nothing but space is nothing, whatever the space is made of.
  const block = source.includes("\t") ? source.replace(BLANK, spaced) : source;
  const asItIs = readLines(block);
  if (asItIs.diagnostics.length === 0 || !TAB_IN_INDENT.test(block)) return asItIs;
  // Would the block read better if its tabs were spaces, one or more each? Then they were meant as indents.
  let best = asItIs;
  for (const width of TAB_WIDTHS) {
    const { text, placeOf } = expandTabs(block, width);
    const read = readLines(text);
    if (read.diagnostics.length < best.diagnostics.length) best = movedBy(read, placeOf);
  }
  if (best === asItIs) return asItIs;
  const tab = block.search(TAB_IN_INDENT);
  const at = block.indexOf("\t", tab);
  const diagnostics = best.diagnostics.filter(({ id }) => id !== "plan/tab");
  return { entries: best.entries, diagnostics: [tell("plan/tab", [[at, at + 1]], ""), ...diagnostics] };
}

/** Columns of a tab: as many as it has signs, and those that editors are set to. */
const TAB_WIDTHS = [1, 2, 4, 8] as const;

/** A block with spaces for the tabs in its indents, and the way from a place in it back to the block. */
function expandTabs(block: string, width: number): { text: string; placeOf: (at: number) => number } {
  const gains: { readonly from: number; readonly by: number }[] = [];
  let gained = 0;
  const text = block.replace(TABS_IN_INDENT, (indent: string, start: number) => {
    let columns = 0;
    for (const sign of indent) columns += sign === "\t" && width > 1 ? width - (columns % width) : 1;
    gained += columns - indent.length;
    gains.push({ from: start + indent.length + gained, by: gained });
    return " ".repeat(columns);
  });
  return { text, placeOf: (at) => at - (gains.findLast((gain) => gain.from <= at)?.by ?? 0) };
}

/** What was read from another text, with its places in the block. */
function movedBy(read: ReadBlock, placeOf: (at: number) => number): ReadBlock {
  const span = ([start, end]: Span): Span => [placeOf(start), placeOf(end)];
  const entry = (e: MapEntry): MapEntry => ({
    key: { ...e.key, span: span(e.key.span) },
    value: e.value === null ? null : node(e.value),
    span: span(e.span),
  });
  const node = (n: Node): Node => {
    if (n.kind === "map") return { ...n, entries: n.entries.map(entry), span: span(n.span) };
    return n.kind === "list" ? { ...n, items: n.items.map(node), span: span(n.span) } : { ...n, span: span(n.span) };
  };
  return {
    entries: read.entries.map(entry),
    diagnostics: read.diagnostics.map((d) => ({ ...d, at: d.at.map(span) })),
  };
}

const spaced = (space: string): string => space.replaceAll("\t", " ");
const BLANK = /^[ \t]+(?=\r?$)/gm;
const TAB_IN_INDENT = /^ *\t[ \t]*(?=[^\s])/m;
const TABS_IN_INDENT = /^[ \t]*\t[ \t]*/gm;

function readLines(block: string): ReadBlock {
  const tokens = readTokens(block);
  const r: Reading = { text: block, tokens, at: 0, depth: 0, closers: [], commasJudged: 0, path: [], diagnostics: [] };
  reportTouchingComments(r);
  const { entries } = readEntries(r, peek(r)?.column ?? 0, -1);
  return { entries, diagnostics: r.diagnostics };
}

/**
 * Reads names with values, one a line.
 *
 * @param indent column of the first name; a line elsewhere is reported, and read as if it were in line
 * @param outer column of what the names belong to; a line there or left of it ends them
 */
function readEntries(r: Reading, indent: number, outer: number): MapNode {
  const entries: MapEntry[] = [];
  const start = peek(r)?.start ?? 0;
  let usual = indent;
  for (let token = peek(r); token !== undefined && token.column > outer; token = peek(r)) {
    if (token.column !== usual && token.column !== indent) {
      say(r, "plan/indent", token, { name: shortOf(r, token), found: token.column, expected: indent });
      usual = token.column; // said once for lines that stand alike
    }
    const entry = readEntry(r, token);
    if (entry !== null) entries.push(entry);
  }
  reportDuplicates(r, entries);
  return { kind: "map", flow: false, entries, span: [entries[0]?.span[0] ?? start, entries.at(-1)?.span[1] ?? start] };
}

function readEntry(r: Reading, token: Token): MapEntry | null {
  if (isProperty(token)) {
    refuseProperty(r, token);
    return null;
  }
  if (!isScalar(token)) {
    reportNoName(r, token);
    return null;
  }
  if (token.tabbed) say(r, "plan/tab", token);
  if (reportSwallowedBracket(r, token)) {
    skipLine(r);
    return null;
  }
  const key = readName(r, token);
  const colon = r.tokens[r.at];
  if (colon?.kind !== ":" || colon.line !== token.endLine) {
    reportNoColon(r, token);
    const value =
      colon !== undefined && colon.column > token.column && startsName(r) ? readBelow(r, token.column) : null;
    if (value !== null) return { key, value, span: [token.start, value.span[1]] };
    if (colon?.line === token.endLine) skipLine(r);
    return null;
  }
  r.at++;
  r.path.push(key.text);
  const value = readAfter(r, colon, token.column);
  const comment = value === null ? valueLikeComment(r, colon) : null;
  if (comment !== null) reportHiddenValue(r, colon, comment);
  r.path.pop();
  return { key, value, span: [token.start, value?.span[1] ?? colon.end] };
}

function reportNoName(r: Reading, token: Token): void {
  switch (token.kind) {
    case "?":
      say(r, "plan/question-mark", token);
      break;
    case "-":
      say(r, "plan/stray-dash", token);
      break;
    case ":":
      say(r, "plan/missing-name", token);
      break;
    case "{":
    case "[":
      say(r, "plan/bracket-as-name", token);
      break;
    case "alias":
      say(r, "plan/alias", token, { sign: sourceOf(r, token) });
      break;
    case "directive":
      say(r, "plan/directive", token);
      break;
    case "header":
      say(r, "plan/text-block", token, { sign: sourceOf(r, token) });
      break;
    default:
      say(r, "plan/stray-sign", token, { sign: sourceOf(r, token) });
  }
  skipLine(r);
}

/** Reads what belongs to a colon or a dash: the rest of its line, or the lines below that are indented further. */
function readAfter(r: Reading, sign: Token, indent: number): Node | null {
  let next = peek(r);
  while (next !== undefined && isProperty(next) && next.line === sign.line) {
    refuseProperty(r, next);
    next = peek(r);
  }
  if (next === undefined) return null;
  if (next.line === sign.line) return readOnLine(r, next, indent);
  if (next.column > indent) return readBelow(r, indent);
  // A list may stand right under its name.
  return sign.kind === ":" && next.kind === "-" && next.column === indent ? readList(r, indent, indent) : null;
}

function readOnLine(r: Reading, token: Token, indent: number): Node | null {
  const value = readInline(r, indent);
  const last = r.tokens[r.at - 1];
  const next = peek(r);
  if (value === null) {
    if (next?.first === false) skipLine(r);
    return null;
  }
  reportCutValue(r, token);
  reportLoneBracket(r, token);
  if (next === undefined || next.line !== last?.endLine || next.first) return value;
  if (next.kind === ":") say(r, value.kind === "scalar" ? "plan/second-colon" : "plan/bracket-as-name", next);
  else if (next.kind === "}" || next.kind === "]") say(r, "plan/stray-sign", next, { sign: next.kind });
  else say(r, "plan/stray-text", next);
  skipLine(r);
  return value;
}

/** Reads the value that starts on a line below and is indented further than `indent`. */
function readBelow(r: Reading, indent: number): Node | null {
  let token = peek(r);
  while (token !== undefined && isProperty(token)) {
    refuseProperty(r, token);
    token = peek(r);
  }
  if (token === undefined || token.column <= indent) return null;
  if (token.tabbed && token.kind !== "-" && !startsName(r)) say(r, "plan/tab", token);
  if (token.kind === "-") return readList(r, token.column, indent);
  const map = startsName(r) || lacksColon(r, token);
  return map ? deeper(r, token, () => readEntries(r, token.column, indent)) : readOnLine(r, token, indent);
}

/**
 * Reads list items, one a line.
 *
 * @param column of the first dash
 * @param outer column of what the list belongs to; a list may stand in the same column as its name
 */
function readList(r: Reading, column: number, outer: number): ListNode | null {
  const start = peek(r);
  if (start === undefined) return null;
  return deeper(r, start, () => {
    const items: Node[] = [];
    let end = start.end;
    for (let token = peek(r); token !== undefined; token = peek(r)) {
      const dash = token.kind === "-";
      if (token.column < outer || (token.column === outer && !(dash && column === outer))) break;
      if (dash) {
        if (token.column !== column) {
          say(r, "plan/indent", token, { name: "-", found: token.column, expected: column });
        }
        const item = readListItem(r, token);
        if (item === null) say(r, "plan/empty-item", token, { sign: "-" });
        else items.push(item);
        end = item?.span[1] ?? token.end;
      } else {
        say(r, "plan/missing-dash", token);
        skipLine(r);
      }
    }
    return { kind: "list", flow: false, items, span: [start.start, end] };
  });
}

function readListItem(r: Reading, dash: Token): Node | null {
  if (dash.tabbed) say(r, "plan/tab", dash);
  r.at++;
  const next = peek(r);
  if (next?.line === dash.line) {
    // `- name: value` starts a map in the column of its name, `- - item` a list in a list.
    if (next.kind === "-") return readList(r, next.column, dash.column);
    if (startsName(r)) return deeper(r, next, () => readEntries(r, next.column, dash.column));
  }
  return readAfter(r, dash, dash.column);
}

/** Reads one level further in, unless that is too deep. */
function deeper<T>(r: Reading, start: Token, read: () => T): T | null {
  if (r.depth === MOST_LEVELS) {
    say(r, "plan/too-deep", start, { limit: MOST_LEVELS });
    for (let token = peek(r); token !== undefined && token.column >= start.column; token = peek(r)) skipLine(r);
    return null;
  }
  r.depth++;
  const value = read();
  r.depth--;
  return value;
}

/** A line of plain text with more lines below it that are not part of it: names, and this one lacks its colon. */
function lacksColon(r: Reading, token: Token): boolean {
  const next = r.tokens[r.at + 1];
  return token.kind === "plain" && next?.first === true && next.column >= token.column;
}

/** The next token is a name: a colon follows on its line, or it is a colon that lacks its name. */
function startsName(r: Reading): boolean {
  const token = peek(r);
  if (token === undefined) return false;
  const colon = isScalar(token) ? r.tokens[r.at + 1] : token;
  return colon?.kind === ":" && colon.line === token.endLine;
}
