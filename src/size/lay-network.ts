import type { DcElement, DcNetwork, DcValues, PreparedDc } from "../network/index.ts";
import { prepareDc } from "../network/index.ts";
import type { Grid } from "../system/index.ts";
import { CONVERTER, type Case } from "./cases.ts";

/** A demand between two nodes of the grid, as the network is to have it. */
export interface LaidDraw {
  readonly id: string;
  readonly plus: number;
  readonly minus: number;
  readonly law: "amps" | "watts";
}

/** A network for the solver, and where each thing of the grid stands in it. */
export interface Laid {
  readonly prepared: PreparedDc;
  readonly values: DcValues;
  /** Element of each edge; −1 where it was left out. */
  readonly edge: Int32Array;
  readonly store: Int32Array;
  readonly feed: Int32Array;
  readonly draw: Int32Array;
  readonly converters: readonly LaidConverter[];
  /** Node of the solver for each node of the grid; −1 where nothing hangs on it. */
  readonly node: Int32Array;
}

/** A converter is laid as several elements, of which a case switches on those it needs; −1 where there is none. */
interface LaidConverter {
  /** Both sides on direct current, working. */
  readonly working: number;
  /** Its output, pushing up to its limit. */
  readonly pushes: number;
  /** Its input, drawing. */
  readonly draws: number;
  /** A tracking input, held at the volts at which its modules give most. */
  readonly holds: number;
}

/** Inner resistance of a held input: small beside any wire. */
const HELD_OHMS = 1e-3;

/**
 * How far above its own volts a source may go while it is at its rating: as good as any. It then pushes its amps through whatever wire there is;
 * only where nothing can take them does it hold volts.
 */
const AT_ANY_VOLTS = 100;

/**
 * Lays a grid out for the network solver.
 *
 * @param withEdge which edges to take
 * @param draws the demands to lay, in place of the grid's own where they were summed
 */
export function layNetwork(
  grid: Grid,
  withEdge: (edge: number) => boolean,
  draws: readonly LaidDraw[],
  ground?: string,
): Laid {
  const elements: DcElement[] = [];
  const name = (node: number): string => grid.nodeNames[node] ?? "";
  const add = (element: DcElement): number => elements.push(element) - 1;
  const port = (p: { plus: number; minus: number }): { plus: string; minus: string } => ({
    plus: name(p.plus),
    minus: name(p.minus),
  });

  const edge = Int32Array.from(grid.edges, ({ id, a, b }, i) =>
    withEdge(i) ? add({ kind: "resistor", id, a: name(a), b: name(b), ohms: 1 }) : -1,
  );
  const store = Int32Array.from(grid.stores, (s) =>
    add({ kind: "store", id: s.element.id, ...port(s), volts: s.element.nominalVolts, ohms: s.element.ohms.high }),
  );
  const feed = Int32Array.from(grid.feeds, (f) =>
    add({ kind: "feed", id: f.element.id, ...port(f), volts: f.element.volts.high, amps: f.element.amps.high }),
  );
  const draw = Int32Array.from(draws, (d) =>
    add({ kind: "draw", id: d.id, ...port(d), law: d.law === "amps" ? { amps: 0 } : { watts: 0 } }),
  );
  const converters = grid.converters.map(({ element, in: input, out }): LaidConverter => {
    const { id } = element;
    const tracks = element.input === "tracks";
    const trackVolts = tracks && input !== null ? bestVoltsAt(grid, input.plus) : null;
    const amps = element.amps.high;
    const works = input !== null && !(tracks && trackVolts === null);
    return {
      working: works
        ? add({
            kind: "converter",
            id,
            in: port(input),
            out: port(out),
            volts: element.volts.high,
            amps,
            efficiency: element.efficiency.low,
            idleWatts: element.idleWatts.high,
            ...(element.inputAmps === undefined ? {} : { inputAmps: element.inputAmps.high }),
            input: element.input,
            ...(trackVolts === null ? {} : { trackVolts }),
          })
        : -1,
      pushes: add({ kind: "feed", id: `${id}!out`, ...port(out), volts: element.volts.high, amps }),
      draws:
        input === null || tracks
          ? -1
          : add({
              kind: "draw",
              id: `${id}!in`,
              ...port(input),
              law: element.inputAmps === undefined ? { watts: 0 } : { amps: 0 },
            }),
      holds:
        input !== null && trackVolts !== null
          ? add({ kind: "store", id: `${id}!held`, ...port(input), volts: trackVolts, ohms: HELD_OHMS })
          : -1,
    };
  });

  const network: DcNetwork = { elements, ...(ground === undefined ? {} : { ground }) };
  const prepared = prepareDc(network);
  const numbers = new Map(prepared.nodes.map((n, i) => [n, i]));
  const node = Int32Array.from(grid.nodeNames, (n) => numbers.get(n) ?? -1);
  return { prepared, values: prepared.values(), edge, store, feed, draw, converters, node };
}

