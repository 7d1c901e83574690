import type { ShownDrawing, WireSheetWish } from "../../../act/wire-card/index.ts";
import type { Bench, Units } from "../../contract.ts";
import { printSheet } from "../../look/print-sheet.ts";

/** Sheets by whose sizes stand first, with the paper that they are drawn for. */
const sheets: Readonly<
  Record<WireSheetWish["units"], readonly (readonly [sheet: WireSheetWish["sheet"], says: string])[]>
> = {
  metric: [
    ["wall chart", "Wall chart, A3"],
    ["pocket card", "Pocket card, A6"],
  ],
  us: [
    ["wall chart", "Wall chart, tabloid"],
    ["pocket card", "Pocket card, 4 × 6 in"],
  ],
};

/** Sheets of wire sizes, to print at true size or to keep. */
export function SheetLinks({ bench, units }: { readonly bench: Bench; readonly units: Units }) {
  const own = units.sizes === "AWG" ? "us" : "metric";
  const draw = async (sheet: WireSheetWish["sheet"], then: (sides: readonly ShownDrawing[]) => void): Promise<void> => {
    const sides = await bench.wireSheet({ sheet, units: own });
    if (sides !== null) then(sides);
  };
  return (
    <ul class="name-sheets">
      {sheets[own].map(([sheet, says]) => (
        <li key={sheet}>
          <span>{says}</span>
          <button type="button" class="link" aria-label={`Print: ${says}`} onClick={() => void draw(sheet, printSheet)}>
            print
          </button>
          <button
            type="button"
            class="link"
            aria-label={`Save as SVG: ${says}`}
            onClick={() =>
              void draw(sheet, (sides) => {
                saveSides(sides, sheet.replace(" ", "-"));
              })
            }
          >
            save as SVG
          </button>
        </li>
      ))}
    </ul>
  );
}

/** One file a side. */
function saveSides(sides: readonly ShownDrawing[], name: string): void {
  sides.forEach(({ svg }, i) => {
    const side = sides.length === 1 ? "" : i === 0 ? "-front" : "-back";
    const link = document.createElement("a");
    const url = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
    link.href = url;
    link.download = `wire-sizes-${name}${side}.svg`;
    link.click();
    // After the browser has begun to read it.
    setTimeout(() => {
      URL.revokeObjectURL(url);
    }, 10_000);
  });
}
