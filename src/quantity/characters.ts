/** What single characters mean inside a quantity. All take a UTF-16 code, as `charCodeAt` gives it (NaN past the end). */

export const isDigit = (code: number): boolean => code >= 48 && code <= 57;

/** Any blank that a keyboard, a word processor or a folded line of YAML leaves between words. */
export const isBlank = (code: number): boolean =>
  code === 0x20 ||
  code === 0x09 ||
  code === 0x0a ||
  code === 0x0d ||
  isGroupingBlank(code) ||
  (code >= 0x2002 && code <= 0x200a);

/** The blanks that may stand between groups of three digits: space, no-break, figure, thin, narrow no-break. */
export const isGroupingBlank = (code: number): boolean =>
  code === 0x20 || code === 0xa0 || code === 0x2007 || code === 0x2009 || code === 0x202f;

/** Hyphen, minus and dashes: which one was typed says more about the keyboard than about the meaning. */
export const isDash = (code: number): boolean => code === 0x2d || code === 0x2212 || (code >= 0x2010 && code <= 0x2014);

/** First offset at or after `at` that holds no blank. */
export function skipBlanks(text: string, at: number): number {
  while (isBlank(text.charCodeAt(at))) at++;
  return at;
}

/** End of the word that starts at `at`: up to the next blank. */
export function wordEnd(text: string, at: number): number {
  while (at < text.length && !isBlank(text.charCodeAt(at))) at++;
  return at;
}

/** Signs that are drawn alike are read alike: each maps to the one that the list of units uses. */
const LOOKALIKES: ReadonlyMap<number, number> = new Map(
  [
    ["'", "′’‘ʹ"],
    ['"', "″”“ʺ"],
    ["Ω", "\u2126"],
    ["µ", "\u03bc"],
    ["K", "\u212a"],
    ["°", "º˚"],
    ["·", "⋅∙•"],
    ["/", "⁄∕"],
    ["-", "−‐\u2011‒–"],
    [" ", "\t\n\r\u00a0\u2007\u2009\u202f"],
  ].flatMap(([one, others]) => Array.from(others ?? "", (other) => [other.charCodeAt(0), one?.charCodeAt(0) ?? 0])),
);

/** The code under which a character stands in the list of units. */
export const plainCode = (code: number): number => (code < 0x7f && code > 0x1f ? code : (LOOKALIKES.get(code) ?? code));

/**
 * Offset of the first character that does not show, or −1: control characters, zero-width characters, marks that turn the
 * writing direction, half a surrogate pair. With them a text can look like another number than it is.
 */
export const findHidden = (text: string): number =>
  text.search(/(?![\t\n\r])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u);
