import type { EndFault, FaultDevice, GreatestFault, SeenBy } from "../size/fault-study.ts";
import type { Grid } from "../system/index.ts";

/** The devices that can open for a fault. */
export interface Series {
  /** Those that part it from every battery, from the fault towards the sources: each stands in series with those before it. */
  readonly whole: readonly SeenBy[];
  /** Others that its current takes above their rating: the fuse of one battery of several, one feeder of two. */
  readonly parts: readonly SeenBy[];
}

/** Asks of a grid and its devices, for one fault after another, which of them stand in series. */
export function seriesIn(
  grid: Pick<Grid, "nodeCount" | "edges" | "at" | "stores">,
  devices: readonly FaultDevice[],
): (place: Pick<EndFault, "conductor" | "end">, greatest: Pick<GreatestFault, "course">) => Series {
  const edgeOf = new Map(grid.edges.map((edge, e) => [edge.id, e]));
  const fed = new Map<number, Uint8Array>();
  /** Nodes that a battery reaches while an edge is open. */
  const fedWithout = (edge: number): Uint8Array => {
    let nodes = fed.get(edge);
    if (nodes === undefined) {
      fed.set(edge, (nodes = new Uint8Array(grid.nodeCount)));
      for (const { plus } of grid.stores) spread(grid, plus, edge, nodes);
    }
    return nodes;
  };

  return ({ conductor, end }, { course }) => {
    const edge = grid.edges[edgeOf.get(conductor) ?? -1];
    if (edge === undefined) return { whole: [], parts: [] };
    const place = end === "from" ? edge.a : edge.b;
    const steps = stepsFrom(grid, place);
    const near = ({ device }: SeenBy): number => {
      const own = devices[device];
      const on = own === undefined ? undefined : grid.edges[own.edge];
      if (own === undefined || on === undefined) return Infinity;
      const [here, there] = own.at === "a" ? [on.a, on.b] : [on.b, on.a];
      const [a, b] = [steps[here] ?? -1, steps[there] ?? -1];
      // On its edge it stands at one end: behind the whole edge where the fault is at the other.
      return a <= b ? a + 0.25 : b + 0.75;
    };
    /** A fault at an end of the device's own edge lies behind the device: the edge is cut between the two. */
    const parts = ({ device }: SeenBy): boolean => {
      const own = devices[device];
      if (own === undefined) return false;
      const isOwn = grid.edges[own.edge]?.id === conductor;
      const nodes = fedWithout(own.edge);
      if (!isOwn) return nodes[place] !== 1;
      // What feeds the fault comes through the device from its own end, and may come from the other one as well.
      const other = own.at === "a" ? edge.b : edge.a;
      return nodes[other] !== 1;
    };
    const ordered = course.sees.map((seen) => ({ seen, near: near(seen) })).sort((a, b) => a.near - b.near);
    const whole = ordered.filter(({ seen }) => parts(seen)).map(({ seen }) => seen);
    const isAbove = ({ device, amps }: SeenBy): boolean => amps > (devices[device]?.rating ?? 0);
    return { whole, parts: course.sees.filter((seen) => !whole.includes(seen) && isAbove(seen)) };
  };
}

function spread(grid: Pick<Grid, "edges" | "at">, from: number, without: number, seen: Uint8Array): void {
  if (seen[from] === 1) return;
  seen[from] = 1;
  const queue = [from];
  for (let i = 0; i < queue.length; i++) {
    for (const e of grid.at[queue[i] ?? 0] ?? []) {
      const edge = grid.edges[e];
      if (edge === undefined || e === without) continue;
      const next = edge.a === queue[i] ? edge.b : edge.a;
      if (seen[next] === 1) continue;
      seen[next] = 1;
      queue.push(next);
    }
  }
}

/** Edges between a node and every other one; −1: no metal leads there. */
function stepsFrom(grid: Pick<Grid, "nodeCount" | "edges" | "at">, from: number): Int32Array {
  const steps = new Int32Array(grid.nodeCount).fill(-1);
  steps[from] = 0;
  const queue = [from];
  for (let i = 0; i < queue.length; i++) {
    const node = queue[i] ?? 0;
    for (const e of grid.at[node] ?? []) {
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      const next = edge.a === node ? edge.b : edge.a;
      if (steps[next] !== -1) continue;
      steps[next] = (steps[node] ?? 0) + 1;
      queue.push(next);
    }
  }
  return steps;
}
