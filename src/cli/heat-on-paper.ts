import type { Compiled } from "../compile.ts";
import { studyHeat, type CircuitHeat } from "../size/study-heat.ts";

/** Heat of a circuit: metal between two bounds, with neighbours that nobody names idle and carrying the same. */
export interface HeatOnPaper {
  readonly id: string;
  /** At its design current. */
  readonly atDesign: { readonly amps: number; readonly lowC: number; readonly highC: number };
  /** State in which it is hottest; null: the plan has none. */
  readonly worst: {
    readonly state: string;
    readonly amps: number;
    readonly lowC: number;
    readonly highC: number;
  } | null;
  /** What its insulation bears, as far as the column of the table stands for it. */
  readonly ratingC: number;
  /** One conductor's ampacity by the table and by the model, in the stretch that decides; null: no table rates it. */
  readonly beside: { readonly tableA: number; readonly modelA: number; readonly says: string } | null;
}

/** Heat of every circuit of direct current whose size is known, in the order of the schedule. */
export function heatOnPaper({ settled, runs, design }: Pick<Compiled, "settled" | "runs" | "design">): HeatOnPaper[] {
  const study = studyHeat(settled, runs, design);
  return settled.model.circuits.flatMap((c): HeatOnPaper[] => {
    const heat = study.circuit(c.position);
    return heat === null ? [] : [onPaper(heat)];
  });
}

const onPaper = ({ id, atDesign, worst, ratingC, beside }: CircuitHeat): HeatOnPaper => ({
  id,
  atDesign,
  worst: worst === null ? null : { state: worst.state, amps: worst.amps, lowC: worst.lowC, highC: worst.highC },
  ratingC,
  beside: beside === null ? null : { tableA: beside.published, modelA: beside.modelled, says: beside.says },
});
