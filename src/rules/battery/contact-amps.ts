import { sumTrees } from "../../system/index.ts";
import type { Build } from "../build.ts";
import { bankFlowsOf } from "./bank-flows.ts";

/** The most that flows in a contact for long, and while something behind it starts. */
export interface ContactAmps {
  readonly steady: number;
  readonly state: string;
  readonly start: number;
}

const found = new WeakMap<Build, (edge: number) => ContactAmps>();

/** What flows in the contacts of switches: in the core as solved, on the trees as what hangs behind them takes. */
export function contactAmpsOf(build: Build): (edge: number) => ContactAmps {
  let amps = found.get(build);
  if (amps === undefined) found.set(build, (amps = findAmps(build)));
  return amps;
}

function findAmps(build: Build): (edge: number) => ContactAmps {
  const { model, weigher } = build.settled;
  const { grid, trees } = model;
  const { look, base, cases } = weigher;
  const steady = new Float64Array(grid.edges.length);
  const start = new Float64Array(grid.edges.length);
  const state: string[] = [];
  const usual = new Float64Array(grid.edges.length);
  cases.slice(0, base + 1).forEach((one, j) => {
    if (one.kind === "rating") return;
    const flow = new Float64Array(grid.nodeCount);
    const taken = look.taken(j);
    grid.draws.forEach(({ plus, minus }, d) => {
      flow[plus] = (flow[plus] ?? 0) + (taken[d] ?? 0);
      flow[minus] = (flow[minus] ?? 0) - (taken[d] ?? 0);
    });
    const into = new Float64Array(grid.edges.length);
    sumTrees(trees, flow, into);
    into.forEach((amps, e) => {
      if (one.kind === "base") usual[e] = Math.abs(amps);
      if (Math.abs(amps) <= (steady[e] ?? 0)) return;
      steady[e] = Math.abs(amps);
      state[e] = one.kind === "base" ? "always-on loads only" : one.name;
    });
  });
  const now = look.taken(base);
  grid.draws.forEach(({ element, inverter, plus, minus }, d) => {
    const amps = (name: string): number => element.levels.find((l) => l.name === name)?.amps.high ?? 0;
    const running = amps("running") - (now[d] ?? 0);
    const starting = amps("starting") - (now[d] ?? 0);
    for (const end of [plus, minus]) {
      for (let n = end, e = trees.up[n] ?? -1; e >= 0; n = trees.above[n] ?? n, e = trees.up[n] ?? -1) {
        const alone = (usual[e] ?? 0) + running;
        if (alone > (steady[e] ?? 0)) {
          steady[e] = alone;
          state[e] = inverter === null ? `${element.part} alone` : `${element.part} at full output`;
        }
        if (starting > 0) start[e] = Math.max(start[e] ?? 0, (usual[e] ?? 0) + starting);
      }
    }
  });
  const flows = bankFlowsOf(build);
  return (edge) => {
    const solved = flows.mostIn(edge);
    return solved ?? { steady: steady[edge] ?? 0, state: state[edge] ?? "", start: start[edge] ?? 0 };
  };
}