/** Volts at which the solar modules that a node's metal reaches give most. */
function bestVoltsAt(grid: Grid, node: number): number | null {
  const seen = new Set([node]);
  const queue = [node];
  for (let i = 0; i < queue.length; i++) {
    const n = queue[i] ?? 0;
    for (const { plus, element } of grid.feeds) {
      if (plus === n && element.bestVolts !== undefined) return element.bestVolts.low;
    }
    for (const e of grid.at[n] ?? []) {
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      const next = edge.a === n ? edge.b : edge.a;
      if (seen.has(next)) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return null;
}

/**
 * Puts the numbers of a case into a laid network.
 *
 * @param ohms by edge of the grid
 * @param drawAmps by laid draw: amps, or watts for one of constant power
 */
export function fillCase(laid: Laid, grid: Grid, one: Case, ohms: Float64Array, drawDemand: Float64Array): DcValues {
  const { values } = laid;
  for (let i = 0; i < laid.edge.length; i++) {
    const e = laid.edge[i] ?? -1;
    if (e < 0) continue;
    values.ohms[e] = ohms[i] ?? 0;
    values.on[e] = one.edgeOn[i] ?? 1;
  }
  laid.store.forEach((e, i) => (values.volts[e] = one.storeVolts[i] ?? 0));
  // A wire's volts must not set the current that it is then judged by.
  const reach = one.kind === "rating" ? AT_ANY_VOLTS : 1;
  laid.feed.forEach((e, i) => {
    values.on[e] = one.feedOn[i] ?? 0;
    values.volts[e] = reach * (grid.feeds[i]?.element.volts.high ?? 0);
  });
  laid.draw.forEach((e, i) => {
    const demand = drawDemand[i] ?? 0;
    values.on[e] = demand > 0 ? 1 : 0;
    values.demand[e] = demand;
  });
  laid.converters.forEach(({ working, pushes, draws, holds }, k) => {
    const mode = one.converter[k];
    const converter = grid.converters[k];
    if (converter === undefined) return;
    const rated = mode === CONVERTER.atItsRating;
    if (working >= 0) values.on[working] = mode === CONVERTER.working ? 1 : 0;
    // Fed with alternating current, its output is all there is of it here.
    values.on[pushes] = rated || (mode === CONVERTER.working && converter.in === null) ? 1 : 0;
    values.volts[pushes] = (rated ? reach : 1) * converter.element.volts.high;
    if (holds >= 0) values.on[holds] = rated ? 1 : 0;
    if (draws >= 0) {
      values.on[draws] = rated ? 1 : 0;
      values.demand[draws] = ratedInput(converter.element);
    }
  });
  return values;
}

/** What a DC-DC input takes at its rating: the amps stated, else the watts that its rated output needs. */
function ratedInput(element: Grid["converters"][number]["element"]): number {
  if (element.inputAmps !== undefined) return element.inputAmps.high;
  return (element.amps.high * element.volts.high) / element.efficiency.low;
}
