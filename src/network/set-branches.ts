import { LAW, makeCircuit, type Circuit } from "./circuit.ts";
import { rankReferences, type ReferenceWish } from "./find-islands.ts";
import { joinNodes, type Joined } from "./join-nodes.ts";
import { DEMAND, KIND, type DcValues, type Table } from "./read-network.ts";
import { prepareLdlt } from "./sparse-ldlt.ts";

/**
 * From elements to branches: joining what is one node, laying out the matrix, and giving each branch its law and
 * numbers.
 *
 * Branch e is element e (of a converter: its input); branch elementCount + k is the output of the k-th converter.
 */

/** Below this resistance two nodes are one, and no source counts as stiffer, Ω: 100 µV at 1000 A. */
export const LEAST_OHMS = 1e-7;
/** A source that can push less than this pushes nothing, A. */
const LEAST_AMPS = 1e-9;
/** Sources below these volts say nothing about what is small, V. */
const LEAST_VOLTS = 1e-6;
/** A source without a resistance of its own loses this part of its volts over its whole range. */
const STIFF = 1e-6;
/**
 * Conductance that keeps a source at its limit in the matrix: this part of its own, or of its amps ÷ the greatest
 * volts, …
 */
const STAY = 1e-6;
/** … but enough not to drown in the rounding of the greatest conductance of all. */
const ROUNDING = 1e-13;

/** What stays as long as the same resistors are 0 Ω. */
export interface Shape {
  /** By element: 1 = a resistor that joins its two nodes. */
  readonly isJoin: Uint8Array;
  readonly joined: Joined;
  /** By join: its element. */
  readonly joinElement: Int32Array;
  readonly joinFrom: Int32Array;
  readonly circuit: Circuit;
  readonly wish: ReferenceWish;
}

/** Marks the resistors that join; true if that is not as it was. */
export function findJoins(t: Table, values: DcValues, usable: Uint8Array, isJoin: Uint8Array): boolean {
  let changed = false;
  for (let e = 0; e < t.elementCount; e++) {
    const join = t.kind[e] === KIND.resistor && usable[e] === 1 && (values.ohms[e] ?? 0) < LEAST_OHMS ? 1 : 0;
    if (join === isJoin[e]) continue;
    isJoin[e] = join;
    changed = true;
  }
  return changed;
}

export function makeShape(t: Table, isJoin: Uint8Array): Shape {
  const joinElement = Int32Array.from(t.ids.keys()).filter((e) => isJoin[e] === 1);
  const joinFrom = joinElement.map((e) => t.plus[e] ?? 0);
  const joined = joinNodes(
    t.nodes.length,
    joinFrom,
    joinElement.map((e) => t.minus[e] ?? 0),
  );
  const become = (nodes: Int32Array) => nodes.map((i) => joined.of[i] ?? 0);
  const both = (elements: Int32Array, outs: Int32Array) => {
    const all = new Int32Array(elements.length + outs.length);
    all.set(become(elements));
    all.set(become(outs), elements.length);
    return all;
  };
  const plus = both(t.plus, t.outPlus);
  const minus = both(t.minus, t.outMinus);
  const circuit = makeCircuit(joined.count, plus, minus, prepareLdlt(joined.count, plus, minus));

  const names = new Array<string>(joined.count);
  t.nodes.forEach((name, i) => {
    const j = joined.of[i] ?? 0;
    const before = names[j];
    if (before === undefined || name < before) names[j] = name;
  });
  const ends = (kind: number, of: Int32Array) =>
    Array.from(t.ids.keys())
      .filter((e) => t.kind[e] === kind)
      .map((e) => of[e] ?? 0);
  const wish = rankReferences(
    names,
    ends(KIND.store, plus),
    ends(KIND.store, minus),
    ends(KIND.feed, minus),
    Array.from(become(t.outMinus)),
    t.ground < 0 ? -1 : (joined.of[t.ground] ?? -1),
  );
  return { isJoin: isJoin.slice(), joined, joinElement, joinFrom, circuit, wish };
}

/**
 * Gives each branch its law and its numbers; what is left to the converters (`LAW.watts` of their inputs) starts at
 * nothing.
 */
export function setBranches(t: Table, shape: Shape, values: DcValues, usable: Uint8Array): void {
  const c = shape.circuit;
  const m = t.elementCount;
  let scale = 0;
  for (let e = 0; e < m; e++) {
    const kind = t.kind[e];
    if (usable[e] === 1 && kind !== KIND.resistor && kind !== KIND.draw) scale = Math.max(scale, values.volts[e] ?? 0);
  }
  c.voltScale = scale > LEAST_VOLTS ? scale : 1;

  for (let e = 0; e < m; e++) {
    const ohms = Math.max(values.ohms[e] ?? 0, LEAST_OHMS);
    c.on[e] = shape.isJoin[e] === 1 ? 0 : (usable[e] ?? 0);
    c.volts[e] = 0;
    c.fade[e] = 0;
    c.amps[e] = Infinity;
    c.watts[e] = Infinity;
    c.stay[e] = 0;
    switch (t.kind[e]) {
      case KIND.resistor:
        c.law[e] = LAW.linear;
        c.siemens[e] = 1 / ohms;
        break;
      case KIND.store:
        c.law[e] = LAW.linear;
        c.siemens[e] = 1 / ohms;
        c.volts[e] = values.volts[e] ?? 0;
        break;
      case KIND.feed:
        setFeed(c, e, values.volts[e] ?? 0, values.amps[e] ?? 0, values.ohms[e] ?? 0);
        if (!canPush(c, e)) c.on[e] = 0;
        break;
      case KIND.draw: {
        const demand = values.demand[e] ?? 0;
        const law = t.demandKind[e];
        c.law[e] = law === DEMAND.amps ? LAW.amps : law === DEMAND.watts ? LAW.watts : LAW.linear;
        if (law === DEMAND.ohms) c.siemens[e] = 1 / Math.max(demand, LEAST_OHMS);
        else if (law === DEMAND.amps) c.amps[e] = demand;
        else c.watts[e] = demand;
        break;
      }
      case KIND.converter:
        c.law[e] = LAW.watts;
        c.watts[e] = 0;
        break;
      default:
        c.law[e] = LAW.linear;
    }
  }
  t.converters.forEach((e, k) => {
    const out = m + k;
    setFeed(c, out, values.volts[e] ?? 0, values.amps[e] ?? 0, 0);
    c.on[out] = usable[e] === 1 && canPush(c, out) ? 1 : 0;
  });
  let greatest = 0;
  for (let b = 0; b < c.branchCount; b++) {
    if (c.on[b] === 1 && c.law[b] !== LAW.amps && c.law[b] !== LAW.watts)
      greatest = Math.max(greatest, c.siemens[b] ?? 0);
  }
  for (let b = 0; b < c.branchCount; b++) {
    if (c.law[b] === LAW.feed) c.stay[b] = Math.max(c.stay[b] ?? 0, ROUNDING * greatest);
  }
}

/** Whether a feed can push at all. */
export function canPush(c: Circuit, b: number): boolean {
  return (c.amps[b] ?? 0) >= LEAST_AMPS;
}

function setFeed(c: Circuit, b: number, volts: number, amps: number, ohms: number): void {
  c.law[b] = LAW.feed;
  c.volts[b] = volts;
  c.amps[b] = amps;
  c.watts[b] = Infinity;
  c.siemens[b] = 1 / Math.max(ohms > 0 ? ohms : (STIFF * volts) / amps, LEAST_OHMS);
  c.stay[b] = STAY * Math.min(c.siemens[b] ?? 0, amps / c.voltScale);
}
