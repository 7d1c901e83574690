import { baseColours, colourName } from "../../wire/colour/index.ts";
import type { PrintedColour } from "../../wire/make/wire-make.ts";
import { fillRing, inksOfColour } from "../cable/index.ts";
import type { Item, Shape, Stroke } from "../scene.ts";
import { words, type Region } from "../sheet/text-block.ts";

const CASING: Stroke = { ink: "ink", width: 0.18 };

/** The colours that IEC 60757 has letters for, gold and silver left out, which are no insulation; and two that boats have beside them. */
const keyed: readonly PrintedColour[] = baseColours
  .filter(({ letters, own }) => (own ? letters === "LBU" || letters === "TN" : letters !== "GD" && letters !== "SR"))
  .map(({ letters }) => [letters]);

export interface ColourKeyLook {
  readonly capMm: number;
  readonly columns: number;
  /** Whether names stand under the letters. */
  readonly names: boolean;
}

const rowHeight = ({ capMm, names }: ColourKeyLook): number => capMm * (names ? 3.7 : 2.6);

/** Height of the key, mm. */
export const colourKeyHeight = (look: ColourKeyLook): number =>
  Math.ceil(keyed.length / look.columns) * rowHeight(look);

/** A wire of each colour cut through, with its pattern, its letters and its name. */
export function drawColourKey({ left, top, width }: Omit<Region, "height">, look: ColourKeyLook): Item[] {
  const { capMm, columns, names } = look;
  const rows = Math.ceil(keyed.length / columns);
  const radius = rowHeight(look) * 0.42;
  return keyed.map((colour, i): Item => {
    const centre = [
      left + radius + (width / columns) * Math.floor(i / rows),
      top + rowHeight(look) * ((i % rows) + 0.5),
    ] as const;
    const [x, y] = centre;
    const ring = { centre, inner: radius * 0.42, outer: radius };
    const [base = "WH", tracer] = inksOfColour(colour);
    const shapes: Shape[] = [...fillRing(ring, base)];
    if (tracer !== undefined) {
      // As on the cut through a cable: two partners, each twice.
      for (const from of [-1.4, -1.4 + Math.PI])
        shapes.push(...fillRing({ ...ring, part: [from, from + Math.PI / 2] }, tracer));
    }
    shapes.push({ is: "ellipse", centre, radii: [radius, radius], stroke: CASING });
    shapes.push({ is: "ellipse", centre, radii: [ring.inner, ring.inner], fill: "copper", stroke: CASING });
    const at = x + radius + 0.5 * capMm;
    shapes.push(words(colour[0], [at, names ? y - 0.15 * capMm : y + capMm / 2], { capMm, weight: "semibold" }));
    if (names) shapes.push(words(colourName(colour), [at, y + 1.35 * capMm], { capMm: 0.82 * capMm, ink: "ink2" }));
    return { role: "table", about: null, name: `${colour[0]}: ${colourName(colour)}`, shapes };
  });
}
