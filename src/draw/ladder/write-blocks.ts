import type { Item, Shape } from "../scene.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { words, type Region } from "../sheet/text-block.ts";

/** A line of a block: words that run on, or cells that stand under each other. */
export type BlockLine =
  | { readonly is: "text"; readonly lead?: string; readonly text: string }
  | { readonly is: "row"; readonly cells: readonly string[] };

/** A heading with what belongs to it. */
export interface Block {
  readonly title: string;
  /** Where the cells of a row begin, as shares of the width. */
  readonly stops?: readonly number[];
  readonly lines: readonly BlockLine[];
}

/** From line to line, in heights of capitals. */
const LINE = 1.62;
/** White after a line that runs on, and after a block. */
const [AFTER, BETWEEN] = [0.45, 1.5];

/**
 * Writes blocks of words under each other.
 *
 * @param capMm height of capitals, mm
 * @returns what is written, and where it ends, mm; that may be below the region
 */
export function writeBlocks(
  blocks: readonly Block[],
  { left, top, width }: Omit<Region, "height">,
  capMm: number,
): { readonly items: Item[]; readonly bottom: number } {
  const items: Item[] = [];
  let y = top;
  blocks.forEach(({ title, stops = [0], lines }, i) => {
    if (i > 0) y += BETWEEN * capMm;
    const shapes: Shape[] = [];
    if (title !== "") {
      y += 1.2 * capMm;
      shapes.push(words(title, [left, y], { capMm: 1.2 * capMm, weight: "semibold" }));
      y += 0.75 * capMm;
      shapes.push({ is: "polyline", points: [[left, y], [left + width, y]], stroke: { ink: "ink", width: 0.25 } }); // prettier-ignore
      y += 0.35 * capMm;
    }
    lines.forEach((line, n) => {
      // A sentence after a list of rows is no row.
      if (line.is === "text" && lines[n - 1]?.is === "row") y += AFTER * capMm;
      const cells = line.is === "text" ? [line.lead ?? "", line.text] : line.cells;
      const at = line.is === "row" ? stops : line.lead === undefined ? [0, 0] : [0, stops[1] ?? 0.06];
      let deepest = y;
      cells.forEach((cell, k) => {
        if (cell === "") return;
        const from = (at[k] ?? 0) * width;
        const to = line.is === "row" && k + 1 < cells.length ? (at[k + 1] ?? 1) * width - capMm * 0.6 : width;
        const weight = k === 0 ? "semibold" : "regular";
        wrapText(cell, capMm, weight, to - from).forEach((text, n) => {
          const base = y + LINE * capMm * (n + 1);
          shapes.push(words(text, [left + from, base], { capMm, weight, ink: k === 0 ? "ink" : "ink2" }));
          deepest = Math.max(deepest, base);
        });
      });
      y = deepest + (line.is === "text" ? AFTER * capMm : 0.12 * capMm);
    });
    const told = lines.map((line) =>
      (line.is === "text" ? `${line.lead ?? ""} ${line.text}` : line.cells.join(", ")).trim(),
    );
    items.push({ role: "table", about: null, name: `${title}: ${told.join(" ")}`, shapes });
  });
  return { items, bottom: y };
}
