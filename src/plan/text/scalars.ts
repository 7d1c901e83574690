/** What a text in quotes or a text block says, and where it goes wrong (offsets into the source). */
export interface Unquoted {
  readonly text: string;
  readonly wrong: readonly { readonly at: number; readonly sign: string }[];
}

/**
 * A plain text as it reads: lines joined by a space, an empty line kept as a line end.
 *
 * @example
 * plainText("a long\n  note") //=> "a long note"
 */
export function plainText(source: string): string {
  return source.includes("\n") ? foldLines(source) : source;
}

/** A text in single quotes, quotes included: lines folded, a doubled quote is one. */
export function singleText(source: string): string {
  return plainText(source.slice(1, -1)).replaceAll("''", "'");
}

/**
 * A text in double quotes, quotes included: lines folded, escapes undone.
 *
 * @returns an escape that stands for nothing stays as it is written and is listed as wrong
 * @example
 * doubleText('"35 mm\\u00b2"').text //=> "35 mm²"
 */
export function doubleText(source: string): Unquoted {
  const end = source.length - 1;
  if (!source.includes("\\")) return { text: plainText(source.slice(1, end)), wrong: [] };
  const wrong: { at: number; sign: string }[] = [];
  const lines: string[] = [];
  let line = "";
  let kept = 0; // what no folding may trim: an escaped space at the end of a line stays
  let at = 1;
  while (at < end) {
    const sign = source.charAt(at);
    if (sign === "\\") {
      const next = source.charAt(at + 1);
      const plain = ESCAPES[next];
      if (next === "\n" || source.startsWith("\r\n", at + 1)) {
        at = skipSpace(source, source.indexOf("\n", at) + 1);
      } else if (plain !== undefined) {
        line += plain;
        at += 2;
      } else {
        const length = CODE_LENGTHS[next] ?? 0;
        const digits = source.slice(at + 2, Math.min(at + 2 + length, end));
        const point =
          length > 0 && digits.length === length && /^[0-9a-f]+$/i.test(digits) ? parseInt(digits, 16) : NaN;
        if (point <= 0x10ffff) {
          line += String.fromCodePoint(point);
          at += 2 + length;
        } else {
          wrong.push({ at, sign: source.slice(at, at + 2) });
          line += sign;
          at++;
        }
      }
      kept = line.length;
    } else if (sign === "\n" || source.startsWith("\r\n", at)) {
      let breaks = 0;
      while (at < end && (source.charAt(at) === "\n" || source.startsWith("\r\n", at))) {
        breaks++;
        at = skipSpace(source, source.indexOf("\n", at) + 1);
      }
      lines.push(line.slice(0, Math.max(kept, trimmedLength(line))), breaks > 1 ? "\n".repeat(breaks - 1) : " ");
      line = "";
      kept = 0;
    } else {
      line += sign;
      at++;
    }
  }
  return { text: lines.join("") + line, wrong };
}

const CODE_LENGTHS: Readonly<Record<string, number>> = { x: 2, u: 4, U: 8 };
const ESCAPES: Readonly<Record<string, string>> = {
  "0": "\0",
  a: "\x07",
  b: "\b",
  e: "\x1b",
  f: "\f",
  n: "\n",
  r: "\r",
  t: "\t",
  v: "\v",
  N: "\u0085",
  _: "\u00a0",
  L: "\u2028",
  P: "\u2029",
  " ": " ",
  '"': '"',
  "/": "/",
  "\\": "\\",
  "\t": "\t",
};

/** First offset at or after `at` that is neither space nor tab. */
export function skipSpace(text: string, at: number): number {
  while (text.charAt(at) === " " || text.charAt(at) === "\t") at++;
  return at;
}

function trimmedLength(text: string): number {
  let end = text.length;
  while (end > 0 && (text.charAt(end - 1) === " " || text.charAt(end - 1) === "\t")) end--;
  return end;
}

function foldLines(source: string): string {
  const lines = source.split(/\r?\n/);
  const parts: string[] = [];
  let breaks = 0;
  for (const [i, line] of lines.entries()) {
    const start = i === 0 ? 0 : skipSpace(line, 0);
    const part = line.slice(start, i === lines.length - 1 ? line.length : Math.max(start, trimmedLength(line)));
    if (i > 0 && i < lines.length - 1 && part === "") {
      breaks++;
    } else {
      if (i > 0) parts.push(breaks > 0 ? "\n".repeat(breaks) : " ");
      parts.push(part);
      breaks = 0;
    }
  }
  return parts.join("");
}

/**
 * A text block: behind `|` lines stay lines, behind `>` they are joined.
 *
 * @param header `|` or `>` with what may follow: `-` no line end at the end, `+` all of them, a digit for the indent
 * @param body whole lines
 * @param indent columns that the name (or dash) before the header is indented by
 * @returns text with line ends `\n`; `wrong` when a line is indented less than the first (offset into the body)
 */
export function blockText(header: string, body: string, indent: number): Unquoted {
  const digit = /[1-9]/.exec(header)?.[0];
  const chomp = /[+-]/.exec(header)?.[0] ?? "";
  const lines = body.split("\n").map((line) => {
    const content = line.endsWith("\r") ? line.slice(0, -1) : line;
    let spaces = 0;
    while (content.charCodeAt(spaces) === 32) spaces++;
    return { spaces, content: content.slice(spaces), length: line.length + 1 };
  });
  const firstFull = lines.findIndex((line) => line.content !== "");
  if (firstFull < 0) {
    return { text: chomp === "+" && body !== "" ? "\n".repeat(Math.max(1, lines.length - 1)) : "", wrong: [] };
  }
  const width = digit === undefined ? (lines[firstFull]?.spaces ?? 0) : indent + Number(digit);
  const wrong: { at: number; sign: string }[] = [];
  let offset = 0;
  const texts: string[] = [];
  let full = 0; // lines up to and with the last that has something to say
  for (const [i, line] of lines.entries()) {
    const tooShallow =
      line.content !== "" ? line.spaces < width : digit === undefined && i < firstFull && line.spaces > width;
    if (tooShallow) wrong.push({ at: offset, sign: "" });
    texts.push(" ".repeat(Math.max(0, line.spaces - width)) + line.content);
    if (line.content !== "" || line.spaces > width) full = i + 1;
    offset += line.length;
  }
  const kept = texts.slice(0, full);
  const text = header.startsWith("|") ? kept.join("\n") : joinFolded(kept);
  if (chomp === "-") return { text, wrong };
  if (chomp === "") return { text: `${text}\n`, wrong };
  const tail = texts
    .slice(full)
    .map((line) => `\n${line}`)
    .join("");
  return { text: tail.endsWith("\n") ? text + tail : `${text}${tail}\n`, wrong };
}

/** Joins the lines of a `>` block: a space for one line end, and a line that is indented further stays a line. */
function joinFolded(lines: readonly string[]): string {
  let text = "";
  let breaks = 0;
  let before: "none" | "folded" | "kept" = "none";
  for (const line of lines) {
    if (line === "") {
      breaks++;
      continue;
    }
    const kept = line.startsWith(" ") || line.startsWith("\t");
    if (before === "none") text += "\n".repeat(breaks);
    else if (kept || before === "kept") text += "\n".repeat(breaks + 1);
    else text += breaks > 0 ? "\n".repeat(breaks) : " ";
    text += line;
    breaks = 0;
    before = kept ? "kept" : "folded";
  }
  return text + "\n".repeat(breaks);
}
