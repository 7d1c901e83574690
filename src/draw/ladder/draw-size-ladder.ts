import type { LadderSystem } from "../../wire/convert/index.ts";
import type { Scene } from "../scene.ts";
import { ladderColumns, usualSystems } from "./ladder-columns.ts";
import { areaText, ladderItems, type LadderMark } from "./ladder-items.ts";

export interface SizeLadderOptions {
  /** Of the drawing, mm; 110 × 160 where left out. */
  readonly width?: number;
  readonly height?: number;
  /** Thinnest and thickest that is shown, mm²; else a window about the marked size, or everything on sale. */
  readonly range?: readonly [least: number, most: number];
  readonly mark?: LadderMark | null;
  /** The least area that will do, mm². */
  readonly neededMm2?: number | null;
  /** Which sides, from left to right; else mm², AWG, SAE, vehicle diameters, JIS and SWG. */
  readonly systems?: readonly LadderSystem[];
  /** Height of capitals, mm; 2.2 where left out. */
  readonly capMm?: number;
}

/** What the page shows at most, mm². */
const WINDOW: readonly [number, number] = [0.5, 120];
/** Everything that is on sale, mm². */
export const EVERYTHING: readonly [number, number] = [0.5, 254];
/** How far the window reaches below and above the marked size. */
const [BELOW, ABOVE] = [4, 12];

/**
 * The range about a size that a page shows; as wide at the ends of what is on sale as in the middle.
 *
 * @param areaMm2 above 0
 * @returns mm²
 * @example
 * windowAbout(2.5) //=> [0.625, 30]
 * windowAbout(95) //=> [2.5, 120]
 */
export function windowAbout(areaMm2: number): readonly [least: number, most: number] {
  const [least, most] = [areaMm2 / BELOW, areaMm2 * ABOVE];
  if (most > WINDOW[1]) return [Math.min(WINDOW[1] / (BELOW * ABOVE), least), Math.max(WINDOW[1], areaMm2 * 1.2)];
  if (least < WINDOW[0]) return [Math.min(WINDOW[0], areaMm2 / 1.2), Math.max(WINDOW[0] * BELOW * ABOVE, most)];
  return [least, most];
}

/**
 * Draws the size ladder: all systems side by side, on one scale of area whose equal steps are equal factors.
 *
 * Areas are compared, not resistances: mm² and JIS sizes are labels whose copper may be up to 14 % less. Sizes that stockists do not keep are drawn
 * thinner and never joined to the mark.
 *
 * @returns the scene; every text of it has room of its own
 * @source the tables of src/wire; the areas of each system as told there
 */
export function drawSizeLadder(options: SizeLadderOptions = {}): Scene {
  const { width = 110, height = 160, mark = null, neededMm2 = null, systems = usualSystems, capMm = 2.2 } = options;
  const range = options.range ?? (mark === null ? EVERYTHING : windowAbout(mark.areaMm2));
  const columns = ladderColumns(systems);
  const region = { left: 1, top: 1, width: width - 2, height: height - 2 };
  const marked = mark === null ? "" : ` Marked: ${mark.name} ${mark.system}, ${areaText(mark.areaMm2)} mm².`;
  return {
    width,
    height,
    title: "Size ladder",
    says: `Wire sizes of ${columns.length} systems by area; same height, same copper; a substitute may only stand higher.${marked}`,
    items: ladderItems(region, { columns, range, mark, neededMm2, capMm, areas: false }),
  };
}
