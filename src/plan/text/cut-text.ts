import type { Diagnostic } from "../../diagnostic.ts";
import { tell } from "./words.ts";

/** Whole lines of the text that are read in one piece. */
export interface Piece {
  readonly start: number;
  readonly end: number;
}

/** A section, cut at the names one level below the left edge. */
export interface CutSection {
  /** The section's own line; all of it, when it is not cut. */
  readonly head: Piece;
  /** null: the section is read in one piece. */
  readonly entries: readonly Piece[] | null;
}

/** The longest line in use is a list of a few hundred names. A line beyond this was not typed, and no mark under it would help. */
export const LONGEST_LINE = 20_000;

interface OpenPiece {
  start: number;
  end: number;
  indent: number;
  /** A comment to the left of the piece came after its last line: what follows belongs to it only if more lines do. */
  left: boolean;
  /** Its first line ends at the colon of its name: what it holds stands on lines of their own. */
  opens: boolean;
  unreadable: boolean;
}

/**
 * Cuts a plan into sections and blocks, by the indent of its lines alone.
 *
 * What belongs to a name is indented further than the name, in brackets, quotes and text blocks too; so every line at or
 * left of it ends it, and a bracket or quote that was never closed swallows its own block and no more. Exceptions: a
 * comment, an empty line, a closing bracket in the column of the name, and a list in the column of its name.
 *
 * A section is cut into blocks where its own line has no value and the first line below it is a name. The indent of that
 * line is the section's own; a line less indented than that is reported and starts a block too.
 *
 * @param from offset to start at, behind a byte order mark
 * @returns pieces of whole lines (the head of a cut section ends at its colon), comments between them left out
 */
export function cutText(text: string, from: number): { sections: CutSection[]; diagnostics: Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  const sections: { head: OpenPiece; entries: OpenPiece[] | null }[] = [];
  let piece: OpenPiece | null = null;
  let edge = -1; // indent of the sections: that of the first line
  let own = -1; // indent of the entries of a section that is cut
  let ownHasTab = false;
  let colon = -1; // of a section's line without a value, until the line below it is seen

  for (let start = from, next = from; start < text.length; start = next) {
    const newline = text.indexOf("\n", start);
    const end = newline < 0 ? text.length : newline;
    next = newline < 0 ? end : end + 1;
    let at = start;
    let sign = text.charCodeAt(at);
    while (sign === SPACE || sign === TAB) sign = text.charCodeAt(++at);
    const indent = at - start;
    const tabbed = indent > 0 && text.slice(start, at).includes("\t");
    if (at >= end || (sign === CR && at + 1 === end)) {
      if (piece !== null && !piece.left) piece.end = next;
      continue;
    }
    if (sign === HASH) {
      if (piece !== null) {
        piece.left = indent <= piece.indent;
        if (!piece.left) piece.end = next;
      }
      continue;
    }
    const long = end - start > LONGEST_LINE;
    if (long) {
      diagnostics.push(
        tell("plan/line-too-long", [[start, start + 1]], "", { length: end - start, limit: LONGEST_LINE }),
      );
    }
    const marker = indent === 0 ? documentMarker(text, start, end) : null;
    if (marker !== null) {
      const harmless = marker.sign === "---" ? sections.length === 0 && marker.alone : false;
      if (!harmless) diagnostics.push(tell("plan/second-document", [[start, start + 3]], "", { sign: marker.sign }));
      piece = null;
      own = -1;
      colon = -1;
      continue;
    }
    if (edge < 0) {
      edge = indent;
      if (edge > 0) diagnostics.push(tell("plan/first-indent", [[start, at]], "", { found: edge }));
    }
    const closes = sign === CLOSE_BRACE || sign === CLOSE_BRACKET;
    const dash = sign === DASH && isSpace(text.charCodeAt(at + 1));
    const section = sections.at(-1);

    if (colon >= 0 && section !== undefined && indent > edge && colonOf(text, at, end) >= 0 && !dash) {
      own = indent;
      ownHasTab = tabbed;
      section.head.end = colon + 1;
      section.head.unreadable = false;
      section.entries = [];
    }
    colon = -1;
    // How far a tab goes among spaces nobody knows; under a name that waits for its lines it is one of them.
    const among = tabbed && !ownHasTab && own >= 0 && piece?.opens === true;
    const belongs = piece !== null && (indent > (own < 0 ? edge : own) || closes || dash || among);
    if (belongs && piece !== null) {
      piece.end = next;
      piece.left = false;
      piece.unreadable ||= long;
      continue;
    }
    piece = { start, end: next, indent, left: false, opens: endsAtColon(text, at, end) >= 0, unreadable: long };
    if (own >= 0 && indent > edge && section?.entries) {
      if (indent < own && !tabbed) {
        const name = text.slice(at, Math.max(colonOf(text, at, end), at + 1));
        diagnostics.push(tell("plan/indent", [[at, at + name.length]], "", { name, found: indent, expected: own }));
      }
      section.entries.push(piece);
    } else {
      own = -1;
      colon = piece.opens ? colonOf(text, at, end) : -1;
      sections.push({ head: piece, entries: null });
    }
  }
  const whole = sections
    .filter(({ head }) => !head.unreadable)
    .map(({ head, entries }) => ({ head, entries: entries?.filter((entry) => !entry.unreadable) ?? null }));
  return { sections: whole, diagnostics };
}

