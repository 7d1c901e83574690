import { solveGivenState } from "../size/describe-states.ts";
import type { Overlay } from "../size/look.ts";
import type { Pair } from "../size/standing.ts";
import type { Built } from "./built.ts";

/** One condition of the build with its volts and amps, however it was solved. */
export interface Standpoint {
  /** Index of the case whose contacts are closed. */
  readonly case: number;
  readonly overlay: Overlay;
  /** Volts of a node; with loads laid over a case, of one on the way to them. */
  readonly voltsAt: (node: number) => number;
  /** What a load takes in it, without what is laid over it. */
  readonly taken: (draw: number) => number;
  /** Volts at a load. */
  readonly drawVolts: (draw: number) => number;
}

/** As the sizes were judged: loads of constant power held at what they came to, the network linear. */
export function judgedStandpoint(built: Built, overlay: Overlay): Standpoint {
  const { weigher } = built.settled;
  const { look } = weigher;
  return {
    case: overlay.case,
    overlay,
    voltsAt: (node) => look.voltsAt(overlay, node),
    taken: (draw) => look.taken(overlay.case)[draw] ?? 0,
    drawVolts: (draw) => weigher.drawVolts(overlay.case, draw) ?? 0,
  };
}

/** As a state of the plan is shown: every load on its own terminals, solved in full; null for what is no state. */
export function solvedStandpoint(built: Built, caseIndex: number): Standpoint | null {
  const solved = solveGivenState(built.settled, caseIndex);
  if (solved === null) return null;
  const { draws } = built.settled.model.grid;
  const voltsAt = (node: number): number => solved.nodeVolts[node] ?? 0;
  return {
    case: caseIndex,
    overlay: plainCase(caseIndex),
    voltsAt,
    taken: (draw) => solved.drawAmps[draw] ?? 0,
    drawVolts: (draw) => {
      const at = draws[draw];
      return at === undefined ? 0 : between({ voltsAt }, at);
    },
  };
}

/** A case with nothing laid over it. */
export const plainCase = (at: number, pair = 0): Overlay => ({ case: at, pair, amps: 0 });

/** Volts between two nodes. */
export const between = ({ voltsAt }: Pick<Standpoint, "voltsAt">, { plus, minus }: Pair): number =>
  voltsAt(plus) - voltsAt(minus);

/** Amps in an edge of the grid, without a sign. */
export function flowIn({ settled }: Built, at: Standpoint, e: number): number {
  const edge = settled.model.grid.edges[e];
  if (edge === undefined) return 0;
  const ohms = settled.weigher.ohmsOf(e, settled.chosen.rungs);
  return ohms === 0 ? 0 : Math.abs(at.voltsAt(edge.a) - at.voltsAt(edge.b)) / ohms;
}
