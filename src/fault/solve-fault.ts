import { isFromA, wayOf, wayWithin, type EdgeFlow, type FaultPoint } from "./fault-metal.ts";
import { holdLimits } from "./hold-limits.ts";
import type { CorePair, LaidFaults, Weight } from "./lay-faults.ts";

/** Where a fault is: between a point of one pole and a point of the other, or of the structure. */
export interface FaultPlace {
  readonly plus: FaultPoint;
  readonly minus: FaultPoint;
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
  readonly ohms: number;
  readonly piece: number;
  readonly plus: Seen;
  readonly minus: Seen;
  readonly pair: CorePair;
  /** Amps of each limited source beyond those of its volts behind volts ÷ amps; holds until the next fault is looked at. */
  readonly beyond: Float64Array;
}

const NOTHING_BEYOND = new Float64Array(0);

function findFault(laid: LaidFaults, place: FaultPlace, faultOhms: number): Found | null {
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

function voltsDuring(laid: LaidFaults, { amps, pair, beyond }: Found): Float64Array {
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

function describeFault(laid: LaidFaults, found: Found): SolvedFault {
  const { pieceOf, shape, one } = laid;
  const { amps, ohms, piece, plus, minus, pair, beyond } = found;
  const { coreEdges, coreA, coreB, coreOf, ports } = shape;
  const volts = voltsDuring(laid, found);
  const flows: EdgeFlow[] = [];
  for (const { edge, atA, atB } of plus.way) flows.push({ edge, atA: amps * atA, atB: amps * atB });
  for (const { edge, atA, atB } of minus.way) flows.push({ edge, atA: -amps * atA, atB: -amps * atB });
  const least = ROUNDING * Math.abs(amps);
  for (let k = 0; k < coreEdges.length; k++) {
    const a = coreA[k] ?? 0;
    if (pieceOf[a] !== piece) continue;
    const e = coreEdges[k] ?? 0;
    const r = one.ohms[e] ?? Infinity;
    if (r === Infinity) continue;
    const through = ((volts[a] ?? 0) - (volts[coreB[k] ?? 0] ?? 0)) / r;
    let atA = through;
    let atB = through;
    // What is drawn within an edge comes from both its ends, by the resistance to each.
    if (plus.within?.edge === e) {
      atA += amps * (1 - plus.within.share);
      atB -= amps * plus.within.share;
    }
    if (minus.within?.edge === e) {
      atA += -amps * (1 - minus.within.share);
      atB -= -amps * minus.within.share;
    }
    if (Math.abs(atA) > least || Math.abs(atB) > least) flows.push({ edge: e, atA, atB });
  }
  const portAmps = (port: { plus: number; minus: number }, own: number, g: number): number =>
    (own - (volts[coreOf[port.plus] ?? 0] ?? 0) + (volts[coreOf[port.minus] ?? 0] ?? 0)) * g;
  const stores: { store: number; amps: number }[] = [];
  ports.stores.forEach((port, s) => {
    const r = one.storeOhms[s] ?? Infinity;
    if (r === Infinity || pieceOf[coreOf[port.plus] ?? 0] !== piece) return;
    stores.push({ store: s, amps: portAmps(port, one.storeVolts[s] ?? 0, 1 / r) });
  });
  const limited: { limited: number; amps: number }[] = [];
  pair.limited.on.forEach((k, i) => {
    const port = ports.limited[k];
    if (port === undefined) return;
    const own = one.limitedVolts[k] ?? 1;
    const pushes = portAmps(port, own, (one.limitedAmps[k] ?? 0) / own) + (beyond[i] ?? 0);
    if (pushes > least) limited.push({ limited: k, amps: pushes });
  });
  return { amps, openVolts: pair.openVolts, ohms, flows, stores, limited };
}
