/** How a text stands in its file: what is kept of it when the file is written again. */
export interface FileForm {
  /** It starts with the mark of UTF-8, as some editors write. */
  readonly mark: boolean;
  readonly newline: "\n" | "\r\n";
}

/** A file's bytes as text. */
export interface ReadBytes {
  /** Line ends are `\n`; the mark is gone. */
  readonly text: string;
  readonly form: FileForm;
  /** First line, from 1, that holds bytes which are no UTF-8; null: none. Writing the text back would lose those bytes. */
  readonly damagedLine: number | null;
}

export const plainForm: FileForm = { mark: false, newline: "\n" };

/**
 * Reads a file as text.
 *
 * UTF-8; UTF-16 where the file says so by its mark. What cannot be read becomes `�`, the rest is read. Of mixed line ends the more
 * frequent kind is kept.
 */
export function readBytes(bytes: Uint8Array): ReadBytes {
  const wide =
    bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : null;
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const decoded = new TextDecoder(wide ?? "utf-8").decode(bytes); // takes the mark away
  const returns = decoded.split("\r\n").length - 1;
  const lines = decoded.split("\n").length - 1;
  const text = decoded.replace(/\r\n?/g, "\n");
  const form: FileForm = { mark, newline: returns * 2 > lines ? "\r\n" : "\n" };
  return { text, form, damagedLine: isSound(bytes, wide ?? "utf-8") ? null : firstBadLine(text) };
}

function isSound(bytes: Uint8Array, encoding: string): boolean {
  try {
    new TextDecoder(encoding, { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}

function firstBadLine(text: string): number {
  return text.slice(0, Math.max(0, text.indexOf("\uFFFD"))).split("\n").length;
}

/** The bytes of a text in its form: UTF-8, always. */
export function writeBytes(text: string, form: FileForm): Uint8Array<ArrayBuffer> {
  const lines = form.newline === "\n" ? text : text.replaceAll("\n", form.newline);
  return new TextEncoder().encode((form.mark ? "\uFEFF" : "") + lines);
}
