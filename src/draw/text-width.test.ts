import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { printFontWidths, widthsFile } from "../../tools/make-font-widths.ts";
import { textWidth } from "./text-width.ts";

test("the table of widths is the one that the fonts give", async () => {
  assert.equal(readFileSync(widthsFile, "utf8"), await printFontWidths(), "run `npm run docs`");
});

test("a width grows with the height of the text, and with each letter", () => {
  assert.ok(
    Math.abs(textWidth("W13 · 2.5 mm²", 3.6, "regular") - 2 * textWidth("W13 · 2.5 mm²", 1.8, "regular")) < 1e-9,
  );
  assert.ok(textWidth("fridge", 1.8, "semibold") > textWidth("fridge", 1.8, "regular"));
  assert.equal(textWidth("AV", 1.8, "regular"), textWidth("A", 1.8, "regular") + textWidth("V", 1.8, "regular"));
});

test("figures are equally wide, so that columns of numbers stand straight", () => {
  for (const weight of ["regular", "semibold"] as const) {
    const widths = new Set("0123456789".split("").map((figure) => textWidth(figure, 2.5, weight)));
    assert.equal(widths.size, 1);
  }
});

test("a character that the font lacks is as wide as an em, a mark above a letter nothing", () => {
  const em = 1 / 0.698;
  for (const character of ["⌀", "冷", "🚢"])
    assert.ok(Math.abs(textWidth(character, 1, "regular") - em) < 1e-9, character);
  assert.equal(textWidth("e\u0324\u0331\u200b", 1, "regular"), textWidth("e", 1, "regular"));
  // Half of a pair that has lost the other half.
  assert.ok(Math.abs(textWidth("\ud800", 1, "regular") - em) < 1e-9);
});
