import type { FaultPoint } from "./fault-metal.ts";
import { holdLimits } from "./hold-limits.ts";
import type { LaidFaults } from "./lay-faults.ts";

/** Where a fault is: between a point of one pole and a point of the other, or of the structure. */
export interface FaultPlace {
  readonly plus: FaultPoint;
  readonly minus: FaultPoint;
}

/** An edge of a fault's path. */
export interface EdgeFlow {
  readonly edge: number;
  /** Current into the edge at `a` and out of it at `b`, A; other than equal only where the fault lies within it. */
  readonly atA: number;
  readonly atB: number;
}

/** What a short between two points draws, before anything opens. */
export interface SolvedFault {
  /** Steady current through the short, A; 0 where no source reaches both points. */
  readonly amps: number;
  /** Volts between the points while nothing is shorted, and resistance seen from them, Ω. */
  readonly openVolts: number;
  readonly ohms: number;
  /** Every edge in which the fault makes current flow. */
  readonly flows: readonly EdgeFlow[];
  /** Amps that each source pushes; those that push nothing are left out. */
  readonly stores: readonly { readonly store: number; readonly amps: number }[];
  readonly limited: readonly { readonly limited: number; readonly amps: number }[];
}

const NO_FAULT: SolvedFault = { amps: 0, openVolts: 0, ohms: Infinity, flows: [], stores: [], limited: [] };

/** Currents below this share of the fault's are rounding. */
const ROUNDING = 1e-9;

/** A point as the core sees it. */
interface Seen {
  /** Nodes of the core, and how the current of the point divides between them. */
  readonly nodes: readonly [node: number, share: number][];
  /** Resistance between the point and those nodes, beyond what the core answers for. */
  readonly extraOhms: number;
  /** Edges of trees on the way to the core, with current for one ampere of fault drawn at the point. */
  readonly way: readonly EdgeFlow[];
  /** The core edge within which it lies. */
  readonly within: { readonly edge: number; readonly share: number } | null;
}

function seePoint({ shape, one }: LaidFaults, point: FaultPoint): Seen | null {
  const { trees, metal, coreOf } = shape;
  let extraOhms = 0;
  const way: EdgeFlow[] = [];
  let node: number;
  if ("node" in point) node = point.node;
  else if ("stub" in point) {
    const edge = metal.edges[point.stub];
    if (edge === undefined) return null;
    node = edge[point.on];
    extraOhms = point.ohms;
    way.push({ edge: point.stub, atA: point.on === "a" ? 1 : 0, atB: point.on === "b" ? -1 : 0 });
  } else {
    const edge = metal.edges[point.edge];
    const ohms = one.ohms[point.edge] ?? Infinity;
    if (edge === undefined || ohms === Infinity) return null;
    const { a, b } = edge;
    const { share } = point;
    if (trees.isTree[point.edge] === 0) {
      return {
        nodes: [
          [coreOf[a] ?? 0, 1 - share],
          [coreOf[b] ?? 0, share],
        ],
        extraOhms: share * (1 - share) * ohms,
        way,
        within: { edge: point.edge, share },
      };
    }
    // What feeds it comes from the side of the core.
    const fromA = trees.up[b] === point.edge;
    node = fromA ? a : b;
    extraOhms = (fromA ? share : 1 - share) * ohms;
    way.push({ edge: point.edge, atA: fromA ? 1 : 0, atB: fromA ? 0 : -1 });
  }
  for (let e = trees.up[node] ?? -1; e >= 0; e = trees.up[node] ?? -1) {
    const ohms = one.ohms[e] ?? Infinity;
    if (ohms === Infinity) return null;
    extraOhms += ohms;
    const flow = metal.edges[e]?.b === node ? 1 : -1;
    way.push({ edge: e, atA: flow, atB: flow });
    node = trees.above[node] ?? 0;
  }
  return { nodes: [[coreOf[node] ?? 0, 1]], extraOhms, way, within: null };
}

/**
 * Solves a short at one place of a laid case.
 *
 * Steady current: inductance only delays it. Heating of the wire while it flows is left out. Limited sources push their limit as long as the volts across them
 * let them.
 *
 * @param faultOhms of the short itself; 0: bolted
 */
