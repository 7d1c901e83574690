/** What no paper can show and no XML may hold. */
const UNSEEN = /[\p{Cc}\p{Cs}\ufffe\uffff]/gu;
/** Marks that turn the direction of writing for all that follows. */
const TURNING = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

const PLAIN = /^[ -~]*$/;

/**
 * A text of a plan as it may stand on paper: what cannot be seen shows as `�`, and nothing can turn the direction of what follows.
 *
 * @example
 * cleanText("fridge\u0000") //=> "fridge�"
 * cleanText("\u202Eegdirf") //=> "egdirf"
 */
export const cleanText = (text: string): string =>
  PLAIN.test(text) ? text : text.replace(UNSEEN, "\ufffd").replace(TURNING, "");
