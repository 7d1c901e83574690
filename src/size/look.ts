import type { TreeVolts } from "./lay-trees.ts";
import type { JudgedRows } from "./judged-rows.ts";
import type { CircuitModel, Judged, Model } from "./model.ts";
import type { Pairs } from "./pairs.ts";
import type { Core } from "./solve-core.ts";
import type { Pair } from "./standing.ts";

/** A case, and amps that are laid over it between the two nodes of a pair. */
export interface Overlay {
  readonly case: number;
  /** Index of the pair. */
  readonly pair: number;
  /** 0: nothing is laid over the case. */
  readonly amps: number;
}

/** How volts and amps stand with the sizes that were laid last: what an explanation reads, and no loop asks. */
export interface Look {
  /**
   * What is laid over which case when a load or panel is judged.
   * @param which index of a case, −1 its circuit's loads alone, −2 at the feeder's demand, `start` while it starts
   */
  judgedIn(circuit: CircuitModel, judged: Judged, which: number | "start"): Overlay;
  /** Every start of a load that counts: alone over the base, and in each state that it is on in. */
  startsOf(circuit: CircuitModel, judged: Judged): readonly Overlay[];
  /** Terminals that its drop is counted from: the highest plus and the lowest minus of what feeds the pair; null: nothing does. */
  sourceOf(laid: Overlay): Pair | null;
  /** Volts of a node of the core, or of one on the way from the pair to what is laid there; with nothing laid, of any. */
  voltsAt(laid: Overlay, node: number): number;
  /** What each load takes in a case, A, by draw. */
  taken(caseIndex: number): Float64Array;
}

/** What a look reads; the weigher's own. */
export interface LookFrom {
  readonly model: Model;
  readonly base: number;
  readonly rows: JudgedRows;
  readonly pairs: Pairs;
  readonly core: Core;
  readonly tree: TreeVolts;
  readonly demandExtra: (circuit: CircuitModel) => number;
  /** The case in which a load has the least volts to start with, and the amps that it adds there. */
  readonly startIn: (circuit: CircuitModel, judged: Judged) => { readonly case: number; readonly amps: number };
  readonly eachStart: (circuit: CircuitModel, judged: Judged, call: (caseIndex: number, amps: number) => void) => void;
  readonly sources: () => readonly (readonly (readonly Pair[])[])[];
  readonly drawAmps: () => readonly Float64Array[];
}

export function makeLook({
  model,
  base,
  rows,
  pairs,
  core,
  tree,
  demandExtra,
  startIn,
  eachStart,
  sources,
  drawAmps,
}: LookFrom): Look {
  const { foot } = model.trees;
  const { columns, lost } = tree;
  const voltsAt: Look["voltsAt"] = ({ case: j, pair: p, amps }, node) => {
    const pair = pairs.list[p];
    const at = foot[node] ?? node;
    const inCore = (core.volts[j]?.[at] ?? 0) + amps * (core.starting[j]?.[p]?.[at] ?? 0);
    if (at === node || pair === undefined) return inCore;
    // Ratings have the loads of the base.
    const path = lost[node * columns + Math.min(j, base)] ?? 0;
    const ohms = lost[node * columns + columns - 1] ?? 0;
    return inCore + path + (at === pair.plus ? -amps * ohms : at === pair.minus ? amps * ohms : 0);
  };
  return {
    voltsAt,
    judgedIn(c, judged, which) {
      const q = (rows.first[c.position] ?? 0) + c.judged.indexOf(judged);
      const pair = rows.pair[q] ?? 0;
      if (typeof which === "number" && which >= 0) return { case: which, pair, amps: 0 };
      if (which === "start") return { ...startIn(c, judged), pair };
      return { case: base, pair, amps: which === -2 ? demandExtra(c) : rows.extra(c.position).steady };
    },
    startsOf(c, judged) {
      const pair = rows.pair[(rows.first[c.position] ?? 0) + c.judged.indexOf(judged)] ?? 0;
      const found: Overlay[] = [];
      eachStart(c, judged, (at, amps) => found.push({ case: at, pair, amps }));
      return found;
    },
    sourceOf(overlay) {
      let plus = -1;
      let minus = -1;
      for (const s of sources()[overlay.case]?.[overlay.pair] ?? []) {
        if (plus < 0 || voltsAt(overlay, s.plus) > voltsAt(overlay, plus)) plus = s.plus;
        if (minus < 0 || voltsAt(overlay, s.minus) < voltsAt(overlay, minus)) minus = s.minus;
      }
      return plus < 0 ? null : { plus, minus };
    },
    taken: (j) => drawAmps()[j] ?? new Float64Array(0),
  };
}
