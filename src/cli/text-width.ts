/** Marks that sit on the character before them take no column. */
const MARK = /^[\p{Mn}\p{Me}\u200b-\u200d\ufe00-\ufe0f]$/u;
/** Scripts and pictures that take two columns. */
const WIDE =
  /^(?:[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}|[\u{20000}-\u{3fffd}])$/u;

const columnsOf = (character: string): number => (MARK.test(character) ? 0 : WIDE.test(character) ? 2 : 1);

/** Below this every character takes one column, and most text is below it. */
const ALL_NARROW = /^[\u0020-\u02ff\u2010-\u2027\u2030-\u203a\u2190-\u22ff]*$/;

/**
 * Columns of a text on a screen of fixed width.
 *
 * @param text one line without control characters
 * @example
 * textWidth("2.5 mm²") //=> 7
 * textWidth("冷蔵庫") //=> 6
 */
export function textWidth(text: string): number {
  if (ALL_NARROW.test(text)) return text.length;
  let width = 0;
  for (const character of text) width += columnsOf(character);
  return width;
}

/**
 * A text that takes no more than so many columns; what is cut off shows as `…`.
 *
 * @param most columns, at least 1
 * @example
 * clip("sockets to starboard", 10) //=> "sockets t…"
 */
export function clip(text: string, most: number): string {
  if (textWidth(text) <= most) return text;
  let kept = "";
  let width = 0;
  for (const character of text) {
    width += columnsOf(character);
    if (width > most - 1) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

/** A figure and its unit, which stay on one line. */
const FIGURE_AND_UNIT = /(\d) (?=(?:%|mm²|m|V|A|W|s|°C|mΩ|AWG|SAE|mm)(?:[\s,.;:)]|$))/g;
const HELD = "\u00a0";

/** A text whose figures stay on one line with their units. */
export const holdFigures = (text: string): string => text.replace(FIGURE_AND_UNIT, `$1${HELD}`);

/** Whatever room there is, a line holds so much: else a page without any would never end. */
const LEAST = 4;

/**
 * Breaks a text into lines at its blanks, but not between a figure and its unit; a word that is longer than a line is cut.
 *
 * @param most columns of a line
 * @param later columns that every line but the first is indented by
 */
export function wrap(text: string, most: number, later = 0): string[] {
  const lines: string[] = [];
  let line = "";
  const room = (): number => Math.max(LEAST, lines.length === 0 ? most : most - later);
  const end = (): void => {
    lines.push((lines.length === 0 ? line : " ".repeat(later) + line).replaceAll(HELD, " "));
    line = "";
  };
  for (let word of holdFigures(text)
    .split(" ")
    .filter((w) => w !== "")) {
    if (line !== "" && textWidth(line) + 1 + textWidth(word) > room()) end();
    while (textWidth(word) > room()) {
      const head = clip(word, room()).slice(0, -1);
      line = head;
      word = word.slice(head.length);
      end();
    }
    line = line === "" ? word : `${line} ${word}`;
  }
  if (line !== "" || lines.length === 0) end();
  return lines;
}