const [TAB, CR, SPACE, HASH, DASH, COLON] = [9, 13, 32, 35, 45, 58] as const;
const [CLOSE_BRACKET, CLOSE_BRACE] = [93, 125] as const;
const [DOUBLE, SINGLE, BACKSLASH] = [34, 39, 92] as const;

/** Space, tab, line end or the end of the text. */
function isSpace(code: number): boolean {
  return code === SPACE || code === TAB || code === CR || code === 10 || Number.isNaN(code);
}

function documentMarker(text: string, start: number, end: number): { sign: "---" | "..."; alone: boolean } | null {
  const sign = text.startsWith("---", start) ? "---" : text.startsWith("...", start) ? "..." : null;
  if (sign === null || !isSpace(text.charCodeAt(start + 3))) return null;
  return { sign, alone: /^\s*(?:\s#.*)?$/.test(text.slice(start + 3, end)) };
}

/**
 * Where the colon of a name stands, if the line starts with a name: a colon that space or a line end follows, before any
 * comment; after the closing quote, if the name is quoted. -1: the line does not start with a name.
 */
function colonOf(text: string, at: number, end: number): number {
  const quote = text.charCodeAt(at);
  if (quote === DOUBLE || quote === SINGLE) {
    let i = at + 1;
    while (i < end && text.charCodeAt(i) !== quote) i += quote === DOUBLE && text.charCodeAt(i) === BACKSLASH ? 2 : 1;
    i++;
    while (i < end && isSpace(text.charCodeAt(i))) i++;
    return i < end && text.charCodeAt(i) === COLON ? i : -1;
  }
  if (text[at] === "{" || text[at] === "[") return -1;
  for (let i = at; i < end; i++) {
    const code = text.charCodeAt(i);
    if (code === COLON && isSpace(text.charCodeAt(i + 1))) return i;
    if (code === HASH && isSpace(text.charCodeAt(i - 1))) return -1;
  }
  return -1;
}

/** Where the colon stands of a name with nothing but a comment after it; -1: there is a value, or no name. */
function endsAtColon(text: string, at: number, end: number): number {
  const colon = colonOf(text, at, end);
  if (colon < 0) return -1;
  let i = colon + 1;
  while (i < end && isSpace(text.charCodeAt(i))) i++;
  return i >= end || text.charCodeAt(i) === HASH ? colon : -1;
}
