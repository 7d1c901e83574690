import { lineEnd, lineStart } from "../text/lines.ts";

/**
 * Where an offset stands in a plan that may be half written: which keys hold it, whether a name or a value is being written, and which
 * stretch of the line that is.
 */
export interface WritingPlace {
  /** Keys from the section inwards. For a name: those of the map it stands in; for a value: its own key included. */
  readonly path: readonly string[];
  readonly writes: "key" | "value";
  /** The name or value around the offset, blanks and quotes at its ends left out; within the line of the offset. */
  readonly from: number;
  readonly to: number;
  /** In brackets, where commas and brackets mean something. */
  readonly flow: boolean;
  /** It is an item of a list. */
  readonly item: boolean;
  /** Names that stand in the same map already. */
  readonly beside: readonly string[];
  /** What stands in the same map, before and after, as written. */
  readonly values: Readonly<Record<string, string>>;
}

interface Frame {
  readonly is: "block" | "map" | "list";
  /** Of a block: how far its names are indented. */
  readonly indent: number;
  /** The name whose value is being written. */
  key: string | null;
  readonly values: Record<string, string>;
}

/** More of one entry than this was not typed. */
const LONGEST_ENTRY = 40_000;

/**
 * Finds the place of an offset from the lines around it alone, so that brackets which are still open and lines which cannot be read yet do no harm.
 *
 * @param offset 0 to the length of the text
 * @returns null inside a comment, and in a line or an entry too long to have been typed
 */
export function writingPlaceAt(text: string, offset: number): WritingPlace | null {
  const at = Math.max(0, Math.min(offset, text.length));
  const first = firstLine(text, at);
  if (first === null || at - first.start > LONGEST_ENTRY || lineEnd(text, at) - lineStart(text, at) > LONGEST_ENTRY)
    return null;
  return scan(text, first.start, first.above, at);
}

/** The line from which the entry around an offset has to be read, and the names that stand above it. */
function firstLine(text: string, at: number): { start: number; above: readonly string[] } | null {
  let start = lineStart(text, at);
  let found = start;
  let least = indentAt(text, start, at);
  // An empty line belongs to whatever stands above it, as far as the offset is indented.
  for (let steps = 0; least > 0 && start > 0; steps++) {
    if (steps > 20_000) return null;
    start = lineStart(text, start - 1);
    const code = text.charCodeAt(start + blanks(text, start));
    if (Number.isNaN(code) || code === NEWLINE || code === RETURN || code === HASH) continue;
    const indent = blanks(text, start);
    if (indent >= least) continue;
    if (indent === 0) return { start: found, above: [nameOf(text, start) ?? ""] };
    least = indent;
    found = start;
  }
  return { start: found, above: [] };
}

function indentAt(text: string, start: number, at: number): number {
  const indent = blanks(text, start);
  const code = text.charCodeAt(start + indent);
  const empty = Number.isNaN(code) || code === NEWLINE || code === RETURN;
  return empty || at - start < indent ? Math.min(indent, at - start) : indent;
}

function blanks(text: string, start: number): number {
  let at = start;
  while (text.charCodeAt(at) === SPACE || text.charCodeAt(at) === TAB) at++;
  return at - start;
}

/** The name that a line starts with. */
function nameOf(text: string, start: number): string | null {
  const line = text.slice(start, Math.min(lineEnd(text, start), start + 200));
  const found = /^\s*(?:"([^"]*)"|'([^']*)'|([^\s#"'{[][^#]*?))\s*:(?=\s|$)/.exec(line);
  return found === null ? null : (found[1] ?? found[2] ?? found[3] ?? null);
}

const [TAB, NEWLINE, RETURN, SPACE, HASH] = [9, 10, 13, 32, 35] as const;

