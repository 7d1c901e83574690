import {
  isFromA,
  wayOf,
  wayWithin,
  type EdgeFlow,
  type FaultPoint,
  type FaultPort,
  type FaultShape,
} from "./fault-metal.ts";
import { holdLimits } from "./hold-limits.ts";
import type { CorePair, LaidFaults, Weight } from "./lay-faults.ts";

/** Where a fault is: between a point of one pole and a point of the other, or of the structure. */
export interface FaultPlace {
  readonly plus: FaultPoint;
  readonly minus: FaultPoint;
}

/** A point as the core sees it. */
export interface Seen {
  /** Node of the core that it hangs on; within an edge of the core that edge's `a`. */
  readonly foot: number;
  /** Resistance between the point and the core, beyond what the core answers for. */
  readonly extraOhms: number;
  /** Edges of trees on the way to the core, with current for one ampere of fault drawn at the point. */
  readonly way: readonly EdgeFlow[];
  /** The core edge within which it lies, and that edge's `b`. */
  readonly within: Within | null;
}

interface Within {
  readonly edge: number;
  readonly share: number;
  readonly far: number;
}

const NO_WAY: readonly EdgeFlow[] = [];

function seePoint({ shape, one }: LaidFaults, point: FaultPoint): Seen | null {
  const { trees, metal, coreOf } = shape;
  if ("node" in point) {
    const { foot, flows } = wayOf(shape, point.node);
    const extraOhms = ohmsOn(flows, 0, one.ohms, 0);
    return extraOhms === Infinity ? null : { foot, extraOhms, way: flows, within: null };
  }
  if ("stub" in point) {
    const edge = metal.edges[point.stub];
    if (edge === undefined) return null;
    const { foot, flows } = wayOf(shape, edge[point.on]);
    const own = { edge: point.stub, atA: point.on === "a" ? 1 : 0, atB: point.on === "b" ? -1 : 0 };
    const extraOhms = ohmsOn(flows, 0, one.ohms, point.ohms);
    return extraOhms === Infinity ? null : { foot, extraOhms, way: [own, ...flows], within: null };
  }
  const { edge: at, share } = point;
  const edge = metal.edges[at];
  const ohms = one.ohms[at] ?? Infinity;
  if (edge === undefined || ohms === Infinity) return null;
  if (trees.isTree[at] === 0) {
    const within = { edge: at, share, far: coreOf[edge.b] ?? 0 };
    return { foot: coreOf[edge.a] ?? 0, extraOhms: share * (1 - share) * ohms, way: NO_WAY, within };
  }
  const { foot, flows } = wayWithin(shape, at);
  const extraOhms = ohmsOn(flows, 1, one.ohms, (isFromA(shape, at) ? share : 1 - share) * ohms);
  return extraOhms === Infinity ? null : { foot, extraOhms, way: flows, within: null };
}

/** Adds up a way from a place of it on; Infinity: it is open. */
function ohmsOn(way: readonly EdgeFlow[], from: number, ohms: Float64Array, first: number): number {
  let sum = first;
  for (let i = from; i < way.length; i++) sum += ohms[way[i]?.edge ?? -1] ?? Infinity;
  return sum;
}

/** A fault's current, with what the flows are worked out from. */
export interface Found {
  readonly amps: number;
  readonly ohms: number;
  readonly piece: number;
  readonly plus: Seen;
  readonly minus: Seen;
  readonly pair: CorePair;
  /** Amps of each limited source beyond those of its volts behind volts ÷ amps; holds until the next fault is looked at. */
  readonly beyond: Float64Array;
}

const NOTHING_BEYOND = new Float64Array(0);

/** The current of a short at a place; null: no source reaches both its points. */
export function findFault(laid: LaidFaults, place: FaultPlace, faultOhms: number): Found | null {
  const plus = seePoint(laid, place.plus);
  const minus = seePoint(laid, place.minus);
  if (plus === null || minus === null) return null;
  const { pieceOf } = laid;
  const piece = pieceOf[plus.foot] ?? 0;
  if (pieceOf[minus.foot] !== piece) return null;
  const pair = seePair(laid, piece, plus, minus);
  const { openVolts, limited } = pair;
  const ohms = pair.ohms + plus.extraOhms + minus.extraOhms + faultOhms;
  // Batteries alone: Ohm's law.
  if (limited.on.length === 0)
    return { amps: openVolts / ohms, ohms, piece, plus, minus, pair, beyond: NOTHING_BEYOND };
  const beyond = holdLimits(limited, pair, ohms);
  return { amps: beyond[limited.on.length] ?? 0, ohms, piece, plus, minus, pair, beyond };
}

