import type { LabelProblem } from "./label-reading.ts";
import type { Unknown } from "./part.ts";
import type { PlainText } from "./plain-text.ts";
import { quote } from "./refuse.ts";

/** Shortest word of letters alone that no one would take for a type: types have up to six letters, and those that read as words fewer. */
const SHORTEST_NAME = 5;
const SHORTEST_PROSE = 3;

/**
 * Whether a stretch that was not understood could change what the label means: figures may be a size, a few letters a type. A longer word, as the name of a
 * maker or of a shop, is only noted.
 */
function canMatter(text: string, isMixed: boolean): boolean {
  if (text === "?") return false;
  if (!/^\p{L}+(?:['’-]\p{L}+)*[.!:]?$/u.test(text)) return true;
  // Where others are written in capitals, a word in small letters is prose.
  return text.length < (isMixed && text === text.toLowerCase() ? SHORTEST_PROSE : SHORTEST_NAME);
}

/** What is said of words that are not known. */
export function unknownWords(
  plain: PlainText,
  unknown: readonly Unknown[],
): { readonly blocking: readonly LabelProblem[]; readonly noted: readonly LabelProblem[] } {
  const isMixed = /\p{Lu}/u.test(plain.text);
  const blocking: LabelProblem[] = [];
  const noted: LabelProblem[] = [];
  for (const { start, end, text, isSize } of unknown) {
    const at = plain.spanOf(start, end);
    if (isSize)
      blocking.push({
        id: "not-a-size",
        at,
        message: `${quote(text)} is no size of its system`,
        hint: "AWG goes from 40 to 4/0, SAE gauge from 20 to 4/0, circular mils to 2000 kcmil, areas to 1000 mm²",
      });
    else if (canMatter(text, isMixed))
      blocking.push({
        id: "word-not-known",
        at,
        message: `${quote(text)} is not known here, and it may be a size, a type or a number of conductors`,
        hint: "leave it out if it is none of these, or write it as its standard does",
      });
    else
      noted.push({
        id: "word-not-known",
        at,
        message: `${quote(text)} is not known here and was passed over`,
        hint: "check that it says nothing of the wire",
      });
  }
  return { blocking, noted };
}
