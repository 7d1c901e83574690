import type { ChartUnits } from "../../draw/ladder/index.ts";
import type { LabelContext } from "../../wire/label/label-reading.ts";
import type { ConvertBy, ConvertDirection, LadderSystem } from "../../wire/convert/index.ts";

/** How a size is looked for in another system. */
export interface ConvertWish {
  /** Null: the one of mm² and AWG that the size is not of. */
  readonly to: LadderSystem | null;
  readonly by: ConvertBy;
  /** `nearest` may have less metal and has to be asked for. */
  readonly pick: ConvertDirection;
}

/** What the wire desk is asked of a name. */
export interface WireQuestion {
  /** As it was typed or pasted. */
  readonly text: string;
  /** Where the label was met; null: not said. */
  readonly context: LabelContext | null;
  readonly convert: ConvertWish;
  /** Current for the drop, as typed; empty: none. */
  readonly amps: string;
  /** Temperature that the insulation is rated as where the label does not say, °C; null: the least, 60. */
  readonly insulationC: number | null;
  /** Draws the cut as large as it is, instead of as large as there is room for. */
  readonly trueSize: boolean;
  /** There is only the width of a hand for drawings: their texts stay as large, and the pictures give way. */
  readonly isNarrow: boolean;
}

/** A sheet of wire sizes to print, and whose sizes stand first on it. */
export interface WireSheetWish {
  readonly sheet: "wall chart" | "pocket card";
  readonly units: ChartUnits;
}

/** A text alone, with nothing else asked. */
export const bareQuestion = (text: string, context: LabelContext | null = null): WireQuestion => ({
  text,
  context,
  convert: { to: null, by: "area", pick: "not smaller" },
  amps: "",
  insulationC: null,
  trueSize: false,
  isNarrow: false,
});
