import { ladderColumns, type LadderColumn, type Rung } from "../../draw/ladder/ladder-columns.ts";
import { shapeBox } from "../../draw/shape-box.ts";
import type { Item, Scene, TextShape } from "../../draw/scene.ts";
import type { LadderSystem } from "../../wire/convert/index.ts";

/** Round a name that is clicked, mm: to the end of its rung, and half way to the next. */
const [ROUND, RUNG, HALF] = [1, 5, 1.8];

/**
 * The size ladder with a place to click for each size that it names. The place is called by system and size, `AWG/12`, and stands after its column.
 *
 * @param systems of the ladder, from left to right
 * @param marked the place of the size that is marked; null: none is
 */
export function markRungs(scene: Scene, systems: readonly LadderSystem[], marked: string | null): Scene {
  const columns = ladderColumns(systems);
  let at = 0;
  const items = scene.items.flatMap((item): readonly Item[] => {
    const column = item.role === "table" ? columns[at++] : undefined;
    return column === undefined ? [item] : [item, ...placesIn(item, column, marked)];
  });
  return { ...scene, items };
}

function placesIn({ shapes }: Item, column: LadderColumn, marked: string | null): readonly Item[] {
  return shapes.flatMap((shape): readonly Item[] => {
    // Names of sizes end at their rung; what counts them stands in the middle.
    if (shape.is !== "text" || shape.anchor !== "end") return [];
    const rung = column.rungs.find(({ name }) => name === shape.text);
    return rung === undefined ? [] : [placeOf(shape, column, rung, marked)];
  });
}

function placeOf(
  text: TextShape,
  { system, head }: LadderColumn,
  { name, areaMm2, note }: Rung,
  marked: string | null,
): Item {
  const [[left], [right, bottom]] = shapeBox(text);
  const middle = bottom - text.capMm / 2;
  const area = system === "mm²" || system === "JIS" ? "" : `, ${Number(areaMm2.toPrecision(3))} mm²`;
  const about = `${system}/${name}`;
  return {
    role: about === marked ? "mark" : "caption",
    about,
    name: `${name} ${head}${area}${note === "" ? "" : `, ${note}`}`,
    shapes: [{ is: "rectangle", from: [left - ROUND, middle - HALF], to: [right + RUNG, middle + HALF], radius: 0.5 }],
  };
}
