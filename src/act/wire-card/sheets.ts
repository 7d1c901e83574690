import { drawPocketCard, drawWallChart } from "../../draw/ladder/index.ts";
import { shownDrawing } from "./drawings.ts";
import type { ShownDrawing } from "./wire-card-shape.ts";
import type { WireSheetWish } from "./wire-question.ts";

/** The sides of a sheet of wire sizes, each at the size of its paper: A3 and A6, for American units tabloid and an index card. */
export const drawWireSheet = ({ sheet, units }: WireSheetWish): readonly ShownDrawing[] =>
  (sheet === "wall chart" ? [drawWallChart({ units })] : drawPocketCard({ units })).map(shownDrawing);
