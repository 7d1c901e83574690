import { expect } from "vitest";
import assert from "node:assert/strict";
import { textWidth } from "../../src/draw/text-width.ts";
import { test } from "./harness.ts";

/** Drawings are laid out by a table of widths; the font that the page draws them with has to agree with it, or texts collide. */

const TEXTS = [
  "W13 fridge 4.3 A",
  "2 × 1.5 mm², 5.2 m",
  "10.4 µΩ·m ≤ 12 °C → ½ Ω ± 3 %",
  "Kühlschrank, réfrigérateur, żarówka",
  "fi fl ffi AV To",
];

for (const [weight, css] of [
  ["regular", 400],
  ["semibold", 600],
] as const) {
  test(`a ${weight} text is as wide on the page as in the table`, async ({ harness }) => {
    const page = await harness.open();
    const asked: string[] = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    const measure = (text: string): Promise<number> =>
      page.evaluate(
        async ([font, shown]) => {
          await document.fonts.load(font, shown);
          const canvas = document.createElement("canvas").getContext("2d");
          if (canvas === null) return NaN;
          canvas.font = font;
          canvas.fontKerning = "none";
          // As the style sheet of a drawing says: font-variant-ligatures: none.
          canvas.textRendering = "optimizeSpeed";
          return canvas.measureText(shown).width;
        },
        // A size at which one unit of the font is one pixel.
        [`${css} 1000px "IBM Plex Sans"`, text] as const,
      );
    for (const text of TEXTS) {
      // 698 units are the height of a capital. Within half a unit of sums of whole ones.
      expect(await measure(text), text).toBeCloseTo(textWidth(text, 698, weight), 0);
    }
    assert.deepEqual(
      asked.filter((path) => path.includes("IBMPlexSans")),
      [],
      "the light font is enough for them",
    );
    expect(await measure("Насос")).toBeCloseTo(textWidth("Насос", 698, weight), 0);
    assert.ok(asked.some((path) => path.includes("IBMPlexSans")));
  });
}