function seePair(laid: LaidFaults, piece: number, plus: Seen, minus: Seen): CorePair {
  if (plus.within !== null || minus.within !== null) return lookBetween(laid, piece, plus, minus);
  const { pairs } = laid;
  const key = plus.foot * laid.shape.coreCount + minus.foot;
  let pair = pairs.get(key);
  if (pair === undefined) pairs.set(key, (pair = lookBetween(laid, piece, plus, minus)));
  return pair;
}

function lookBetween(laid: LaidFaults, piece: number, plus: Seen, minus: Seen): CorePair {
  const weights: Weight[] = [];
  weigh(laid, plus, 1, weights);
  weigh(laid, minus, -1, weights);
  let ohms = 0;
  for (const { share, column } of weights) ohms += share * across(weights, column);
  const limited = laid.limitedIn(piece);
  const atFault = limited.pushed.map((column) => across(weights, column));
  return { weights, ohms, openVolts: across(weights, laid.restVolts), limited, atFault };
}

/** How the current of a point divides between nodes of the core. */
function weigh(laid: LaidFaults, { foot, within }: Seen, sign: 1 | -1, into: Weight[]): void {
  const add = (node: number, share: number): void => void into.push({ node, share, column: laid.column(node) });
  if (within === null) add(foot, sign);
  else {
    add(foot, sign * (1 - within.share));
    add(within.far, sign * within.share);
  }
}

/** Volts between the two points. */
function across(weights: readonly Weight[], volts: Float64Array): number {
  let sum = 0;
  for (const { node, share } of weights) sum += share * (volts[node] ?? 0);
  return sum;
}

/** Volts of the core while a fault lasts: room that each fault writes over. */
let room = new Float64Array(64);

/** By core node, holding until the next fault is looked at. */
export function voltsDuring(laid: LaidFaults, { amps, pair, beyond }: Found): Float64Array {
  const { restVolts, shape } = laid;
  const n = shape.coreCount;
  if (room.length < n) room = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) room[i] = restVolts[i] ?? 0;
  for (const { share, column } of pair.weights) {
    const drawn = amps * share;
    for (let i = 0; i < n; i++) room[i] = (room[i] ?? 0) - drawn * (column[i] ?? 0);
  }
  const { pushed } = pair.limited;
  for (let k = 0; k < pushed.length; k++) {
    const column = pushed[k] ?? NOTHING_BEYOND;
    const by = beyond[k] ?? 0;
    for (let i = 0; i < n; i++) room[i] = (room[i] ?? 0) + by * (column[i] ?? 0);
  }
  return room;
}

/** Current through the edge of the core at a place in their list, as far as nothing is drawn within it; 0 where it is open or of another piece. */
export function throughCore(
  { pieceOf, shape, one }: LaidFaults,
  { piece }: Found,
  volts: Float64Array,
  k: number,
): number {
  const a = shape.coreA[k] ?? 0;
  if (pieceOf[a] !== piece) return 0;
  const ohms = one.ohms[shape.coreEdges[k] ?? 0] ?? Infinity;
  return ohms === Infinity ? 0 : ((volts[a] ?? 0) - (volts[shape.coreB[k] ?? 0] ?? 0)) / ohms;
}

/** The same at an end of the edge: what is drawn within it comes from both its ends, by the resistance to each. */
export function ampsAtEnd({ amps, plus, minus }: Found, edge: number, through: number, end: "a" | "b"): number {
  let at = through;
  if (plus.within?.edge === edge) at += end === "a" ? amps * (1 - plus.within.share) : -(amps * plus.within.share);
  if (minus.within?.edge === edge) at += end === "a" ? -amps * (1 - minus.within.share) : amps * minus.within.share;
  return at;
}

/** What a store pushes; null: it is off, or on other metal. */
export function storeAmps(
  { pieceOf, shape, one }: LaidFaults,
  { piece }: Found,
  volts: Float64Array,
  s: number,
): number | null {
  const port = shape.ports.stores[s];
  const inner = one.storeOhms[s] ?? Infinity;
  if (port === undefined || inner === Infinity || pieceOf[shape.coreOf[port.plus] ?? 0] !== piece) return null;
  return portAmps(shape, port, one.storeVolts[s] ?? 0, 1 / inner, volts);
}

/** What a limited source of the piece pushes, by its place among those. */
export function limitedAmps(
  { shape, one }: LaidFaults,
  { pair, beyond }: Found,
  volts: Float64Array,
  i: number,
): number {
  const k = pair.limited.on[i] ?? -1;
  const port = shape.ports.limited[k];
  if (port === undefined) return 0;
  const own = one.limitedVolts[k] ?? 1;
  return portAmps(shape, port, own, (one.limitedAmps[k] ?? 0) / own, volts) + (beyond[i] ?? 0);
}

const portAmps = (
  { coreOf }: FaultShape,
  { plus, minus }: FaultPort,
  own: number,
  g: number,
  volts: Float64Array,
): number => (own - (volts[coreOf[plus] ?? 0] ?? 0) + (volts[coreOf[minus] ?? 0] ?? 0)) * g;
