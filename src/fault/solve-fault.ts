import type { FaultPoint } from "./fault-metal.ts";
import { holdLimits } from "./hold-limits.ts";
import type { LaidFaults, LimitedHere } from "./lay-faults.ts";

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
  const found = findFault(laid, place, faultOhms);
  return found === null || !(Math.abs(found.amps) > 0) ? NO_FAULT : describeFault(laid, found);
}

/**
 * The current of a short alone, A: what `solveFault` gives, without where it flows.
 */
export const faultAmps = (laid: LaidFaults, place: FaultPlace): number => findFault(laid, place, 0)?.amps ?? 0;

/** A fault's current, with what the flows are worked out from. */
interface Found {
  readonly amps: number;
  readonly openVolts: number;
  readonly ohms: number;
  readonly piece: number;
  readonly plus: Seen;
  readonly minus: Seen;
  readonly weights: readonly Weight[];
  readonly limited: LimitedHere;
  /** Amps of each limited source beyond those of its volts behind volts ÷ amps. */
  readonly beyond: Float64Array;
}

/** A node of the core, the share of the fault's current that is drawn there, and what an ampere there does to all volts. */
interface Weight {
  readonly node: number;
  readonly share: number;
  readonly column: Float64Array;
}

const NOTHING_BEYOND = new Float64Array(0);

function findFault(laid: LaidFaults, place: FaultPlace, faultOhms: number): Found | null {
  const plus = seePoint(laid, place.plus);
  const minus = seePoint(laid, place.minus);
  if (plus === null || minus === null) return null;
  const { pieceOf } = laid;
  const piece = pieceOf[plus.nodes[0]?.[0] ?? 0] ?? 0;
  if (pieceOf[minus.nodes[0]?.[0] ?? 0] !== piece) return null;
  const seen = seePair(laid, piece, plus, minus);
  const { openVolts, limited, atFault } = seen;
  const ohms = seen.ohms + plus.extraOhms + minus.extraOhms + faultOhms;
  const { weights } = seen;
  // Batteries alone: Ohm's law.
  const held =
    limited.on.length === 0
      ? { amps: openVolts / ohms, beyond: NOTHING_BEYOND }
      : holdLimits({ ...limited, atFault, openVolts, ohms });
  return { amps: held.amps, beyond: held.beyond, openVolts, ohms, piece, plus, minus, weights, limited };
}

/** What the core shows between two points of it; beyond a tree's foot all places see the same. */
interface PairSeen {
  readonly weights: readonly Weight[];
  readonly ohms: number;
  readonly openVolts: number;
  readonly limited: LimitedHere;
  /** Volts between the points for an ampere that each limited source pushes. */
  readonly atFault: readonly number[];
}

const pairs = new WeakMap<LaidFaults, Map<number, PairSeen>>();

function seePair(laid: LaidFaults, piece: number, plus: Seen, minus: Seen): PairSeen {
  if (plus.within !== null || minus.within !== null) return lookBetween(laid, piece, plus, minus);
  let known = pairs.get(laid);
  if (known === undefined) pairs.set(laid, (known = new Map<number, PairSeen>()));
  const key = (plus.nodes[0]?.[0] ?? 0) * laid.shape.coreCount + (minus.nodes[0]?.[0] ?? 0);
  let seen = known.get(key);
  if (seen === undefined) known.set(key, (seen = lookBetween(laid, piece, plus, minus)));
  return seen;
}

function lookBetween(laid: LaidFaults, piece: number, plus: Seen, minus: Seen): PairSeen {
  const weights: Weight[] = [];
  for (const [node, share] of plus.nodes) weights.push({ node, share, column: laid.column(node) });
  for (const [node, share] of minus.nodes) weights.push({ node, share: -share, column: laid.column(node) });
  let ohms = 0;
  for (const { share, column } of weights) ohms += share * across(weights, column);
  const limited = laid.limitedIn(piece);
  const atFault = limited.pushed.map((column) => across(weights, column));
  return { weights, ohms, openVolts: across(weights, laid.restVolts), limited, atFault };
}

/** Volts between the two points. */
function across(weights: readonly Weight[], volts: Float64Array): number {
  let sum = 0;
  for (const { node, share } of weights) sum += share * (volts[node] ?? 0);
  return sum;
}

function describeFault({ pieceOf, restVolts, shape, one }: LaidFaults, found: Found): SolvedFault {
  const { amps, openVolts, ohms, piece, plus, minus, weights, limited: here, beyond } = found;
  const voltsAt = (n: number): number => {
    let v = restVolts[n] ?? 0;
    for (const { share, column } of weights) v -= amps * share * (column[n] ?? 0);
    for (let k = 0; k < here.pushed.length; k++) v += (beyond[k] ?? 0) * (here.pushed[k]?.[n] ?? 0);
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
  const limited = here.on.flatMap((k, i) => {
    const port = shape.ports.limited[k];
    if (port === undefined) return [];
    const volts = one.limitedVolts[k] ?? 1;
    const pushes = portAmps(port, volts, (one.limitedAmps[k] ?? 0) / volts) + (beyond[i] ?? 0);
    return pushes > least ? [{ limited: k, amps: pushes }] : [];
  });
  return { amps, openVolts, ohms, flows, stores, limited };
}