export function solveFault(laid: LaidFaults, place: FaultPlace, faultOhms = 0): SolvedFault {
  const plus = seePoint(laid, place.plus);
  const minus = seePoint(laid, place.minus);
  if (plus === null || minus === null) return NO_FAULT;
  const { pieceOf, restVolts, shape, one } = laid;
  const piece = pieceOf[plus.nodes[0]?.[0] ?? 0] ?? 0;
  if (pieceOf[minus.nodes[0]?.[0] ?? 0] !== piece) return NO_FAULT;
  const weights = [...plus.nodes, ...minus.nodes.map(([n, w]): [number, number] => [n, -w])];
  const columns = weights.map(([n]) => laid.column(n));
  const across = (volts: Float64Array): number => {
    let sum = 0;
    for (const [n, w] of weights) sum += w * (volts[n] ?? 0);
    return sum;
  };
  let inner = 0;
  weights.forEach(([, w], i) => {
    const column = columns[i];
    if (column !== undefined) inner += w * across(column);
  });
  const ohms = inner + plus.extraOhms + minus.extraOhms + faultOhms;
  const openVolts = across(restVolts);
  const on = laid.limitedOf.get(piece) ?? [];
  const pushed = on.map((k) => laid.pushColumn(k));
  const portVolts = (k: number, volts: Float64Array): number => {
    const port = shape.ports.limited[k];
    return (volts[shape.coreOf[port?.plus ?? 0] ?? 0] ?? 0) - (volts[shape.coreOf[port?.minus ?? 0] ?? 0] ?? 0);
  };
  const held = holdLimits({
    volts: on.map((k) => one.limitedVolts[k] ?? 0),
    amps: on.map((k) => one.limitedAmps[k] ?? 0),
    restVolts: on.map((k) => portVolts(k, restVolts)),
    between: on.map((k) => pushed.map((column) => portVolts(k, column))),
    atFault: pushed.map(across),
    openVolts,
    ohms,
  });
  const { amps } = held;
  if (!(Math.abs(amps) > 0)) return NO_FAULT;

  const voltsAt = (n: number): number => {
    let v = restVolts[n] ?? 0;
    weights.forEach(([, w], i) => (v -= amps * w * (columns[i]?.[n] ?? 0)));
    pushed.forEach((column, k) => (v += (held.beyond[k] ?? 0) * (column[n] ?? 0)));
    return v;
  };
  const flows: EdgeFlow[] = [];
  const flowIn = (way: readonly EdgeFlow[], times: number): void => {
    for (const { edge, atA, atB } of way) flows.push({ edge, atA: times * atA, atB: times * atB });
  };
  flowIn(plus.way, amps);
  flowIn(minus.way, -amps);
  const least = ROUNDING * Math.abs(amps);
  for (const e of shape.coreEdges) {
    const edge = shape.metal.edges[e];
    const r = one.ohms[e] ?? Infinity;
    if (edge === undefined || r === Infinity) continue;
    const a = shape.coreOf[edge.a] ?? 0;
    if (pieceOf[a] !== piece) continue;
    const through = (voltsAt(a) - voltsAt(shape.coreOf[edge.b] ?? 0)) / r;
    let [atA, atB] = [through, through];
    // What is drawn within an edge comes from both its ends, by the resistance to each.
    for (const [seen, drawn] of [
      [plus, amps],
      [minus, -amps],
    ] as const) {
      if (seen.within?.edge !== e) continue;
      atA += drawn * (1 - seen.within.share);
      atB -= drawn * seen.within.share;
    }
    if (Math.abs(atA) > least || Math.abs(atB) > least) flows.push({ edge: e, atA, atB });
  }
  const portAmps = (port: { plus: number; minus: number }, volts: number, g: number): number =>
    (volts - voltsAt(shape.coreOf[port.plus] ?? 0) + voltsAt(shape.coreOf[port.minus] ?? 0)) * g;
  const stores: { store: number; amps: number }[] = [];
  shape.ports.stores.forEach((port, s) => {
    const r = one.storeOhms[s] ?? Infinity;
    if (r === Infinity || pieceOf[shape.coreOf[port.plus] ?? 0] !== piece) return;
    stores.push({ store: s, amps: portAmps(port, one.storeVolts[s] ?? 0, 1 / r) });
  });
  const limited = on.flatMap((k, i) => {
    const port = shape.ports.limited[k];
    if (port === undefined) return [];
    const volts = one.limitedVolts[k] ?? 1;
    const pushes = portAmps(port, volts, (one.limitedAmps[k] ?? 0) / volts) + (held.beyond[i] ?? 0);
    return pushes > least ? [{ limited: k, amps: pushes }] : [];
  });
  return { amps, openVolts, ohms, flows, stores, limited };
}
