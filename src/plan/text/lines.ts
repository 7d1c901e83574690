/** Where the line of an offset starts. */
export function lineStart(text: string, at: number): number {
  return at === 0 ? 0 : text.lastIndexOf("\n", at - 1) + 1;
}

/** Where the line of an offset ends: before its line end, whichever kind that is. */
export function lineEnd(text: string, at: number): number {
  const newline = text.indexOf("\n", at);
  if (newline < 0) return text.length;
  return newline > at && text.charAt(newline - 1) === "\r" ? newline - 1 : newline;
}

/** Where the next line starts; the end of the text after the last. */
export function nextLine(text: string, at: number): number {
  const newline = text.indexOf("\n", at);
  return newline < 0 ? text.length : newline + 1;
}

/** The kind of line end that the text uses. */
export function lineBreak(text: string): "\n" | "\r\n" {
  const newline = text.indexOf("\n");
  return newline > 0 && text.charAt(newline - 1) === "\r" ? "\r\n" : "\n";
}

/** Nothing but space before the offset on its line. */
export function isFirstOnLine(text: string, at: number): boolean {
  return text.slice(lineStart(text, at), at).trim() === "";
}

/** Nothing but space and a comment after the offset on its line. */
export function isLastOnLine(text: string, at: number): boolean {
  const rest = text.slice(at, lineEnd(text, at));
  return rest.trim() === "" || /^\s+#/.test(rest);
}

/** The space that a line starts with. */
export function indentOf(text: string, at: number): string {
  const start = lineStart(text, at);
  return text.slice(start, at).replace(/\S[^]*/, "");
}
