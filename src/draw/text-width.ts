import { CAP_HEIGHT, fontWidths, UNITS_PER_EM } from "./font-widths.ts";
import type { TextShape } from "./scene.ts";

/** Marks that sit on the character before them, and what is not seen at all. */
const NO_WIDTH = /^[\p{Mn}\p{Me}\p{Cf}]$/u;

/** By code point up to U+FFFF; 65,536 characters are quicker looked up than sorted. */
const NOT_KNOWN = 0xffff;
const tables: Partial<Record<TextShape["weight"], Uint16Array>> = {};

function tableOf(weight: TextShape["weight"]): Uint16Array {
  const table = new Uint16Array(0x10000).fill(NOT_KNOWN);
  for (const [first, widths] of fontWidths[weight]) {
    widths.split(" ").forEach((width, i) => {
      table[first + i] = Number.parseInt(width, 36);
    });
  }
  return table;
}

/**
 * Size of the font whose capitals have a height.
 *
 * @param capMm height of capitals, mm
 * @returns mm
 * @example
 * fontSize(1.8) //=> 2.5788
 */
export const fontSize = (capMm: number): number => (capMm * UNITS_PER_EM) / CAP_HEIGHT;

/**
 * Width of a text as it is drawn: in IBM Plex Sans, without kerning and ligatures.
 *
 * A character that the font lacks counts as wide as it is high (one em, as the letters of China and Japan are), for whatever font the reader's machine
 * has draws it on a screen; on a PDF it is an empty box. Marks above a letter count nothing.
 *
 * @param text one line
 * @param capMm height of capitals, mm
 * @returns mm; 0 for an empty text
 * @accuracy that of the font's own table; texts with characters that the font lacks: a guess
 * @example
 * textWidth("HH", 0.698, "regular") //=> 1.414
 * textWidth("", 2.5, "regular") //=> 0
 */
export function textWidth(text: string, capMm: number, weight: TextShape["weight"]): number {
  const table = (tables[weight] ??= tableOf(weight));
  let units = 0;
  for (let i = 0; i < text.length; i++) {
    const width = table[text.charCodeAt(i)] ?? NOT_KNOWN;
    if (width !== NOT_KNOWN) {
      units += width;
      continue;
    }
    const character = String.fromCodePoint(text.codePointAt(i) ?? 0);
    if (character.length === 2) i++;
    if (!NO_WIDTH.test(character)) units += UNITS_PER_EM;
  }
  return (units * capMm) / CAP_HEIGHT;
}
