/** Control characters, line breaks, half characters and what has no width or turns the direction of writing. */
const UNSEEN = /[\u0000-\u001f\u007f-\u009f\u00ad\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff]|\p{Cs}/gu;

/**
 * A text out of a plan, fit to be printed: what cannot be seen is written as its code, what is too long is cut.
 *
 * @param most longest result in UTF-16 units, at least 2
 * @returns the text itself when there is nothing to change
 * @example
 * visible("a\u0007b", 20) //=> "a⟨U+0007⟩b"
 * visible("abcdefgh", 5) //=> "abcd…"
 */
export function visible(text: string, most: number): string {
  const short = text.length > most ? `${wholeStart(text, most - 1)}…` : text;
  return short.replace(UNSEEN, (sign) => `⟨${codeOf(sign)}⟩`);
}

/** The name of a character by number, as `U+2028`. */
export function codeOf(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}`;
}

/** The first units of a text, but never half a character. */
function wholeStart(text: string, units: number): string {
  const end = /[\ud800-\udbff]/.test(text.charAt(units - 1)) ? units - 1 : units;
  return text.slice(0, end);
}
