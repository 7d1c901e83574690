import { judgeCommas } from "./decimal-comma.ts";
import type { ScalarNode } from "./node.ts";
import { say, sourceOf, type Reading } from "./reading.ts";
import { blockText, doubleText, plainText, singleText } from "./scalars.ts";
import type { Token } from "./tokens.ts";
import { codeOf } from "./visible.ts";

/** What escapes may not bring in: a text is printed, drawn and compared. */
const UNFIT = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]|\p{Cs}/u;
const DIGIT = /^\d$/;

const scalar = (token: Token, text: string, quoted: boolean): ScalarNode => ({
  kind: "scalar",
  text,
  quoted,
  span: [token.start, token.end],
});

/** A text without quotes, outside brackets. */
export function readPlain(r: Reading, token: Token): ScalarNode {
  const source = sourceOf(r, token);
  r.at++;
  const sign = source.charAt(0);
  if (",%@`|>".includes(sign)) say(r, "plan/bad-start", { start: token.start, end: token.start + 1 }, { sign });
  return scalar(token, plainText(source), false);
}

/** Warns where a text ends in a bracket that it did not open: one was lost at its start, or is left over. */
export function reportLoneBracket(r: Reading, token: Token): void {
  const source = sourceOf(r, token);
  const sign = source.at(-1) ?? "";
  const open = sign === "}" ? "{" : sign === "]" ? "[" : null;
  if (token.kind !== "plain" || open === null || source.includes(open)) return;
  say(r, "plan/bracket-in-text", { start: token.end - 1, end: token.end }, { sign });
}

/** A text without quotes inside brackets, where a comma also separates and `3,4 m` falls into two tokens. */
export function readPlainInBrackets(r: Reading, token: Token): ScalarNode {
  const from = r.at;
  const parts = from < r.commasJudged ? [token] : touchingCommas(r, token);
  if (parts.length < 2) return readPlain(r, token);
  const last = parts.at(-1) ?? token;
  const span = { start: token.start, end: last.end };
  const verdict = judgeCommas(parts.map((part) => sourceOf(r, part)));
  const beforeName = r.tokens[from + parts.length * 2 - 1]?.kind === ":"; // { 3: 4,5: b }
  if (verdict === "joined" && !beforeName) {
    r.at = from + parts.length * 2 - 1;
    return { kind: "scalar", text: r.text.slice(span.start, span.end), quoted: false, span: [span.start, span.end] };
  }
  if (verdict !== "separate") {
    r.commasJudged = from + parts.length * 2 - 1;
    say(r, "plan/decimal-comma", span, { text: r.text.slice(span.start, span.end) });
    // In a map the further parts are no names either; said once is enough.
    if (r.closers.at(-1) === "}") {
      readPlain(r, token);
      r.at = r.commasJudged - (beforeName ? 2 : 0);
      const end = beforeName ? (parts.at(-2) ?? token).end : span.end;
      return { kind: "scalar", text: r.text.slice(span.start, end), quoted: false, span: [span.start, end] };
    }
  }
  return readPlain(r, token);
}

/** The plain texts from this one on that hang together by commas with a digit on both sides and no space. */
function touchingCommas(r: Reading, token: Token): Token[] {
  const parts = [token];
  for (let i = r.at; ; i += 2) {
    const [left, comma, right] = [r.tokens[i], r.tokens[i + 1], r.tokens[i + 2]];
    if (left === undefined || comma?.kind !== "," || right?.kind !== "plain") return parts;
    const touching = left.end === comma.start && comma.end === right.start && right.line === right.endLine;
    const digits = DIGIT.test(r.text.charAt(left.end - 1)) && DIGIT.test(r.text.charAt(right.start));
    if (!touching || !digits || left.line !== right.line) return parts;
    parts.push(right);
  }
}

/** A text in quotes. */
export function readQuoted(r: Reading, token: Token): ScalarNode {
  r.at++;
  const source = sourceOf(r, token);
  const quote = source.charAt(0);
  if (!isClosed(source, quote)) {
    // The rest of the line is the likeliest text; what the open quote swallowed beyond it is not read.
    say(r, "plan/unclosed-quote", { start: token.start, end: token.start + 1 }, { sign: quote });
    return scalar(token, source.slice(1).split(/\r?\n/, 1)[0] ?? "", true);
  }
  if (quote === "'") return scalar(token, singleText(source), true);
  const { text, wrong } = doubleText(source);
  for (const { at, sign } of wrong) {
    say(r, "plan/bad-escape", { start: token.start + at, end: token.start + at + sign.length }, { sign });
  }
  const unfit = UNFIT.exec(text)?.[0];
  if (unfit !== undefined) say(r, "plan/control-character", token, { code: codeOf(unfit) });
  return scalar(token, text, true);
}

function isClosed(source: string, quote: string): boolean {
  if (source.length < 2 || !source.endsWith(quote)) return false;
  if (quote === "'") return true;
  let slashes = 0;
  while (source.charAt(source.length - 2 - slashes) === "\\") slashes++;
  return slashes % 2 === 0;
}

/** A text block: its header, then its lines. */
export function readTextBlock(r: Reading, header: Token, indent: number): ScalarNode {
  const sign = sourceOf(r, header);
  const body = r.tokens[r.at + 1];
  r.at++;
  if (!/^[|>](?:[+-]?[1-9]?|[1-9][+-])$/.test(sign)) say(r, "plan/text-block", header, { sign });
  if (body?.kind !== "text") return scalar(header, "", true);
  r.at++;
  const { text, wrong } = blockText(sign, sourceOf(r, body), indent);
  for (const { at } of wrong.slice(0, 1)) {
    say(r, "plan/text-block-indent", { start: body.start + at, end: Math.min(body.start + at + 1, body.end) });
  }
  const end = body.start + sourceOf(r, body).trimEnd().length;
  return { kind: "scalar", text, quoted: true, span: [header.start, Math.max(header.end, end)] };
}