/** Names of the lines above and below that are indented like this one, as far as its section goes. */
function neighbours(text: string, line: number): string[] {
  const indent = blanks(text, line);
  const names: string[] = [];
  const take = (start: number): boolean => {
    const code = text.charCodeAt(start + blanks(text, start));
    if (Number.isNaN(code) || code === NEWLINE || code === RETURN || code === HASH) return true;
    const own = blanks(text, start);
    if (own === indent) names.push(nameOf(text, start) ?? "");
    return own >= indent;
  };
  for (let at = line; at > 0;) {
    at = lineStart(text, at - 1);
    if (!take(at)) break;
  }
  for (let at = text.indexOf("\n", line); at >= 0 && take(at + 1); at = text.indexOf("\n", at + 1));
  return names.filter((n) => n !== "");
}

/** Reads forward to the offset and on to the end of the entry, keeping what is open. */
function scan(text: string, start: number, above: readonly string[], at: number): WritingPlace | null {
  const base = blanks(text, start);
  const frames: Frame[] = [];
  let result: { place: Omit<WritingPlace, "beside" | "values">; frame: Frame; own: string } | null | undefined;
  const end = Math.min(text.length, at + LONGEST_ENTRY);

  let token = start; // where the name or value that is being read starts
  let keyed = false; // its name and colon have been read
  let shut = false; // behind a bracket that was closed nothing more can be written
  let i = start;
  const flow = (): boolean => frames.at(-1)?.is !== "block" && frames.length > 0;
  const path = (): string[] => [...above, ...frames.flatMap(({ key }) => (key === null ? [] : [key]))];

  /** The stretch from `token` to `to` is over: if it holds the offset, that is the place. */
  const close = (to: number, writes: "key" | "value"): string => {
    let [from, until] = [token, to];
    while (from < until && isBlank(text.charCodeAt(from))) from++;
    while (until > from && isBlank(text.charCodeAt(until - 1))) until--;
    const frame = frames.at(-1);
    const written = unquoted(text.slice(from, until));
    const here = result === undefined && token <= at && at <= to;
    if (here && shut) result = null;
    else if (here && frame !== undefined) {
      // In blanks before or behind the text nothing of it is replaced.
      if (at < from || at > until) [from, until] = text.slice(from, until) === "" || at < from ? [at, at] : [from, at];
      const [left, right] = [Math.max(from, lineStart(text, at)), Math.min(until, lineEnd(text, at))];
      const sign = text.charAt(left);
      const quoted = (sign === '"' || sign === "'") && left < at;
      const closed = quoted && right - 1 > left && text.charAt(right - 1) === sign && at < right;
      const own = writes === "key" ? path().slice(0, frame.key === null ? undefined : -1) : path();
      result = {
        place: {
          path: own,
          writes,
          from: Math.min(at, left + (quoted ? 1 : 0)),
          to: Math.max(at, right - (closed ? 1 : 0)),
          flow: flow(),
          item: frame.is === "list",
        },
        frame,
        own: writes === "key" ? written : "",
      };
    } else if (writes === "value" && frame?.key != null && written !== "") {
      frame.values[frame.key] = written;
    }
    return written;
  };

  for (let line = start; line <= end;) {
    const lineTo = Math.min(lineEnd(text, line), end);
    const indent = blanks(text, line);
    if (!flow()) {
      const empty = line + indent >= lineTo;
      const comment = text.charCodeAt(line + indent) === HASH;
      if (line > at && !empty && !comment && indent <= base && line > start) break;
      const depth = empty && at >= line && at <= lineTo ? Math.min(indent, at - line) : indent;
      if (!comment && (!empty || (at >= line && at <= lineTo))) {
        while (frames.length > 0 && (frames.at(-1)?.indent ?? 0) > depth) frames.pop();
        const last = frames.at(-1);
        if (last?.indent === depth) last.key = null;
        else frames.push({ is: "block", indent: depth, key: null, values: {} });
        keyed = false;
        shut = false;
        token = line + depth;
      } else {
        token = lineTo;
      }
      i = line + depth;
      if (comment && at >= i && at <= lineTo) return null;
    } else {
      // A line at or left of the entry that starts with a name ends brackets that were never closed.
      if (line > start && indent <= base && nameOf(text, line) !== null) break;
      i = line;
    }
    if (i > at && result === undefined && at >= line) {
      // Before the first sign of the line.
      result = null;
    }
    for (; i < lineTo; i++) {
      const sign = text.charAt(i);
      const before = text.charCodeAt(i - 1);
      if (sign === "#" && (i === line || isBlank(before))) {
        if (at > i && at <= lineTo) return null;
        if (!flow()) close(i, keyed ? "value" : "key");
        token = lineTo + 1;
        break;
      }
      const starts = text.slice(Math.max(token, line), i).trim() === "";
      if ((sign === '"' || sign === "'") && starts) {
        const last = closing(text, i, sign, lineTo);
        i = last < 0 ? lineTo - 1 : last;
        continue;
      }
      if ((sign === "{" || sign === "[") && starts) {
        token = i + 1;
        frames.push({ is: sign === "{" ? "map" : "list", indent: -1, key: null, values: {} });
        shut = false;
        keyed = sign === "[";
        continue;
      }
      if (sign === ":" && !keyed && isBreak(text.charCodeAt(i + 1), flow())) {
        const key = close(i, "key");
        const frame = frames.at(-1);
        if (frame !== undefined) {
          frame.key = key;
          frame.values[key] ??= "";
        }
        keyed = true;
        token = i + 1;
        continue;
      }
      if (!flow()) {
        if (sign === "-" && starts && !keyed && isBlank(text.charCodeAt(i + 1))) {
          token = i + 1;
          keyed = !/^\s*[^\s"'{[#][^#{[]*:(?:\s|$)/.test(text.slice(i + 1, lineTo));
        }
        continue;
      }
      if (sign === "," && !(isDigit(before) && isDigit(text.charCodeAt(i + 1)))) {
        close(i, keyed ? "value" : "key");
        const frame = frames.at(-1);
        if (frame?.is === "map") {
          frame.key = null;
          keyed = false;
        }
        shut = false;
        token = i + 1;
      } else if (sign === "}" || sign === "]") {
        close(i, keyed ? "value" : "key");
        frames.pop();
        keyed = true;
        shut = true;
        token = i + 1;
      }
    }
    // A value of a block ends with its line; in brackets it may go on, but what is replaced stays in the line.
    if (token <= lineTo && (!flow() || (at <= lineTo && result === undefined))) {
      close(lineTo, keyed ? "value" : "key");
    }
    const next = text.indexOf("\n", line);
    if (next < 0 || next >= end) break;
    line = next + 1;
    if (flow() && text.slice(token, line).trim() === "") token = line;
    if (result !== undefined && !flow() && frames.length === 0) break;
    if (result === null) break;
  }
  if (result == null) return null;
  const { place, frame, own } = result;
  const beside = Object.keys(frame.values).filter((k) => k !== "" && k !== own);
  if (place.path.length > 1 || place.writes === "value" || place.flow)
    return { ...place, beside, values: frame.values };
  return { ...place, beside: [...beside, ...neighbours(text, lineStart(text, at))], values: frame.values };
}

const isBlank = (code: number): boolean => code === SPACE || code === TAB || code === RETURN || code === NEWLINE;
const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const isBreak = (code: number, inFlow: boolean): boolean =>
  Number.isNaN(code) || isBlank(code) || (inFlow && (code === 44 || code === 93 || code === 125));

function closing(text: string, from: number, quote: string, end: number): number {
  for (let i = from + 1; i < end; i++) {
    if (quote === '"' && text.charAt(i) === "\\") i++;
    else if (text.charAt(i) === quote) return i;
  }
  return -1;
}

function unquoted(text: string): string {
  const sign = text.charAt(0);
  if ((sign !== '"' && sign !== "'") || text.length < 2 || !text.endsWith(sign)) return text;
  return text.slice(1, -1);
}
