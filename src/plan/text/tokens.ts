import { Lexer } from "yaml";
import { skipSpace } from "./scalars.ts";

export type TokenKind =
  | "plain"
  | "single"
  | "double"
  | "header"
  | "text"
  | "{"
  | "}"
  | "["
  | "]"
  | ","
  | ":"
  | "-"
  | "?"
  | "anchor"
  | "alias"
  | "tag"
  | "directive"
  | "cut"
  | "odd";

/** One word or sign of a block. Spaces and line ends are left out: line and column say what they said. */
export interface Token {
  readonly kind: TokenKind;
  readonly start: number;
  readonly end: number;
  readonly line: number;
  /** Of its last character; differs from `line` in a text that runs over lines. */
  readonly endLine: number;
  readonly column: number;
  /** Nothing but spaces before it on its line. */
  readonly first: boolean;
  /** A tab in the space before it. */
  readonly tabbed: boolean;
  /** Where the comment after it on its last line starts; -1: none. */
  comment: number;
  /** The comment touches what stands before it. */
  touching: boolean;
}

const SIGNS = new Set(["{", "}", "[", "]", ",", ":", "-", "?"]);
const BY_FIRST: Readonly<Record<string, TokenKind>> = {
  "'": "single",
  '"': "double",
  "|": "header",
  ">": "header",
  "&": "anchor",
  "*": "alias",
  "!": "tag",
  "%": "directive",
};

/**
 * Cuts a block into tokens, with the lexer of the `yaml` library.
 *
 * The lexer knows where a text ends, over lines and in brackets; what the tokens mean is decided by the reader. It ends
 * an open bracket or quote at the first line that is not indented enough, and says so by a token `cut`.
 *
 * @param block whole lines, without control characters (the lexer has marks of its own among them)
 * @returns tokens in the order of the text
 */
export function readTokens(block: string): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  let line = 0;
  let lineStart = 0;
  let first = true;
  let tabbed = false;
  let scalar: "plain" | "text" | null = null;
  let last: Token | null = null;
  for (const source of new Lexer().lex(block)) {
    const sign = source.charAt(0);
    if (scalar === null) {
      if (sign === "\u001f") {
        scalar = last?.kind === "header" ? "text" : "plain";
        continue;
      }
      if (sign === "\u0002" || source === "") continue;
      if (sign === " " || sign === "\t") {
        tabbed ||= source.includes("\t");
        at += source.length;
        continue;
      }
      if (sign === "#") {
        // Only the first of a line can follow a token of that line.
        if (last !== null && last.endLine === line && last.comment < 0) {
          last.comment = at;
          last.touching = last.end === at;
        }
        at += source.length;
        continue;
      }
      if (sign === "\n" || sign === "\r") {
        at += source.length;
        line++;
        lineStart = at;
        first = true;
        tabbed = false;
        continue;
      }
    }
    // An empty text is how the lexer says that nothing stands between two commas.
    if (scalar === "plain" && source === "") {
      scalar = null;
      continue;
    }
    const cut: boolean = scalar === null && sign === "\u0018";
    const kind: TokenKind = cut
      ? "cut"
      : (scalar ?? (SIGNS.has(source) ? (source as TokenKind) : (BY_FIRST[sign] ?? "odd"))); // as: a member of SIGNS
    const end: number = cut ? at : at + source.length;
    let endLine = line;
    let endLineStart = lineStart;
    for (let next = source.indexOf("\n"); next >= 0; next = source.indexOf("\n", next + 1)) {
      endLine++;
      endLineStart = at + next + 1;
    }
    const ended = endLineStart === end; // a text block ends with its line
    last = {
      kind,
      start: at,
      end,
      line,
      endLine: ended && endLine > line ? endLine - 1 : endLine,
      column: at - lineStart,
      first,
      tabbed,
      comment: -1,
      touching: false,
    };
    const swallowed = tokens.at(-1);
    if (kind === ":" && swallowed?.kind === "plain" && swallowed.line !== swallowed.endLine) {
      tokens.pop();
      for (const token of onePerLine(block, swallowed)) tokens.push(token);
    }
    tokens.push(last);
    scalar = null;
    at = end;
    line = endLine;
    lineStart = endLineStart;
    // Neither the mark of a cut nor the end of a text block takes up its line.
    if (!cut) {
      first = ended && kind === "text";
      tabbed = false;
    }
  }
  return tokens;
}

/**
 * A plain text over lines whose last line is a name with a colon swallowed that line by mistake: a comma or a colon is
 * missing, or an indent is wrong. One token a line, so that each can be read, or reported, for itself.
 */
function onePerLine(block: string, token: Token): Token[] {
  const parts: Token[] = [];
  let { start, line } = token;
  for (const text of block.slice(token.start, token.end).split("\n")) {
    const lead = line === token.line ? 0 : skipSpace(text, 0);
    const end = start + text.trimEnd().length;
    if (end > start + lead) {
      const moved =
        line === token.line ? {} : { column: lead, first: true, tabbed: text.slice(0, lead).includes("\t") };
      parts.push({ ...token, ...moved, start: start + lead, end, line, endLine: line });
    }
    start += text.length + 1;
    line++;
  }
  return parts;
}
