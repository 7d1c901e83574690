import type { DcSolution } from "../../network/index.ts";
import type { Settled } from "../../size/index.ts";
import type { Condition } from "./bank-condition.ts";

/** Volts at the terminals of what surges, while it does. */
export interface VoltsLeft {
  readonly part: string;
  readonly volts: number;
}

/** A condition solved with amps between each pair of the core's nodes, and the volts of such a pair. */
interface Tried {
  readonly solution: DcSolution;
  readonly volts: (pair: { readonly plus: number; readonly minus: number }) => number;
}

interface Sagged {
  readonly solution: DcSolution;
  /** With what surges, by pair. */
  readonly demand: Float64Array;
  readonly left: readonly VoltsLeft[];
}

/** Rounds after which a network that stands at the edge of collapse is taken as it is. */
const MOST_ROUNDS = 60;
/** A current that moves by less, of itself, has come to rest: far finer than any limit is stated. */
const AT_REST = 1e-7;
/** Halvings between what it can have and what it cannot: to a millionth. */
const HALVINGS = 20;

/**
 * Prepares finding what constant power takes at the volts that are left to it: those of batteries, core and its own wires, all of them loaded.
 *
 * Looked for from the volts before the surge: each round's current asks for no less in the next, so it climbs to the least current that the network can settle at.
 * Where there is none, what surges takes all it can have down to the volts at which it stops, or to half its own where nobody states these. What else is on stays
 * as it was settled.
 */
export function prepareSag({ model, weigher, chosen }: Settled) {
  const { grid, trees } = model;
  /** Conductors and contacts between a load and the core, by draw; worked out for those that surge. */
  const ways = new Map<number, readonly number[]>();
  const wayOf = (d: number): readonly number[] => {
    let way = ways.get(d);
    if (way === undefined) {
      const draw = grid.draws[d];
      ways.set(d, (way = draw === undefined ? [] : [...upFrom(draw.plus), ...upFrom(draw.minus)]));
    }
    return way;
  };
  const upFrom = (node: number): number[] => {
    const list: number[] = [];
    for (let n = node, e = trees.up[n] ?? -1; e >= 0; n = trees.above[n] ?? -1, e = trees.up[n] ?? -1) list.push(e);
    return list;
  };

  return ({ demand, surging, taken }: Condition, solve: (demand: Float64Array) => Tried): Sagged => {
    if (surging.length === 0) return { solution: solve(demand).solution, demand, left: [] };
    const amps = surging.map((s) => s.amps);
    const surges = new Map(surging.map((s, k) => [s.draw, k]));
    /** What flows in each conductor of a tree on the way to what surges. */
    const flow = new Map<number, number>();
    const layFlow = (): void => {
      for (const { draw } of surging) for (const e of wayOf(draw)) flow.set(e, 0);
      grid.draws.forEach((_, d) => {
        const own = amps[surges.get(d) ?? -1] ?? taken[d] ?? 0;
        if (own > 0) for (const e of wayOf(d)) if (flow.has(e)) flow.set(e, (flow.get(e) ?? 0) + own);
      });
    };
    /** Solves with what they take now; `lacks`: which have not the volts that they need to go on. */
    const lay = (): Sagged & { readonly lacks: readonly boolean[] } => {
      const all = demand.slice();
      surging.forEach(({ draw }, k) => {
        const pair = weigher.pairs.ofDraw[draw] ?? 0;
        all[pair] = (all[pair] ?? 0) + (amps[k] ?? 0);
      });
      layFlow();
      const { solution, volts } = solve(all);
      const lacks: boolean[] = [];
      const left = surging.map(({ draw, watts }): VoltsLeft => {
        const port = weigher.pairs.list[weigher.pairs.ofDraw[draw] ?? 0];
        const element = grid.draws[draw]?.element;
        if (port === undefined || element === undefined) throw new Error(`draw ${draw} has no pair`);
        const lost = wayOf(draw).reduce((v, e) => v + (flow.get(e) ?? 0) * weigher.ohmsOf(e, chosen.rungs), 0);
        const own = volts(port) - lost;
        lacks.push(watts !== null && own < (element.runsAbove?.high ?? element.atVolts / 2));
        return { part: element.part, volts: own };
      });
      return { solution, demand: all, left, lacks };
    };
    let good: readonly number[] = surging.map(() => 0);
    let now = lay();
    for (let round = 1; !now.lacks.includes(true); round++) {
      good = amps.slice();
      let moved = 0;
      surging.forEach(({ watts }, k) => {
        if (watts === null) return;
        amps[k] = watts / (now.left[k]?.volts ?? 0);
        moved = Math.max(moved, Math.abs((amps[k] ?? 0) / (good[k] ?? 0) - 1));
      });
      if (moved <= AT_REST || round >= MOST_ROUNDS) return now;
      now = lay();
    }
    // Not all can have what they ask: those that cannot get what there is on the way there, before they stop.
    const asked = amps.slice();
    const { lacks } = now;
    const scale = (share: number): void => {
      lacks.forEach((is, k) => {
        if (is) amps[k] = (good[k] ?? 0) + share * ((asked[k] ?? 0) - (good[k] ?? 0));
      });
    };
    let [low, high] = [0, 1];
    for (let round = 0; round < HALVINGS; round++) {
      const share = (low + high) / 2;
      scale(share);
      if (lay().lacks.some((is, k) => is && lacks[k] === true)) high = share;
      else low = share;
    }
    scale(low);
    return lay();
  };
}
