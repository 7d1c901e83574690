import type { TextShape } from "../scene.ts";
import { textWidth } from "../text-width.ts";

/**
 * A text no wider than there is room for; what does not fit is left out and `…` stands in its place.
 *
 * @param capMm height of capitals, mm
 * @param room mm
 * @returns empty where not even one letter fits
 * @example
 * fitText("fridge", 1.8, "regular", 40) //=> "fridge"
 * fitText("fridge and freezer", 1.8, "regular", 15).endsWith("…") //=> true
 */
export function fitText(text: string, capMm: number, weight: TextShape["weight"], room: number): string {
  if (textWidth(text, capMm, weight) <= room) return text;
  const letters = Array.from(text);
  let [least, most] = [0, letters.length];
  while (least < most) {
    const middle = (least + most + 1) >> 1;
    const part = `${letters.slice(0, middle).join("").trimEnd()}…`;
    if (textWidth(part, capMm, weight) <= room) least = middle;
    else most = middle - 1;
  }
  return least === 0 ? "" : `${letters.slice(0, least).join("").trimEnd()}…`;
}

/**
 * The first of some ways to write a figure that there is room for. A figure is told whole or not at all: what is left of a cut one reads as another.
 *
 * @param ways the fullest first
 * @param room mm
 * @returns empty where none fits
 * @example
 * fitFigure(["3000 W · charges 120 A", "3000 W"], 1.8, "regular", 15) //=> "3000 W"
 * fitFigure(["3000 W"], 1.8, "regular", 4) //=> ""
 */
export function fitFigure(ways: readonly string[], capMm: number, weight: TextShape["weight"], room: number): string {
  return ways.find((text) => textWidth(text, capMm, weight) <= room) ?? "";
}

/**
 * A text broken into lines between words, and inside a word that is wider than a line.
 *
 * @example
 * wrapText("a short text", 1.8, "regular", 100) //=> ["a short text"]
 */
export function wrapText(text: string, capMm: number, weight: TextShape["weight"], room: number): string[] {
  const lines: string[] = [];
  let line = "";
  let width = 0;
  const space = textWidth(" ", capMm, weight);
  for (const word of text.split(/\s+/).filter((w) => w !== "")) {
    let rest = word;
    let restWidth = textWidth(rest, capMm, weight);
    if (line !== "" && width + space + restWidth > room) {
      lines.push(line);
      line = "";
      width = 0;
    }
    while (restWidth > room) {
      const letters = Array.from(rest);
      let n = Math.max(1, Math.floor((letters.length * room) / restWidth));
      while (n > 1 && textWidth(letters.slice(0, n).join(""), capMm, weight) > room) n--;
      lines.push(letters.slice(0, n).join(""));
      rest = letters.slice(n).join("");
      restWidth = textWidth(rest, capMm, weight);
      if (rest === "") break;
    }
    if (rest === "") continue;
    width += (line === "" ? 0 : space) + restWidth;
    line += (line === "" ? "" : " ") + rest;
  }
  return line === "" ? lines : [...lines, line];
}
