import type { EndFault, FaultDevice, GreatestFault, SeenBy } from "../size/fault-study.ts";
import type { Grid } from "../system/index.ts";
import { hangsOn, stepsIn, walkCore, wiringOf } from "./wiring.ts";

/** The devices that can open for a fault. */
export interface Series {
  /** Those that part it from every battery, from the fault towards the sources: each stands in series with those before it. */
  readonly whole: readonly SeenBy[];
  /** Others that its current takes above their rating: the fuse of one battery of several, one feeder of two. */
  readonly parts: readonly SeenBy[];
}

/** Asks of a grid and its devices, for one fault after another, which of them stand in series. */
export function seriesIn(
  grid: Grid,
  devices: readonly FaultDevice[],
): (place: Pick<EndFault, "conductor" | "end">, greatest: Pick<GreatestFault, "course">) => Series {
  const edgeOf = new Map(grid.edges.map((edge, e) => [edge.id, e]));
  const wiring = wiringOf(grid);
  const steps = stepsIn(wiring);
  const fed = new Map<number, Uint8Array>();
  // What only a converter or a charger feeds, no battery on its metal, is parted from those.
  const batteries = grid.stores.map(({ plus }) => plus);
  const reached = new Uint8Array(grid.nodeCount);
  for (const plus of batteries) walkCore(wiring, plus, [], reached);
  const limited = [...grid.feeds, ...grid.converters.map(({ out }) => out)].map(({ plus }) => plus);
  const seeds = [...batteries, ...limited.filter((plus) => reached[wiring.trees.foot[plus] ?? plus] !== 1)];
  /** Nodes of the core that a battery reaches while an edge of it is open; −1: with none open. */
  const coreWithout = (edge: number): Uint8Array => {
    let nodes = fed.get(edge);
    if (nodes === undefined) {
      fed.set(edge, (nodes = new Uint8Array(grid.nodeCount)));
      for (const plus of seeds) walkCore(wiring, plus, [edge], nodes);
    }
    return nodes;
  };
  const isFed = (node: number, without: number): boolean => {
    const isOfCore = wiring.beyond[without] === -1;
    if (!isOfCore && hangsOn(wiring, node, without)) return false;
    return coreWithout(isOfCore ? without : -1)[wiring.trees.foot[node] ?? node] === 1;
  };

  return ({ conductor, end }, { course }) => {
    const edge = grid.edges[edgeOf.get(conductor) ?? -1];
    if (edge === undefined) return { whole: [], parts: [] };
    const place = end === "from" ? edge.a : edge.b;
    const near = ({ device }: SeenBy): number => {
      const own = devices[device];
      const on = own === undefined ? undefined : grid.edges[own.edge];
      if (own === undefined || on === undefined) return Infinity;
      const [here, there] = own.at === "a" ? [on.a, on.b] : [on.b, on.a];
      const [a, b] = [steps(place, here), steps(place, there)];
      // On its edge it stands at one end: behind the whole edge where the fault is at the other.
      if (a < 0 || b < 0) return Infinity;
      return a <= b ? a + 0.25 : b + 0.75;
    };
    /** A fault at an end of the device's own edge lies behind the device: the edge is cut between the two. */
    const parts = ({ device }: SeenBy): boolean => {
      const own = devices[device];
      if (own === undefined) return false;
      const isOwn = grid.edges[own.edge]?.id === conductor;
      if (!isOwn) return !isFed(place, own.edge);
      // What feeds the fault comes through the device from its own end, and may come from the other one as well.
      return !isFed(own.at === "a" ? edge.b : edge.a, own.edge);
    };
    // What flows on other metal, behind a converter, is no part of it.
    const ordered = course.sees
      .map((seen) => ({ seen, near: near(seen) }))
      .filter((each) => each.near >= 0 && each.near < Infinity)
      .sort((a, b) => a.near - b.near);
    const whole = ordered.filter(({ seen }) => parts(seen)).map(({ seen }) => seen);
    const isAbove = ({ device, amps }: SeenBy): boolean => amps > (devices[device]?.rating ?? 0);
    return { whole, parts: ordered.flatMap(({ seen }) => (!whole.includes(seen) && isAbove(seen) ? [seen] : [])) };
  };
}
