import { readDeviceFamily, type DeviceFamilyId } from "../../device/index.ts";
import { findPush, type Push } from "../../protect/index.ts";
import type { CircuitModel, PlacedDevice, Settled } from "../../size/index.ts";
import type { Grid, GridEdge, Value } from "../../system/index.ts";
import type { Build, CircuitView } from "../build.ts";

export type EndName = "from" | "to";

/** A device that stands in the way of whoever comes along a circuit. */
export interface Guard {
  /** The end that it stands at, or is measured from. */
  readonly end: EndName;
  /** Metres along the live conductor from that end. */
  readonly metres: Span;
  /** A; null: not known. */
  readonly rating: Span | null;
  readonly family: DeviceFamilyId | null;
  /** Null: a part of its own beside the circuit. */
  readonly placed: PlacedDevice | null;
  /** The part that says more of it. */
  readonly part: string | null;
}

/** Both ends of what a number can be. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

/** A circuit with a live conductor, and what guards it. */
export interface GuardedCircuit {
  readonly view: CircuitView;
  readonly model: CircuitModel;
  readonly node: Readonly<Record<EndName, number>>;
  /** Its live conductor at that end. */
  readonly edge: Readonly<Record<EndName, number>>;
  readonly live: readonly number[];
  /** Metres of its live conductor. */
  readonly metres: Span;
  readonly guards: readonly Guard[];
  /** Whether it has a device at all is not known. */
  readonly untold: boolean;
  /** Joins units of one string. */
  readonly isLink: boolean;
}

/** Where a conductor is fed, when it is followed back to where metal joins. */
export interface FeedingPoint {
  /** Metres of conductor without a device on the way there. */
  readonly metres: Span;
  readonly from: "battery post" | "charging source" | "other source";
  /** The part that it is, for print. */
  readonly part: string;
  /** Whether all of those conductors lie in a sheath. */
  readonly sheathed: boolean | "unknown";
  /** The same of those before the conductor itself; as `sheathed` where there are none. */
  readonly ahead: boolean | "unknown";
  /** A device was met: the metal behind it is guarded. */
  readonly guardedBy: Guard | null;
  /** A circuit on the way there of which it is not known whether it has a device. */
  readonly doubt: GuardedCircuit | null;
}

/** What stands in and around the conductors of a build. */
export interface Guards {
  readonly grid: Grid;
  /** Null where it has no live conductor of direct current. */
  readonly of: (c: CircuitView) => GuardedCircuit | null;
  /**
   * What can push into a node, other than through an edge.
   * @param devices sure: only devices that are known to be there; perhaps: those too that may be
   */
  readonly push: (node: number, without: number, devices: "sure" | "perhaps") => Push;
  /** Sources that no device stands between and a node, those left out that limit themselves. */
  readonly unguardedSources: (node: number, without: number) => readonly string[];
  /** Follows the metal back from an end of a circuit, through parts that only pass it on, to where it is fed. */
  readonly back: (c: GuardedCircuit, end: EndName) => FeedingPoint;
  /** Whether the metal beyond an end is passed on, one conductor after the other, to a device. */
  readonly meetsDeviceBeyond: (c: GuardedCircuit, end: EndName) => boolean;
  /** Whether an end is no source's, and every other conductor there has a device in it. */
  readonly allGuardedBeyond: (c: GuardedCircuit, end: EndName) => boolean;
  /** Circuits of which it is not known whether they have a device. */
  readonly untold: readonly GuardedCircuit[];
  /** Output of a source that is not known: its part. */
  readonly untoldOutput: ReadonlySet<string>;
}

/** A device whose rating is not known lets through no more than this. */
export const UNTOLD_AMPS = 1e9;

const known = new WeakMap<Settled, Guards>();

/** The guards of a build, worked out once for all rules. */
export function guardsOf(build: Build): Guards {
  let guards = known.get(build.settled);
  if (guards === undefined) known.set(build.settled, (guards = findGuards(build)));
  return guards;
}

function findGuards(build: Build): Guards {
  const { grid, trees } = build.settled.model;
  const devices = new Map(build.system.parts.flatMap((p) => (p.device === undefined ? [] : [[p.id, p.device]])));
  const plusAt = new Map(grid.stores.map((s) => [s.plus, s.element.part]));
  const minusAt = new Set(grid.stores.map((s) => s.minus));
  const pushesAt = new Map<number, string>();
  for (const { element, plus } of grid.feeds) pushesAt.set(plus, element.part);
  for (const { element, out } of grid.converters) pushesAt.set(out.plus, element.part);

  /** The only other edge at a node; −1: there is none, or several. */
  const onlyOther = (node: number, edge: number): number => {
    const at = grid.at[node] ?? [];
    if (at.length !== 2) return -1;
    return at[0] === edge ? (at[1] ?? -1) : (at[0] ?? -1);
  };

  /** Devices that are parts of their own, by edge. */
  const partGuards = new Map<number, Guard>();
  if (devices.size > 0) {
    grid.edges.forEach(({ contact }, e) => {
      const device = contact === null ? undefined : devices.get(contact.part);
      if (contact === null || device === undefined) return;
      partGuards.set(e, {
        end: "from",
        metres: NONE,
        rating: device.rating === "unknown" ? null : device.rating,
        family: device.family === undefined ? null : readDeviceFamily(device.family),
        placed: null,
        part: contact.part,
      });
    });
  }

  const isLive = (e: number): boolean => grid.edges[e]?.live === true;
  const circuits = new Map<string, GuardedCircuit>();
  const untold: GuardedCircuit[] = [];
  const ownerOf: (GuardedCircuit | undefined)[] = grid.edges.map(() => undefined);
  const sure = new Map<number, number>();
  const perhaps = new Map<number, number>();
  const put = (map: Map<number, number>, edge: number, amps: number): void => {
    map.set(edge, Math.min(map.get(edge) ?? Infinity, amps));
  };
  for (const [edge, { rating }] of partGuards) {
    put(sure, edge, rating?.high ?? UNTOLD_AMPS);
    put(perhaps, edge, rating?.high ?? UNTOLD_AMPS);
  }

  for (const view of build.circuits) {
    const c = guardedCircuit(view);
    if (c === null) continue;
    circuits.set(view.id, c);
    for (const e of c.live) ownerOf[e] = c;
    for (const g of c.guards) {
      if (g.placed === null) continue;
      const edge = g.placed.way === undefined ? c.edge[g.end] : wayEdge(c.node[g.end]);
      put(sure, edge, g.rating?.high ?? UNTOLD_AMPS);
      put(perhaps, edge, g.rating?.high ?? UNTOLD_AMPS);
    }
    if (c.untold) {
      untold.push(c);
      put(perhaps, c.edge.from, UNTOLD_AMPS);
      put(perhaps, c.edge.to, UNTOLD_AMPS);
    }
  }

  function guardedCircuit(view: CircuitView): GuardedCircuit | null {
    const { model, circuit, devices: own } = view;
    if (model === null) return null;
    const live = model.edges.filter(isLive);
    const first = live[0];
    const last = live.at(-1);
    const a = first === undefined ? undefined : grid.edges[first]?.a;
    const b = last === undefined ? undefined : grid.edges[last]?.b;
    if (first === undefined || last === undefined || a === undefined || b === undefined) return null;
    const guards: Guard[] = [];
    for (const d of own?.devices ?? [])
      guards.push({
        end: d.end,
        metres: d.given === null ? exactly(d.distance) : d.given.distance,
        rating: d.given === null ? (d.rating === null ? null : exactly(d.rating)) : ratingOf(d.given.rating),
        family: d.given !== null && d.given.family === undefined ? null : d.family,
        placed: d,
        part: d.given?.part ?? null,
      });
    const untold = own?.unknown === true && guards.length === 0;
    if (partGuards.size > 0) {
      const put = (guard: Guard | undefined, at: Partial<Guard>): void => {
        if (guard !== undefined) guards.push({ ...guard, ...at });
      };
      put(partGuards.get(onlyOther(a, first)), { end: "from" });
      put(partGuards.get(onlyOther(b, last)), { end: "to" });
      let metres = NONE;
      for (const e of live.slice(0, -1)) {
        metres = plus(metres, lengthOf(view, grid.edges[e]));
        put(partGuards.get(onlyOther(grid.edges[e]?.b ?? -1, e)), { metres });
      }
    }
    const isPost = (n: number): boolean => plusAt.has(n) || minusAt.has(n);
    let metres = NONE;
    for (const k of circuit.conductors) if (k.role === "live") metres = plus(metres, spanOf(k.length));
    return {
      view,
      model,
      node: { from: a, to: b },
      edge: { from: first, to: last },
      live,
      metres,
      guards,
      untold,
      isLink: isPost(a) && isPost(b) && (minusAt.has(a) || minusAt.has(b)),
    };
  }

  function wayEdge(node: number): number {
    return (grid.at[node] ?? []).find((e) => grid.edges[e]?.contact?.way !== undefined) ?? -1;
  }

  const memo = { sure: new Map<number, Push>(), perhaps: new Map<number, Push>() };
  const push: Guards["push"] = (node, without, which) => {
    const ratings = which === "sure" || untold.length === 0 ? sure : perhaps;
    const at = ratings === sure ? memo.sure : memo.perhaps;
    const isLeaf = trees.isTree[without] === 1;
    // A tree holds no source, so nothing comes to the far end of its branches, and to the near ends of all at one node the same.
    if (isLeaf && trees.up[node] === without) return NO_PUSH;
    let found = isLeaf ? at.get(node) : undefined;
    if (found === undefined) {
      found = findPush(grid, trees, node, without, (e) => ratings.get(e));
      if (isLeaf) at.set(node, found);
    }
    return found;
  };

  const isSource = (node: number): boolean => plusAt.has(node) || pushesAt.has(node);

  const back: Guards["back"] = (c, end) => {
    let node = c.node[end];
    let edge = c.edge[end];
    let metres: Span = NONE;
    let sheathed = c.view.circuit.sheathed;
    /** Of the conductors on the way alone. */
    let ahead: boolean | "unknown" | null = null;
    let guardedBy: Guard | null = null;
    let doubt: GuardedCircuit | null = null;
    const start = node;
    while (!isSource(node)) {
      const next = onlyOther(node, edge);
      const found = grid.edges[next];
      if (found === undefined) break;
      const owner = ownerOf[next];
      if (sure.has(next)) {
        guardedBy = partGuards.get(next) ?? owner?.guards[0] ?? NAMELESS;
        break;
      }
      if (owner !== undefined) {
        // A conductor that what stands behind it already guards is where this one begins.
        const behind = push(found.a === node ? found.b : found.a, next, "sure");
        if (behind.amps <= (owner.view.design.ampacityA ?? 0) + 1e-9) {
          guardedBy = NAMELESS;
          break;
        }
        metres = plus(metres, lengthOf(owner.view, found));
        ahead = both(ahead ?? true, owner.view.circuit.sheathed);
        if (owner.untold) doubt ??= owner;
        sheathed = both(sheathed, owner.view.circuit.sheathed);
      }
      const came = node;
      node = found.a === node ? found.b : found.a;
      edge = next;
      // Two conductors stand at each node of the way, so a ring can close only where it began.
      if (node === came || node === start) break;
    }
    // What is guarded already counts for nothing: the conductor is fed where it begins.
    if (guardedBy !== null) return atOnce(nameOf(grid, start), c.view.circuit.sheathed, guardedBy);
    const part = plusAt.get(node) ?? pushesAt.get(node) ?? nameOf(grid, node);
    const from = plusAt.has(node) ? "battery post" : pushesAt.has(node) ? "charging source" : "other source";
    return { metres, from, part, sheathed, ahead: ahead ?? sheathed, guardedBy, doubt };
  };

  const meetsDeviceBeyond: Guards["meetsDeviceBeyond"] = (c, end) => {
    let node = c.node[end];
    let edge = c.edge[end];
    for (let step = 0; step <= grid.edges.length && !isSource(node); step++) {
      const next = onlyOther(node, edge);
      const found = grid.edges[next];
      if (found === undefined) return false;
      if (sure.has(next)) return true;
      node = found.a === node ? found.b : found.a;
      edge = next;
    }
    return false;
  };

  const allGuardedBeyond: Guards["allGuardedBeyond"] = (c, end) =>
    !isSource(c.node[end]) && (grid.at[c.node[end]] ?? []).every((e) => e === c.edge[end] || sure.has(e));

  const unguardedSources: Guards["unguardedSources"] = (node, without) => {
    const { sources, limited } = push(node, without, "sure");
    const seen = new Set([node]);
    for (const n of seen) {
      for (const e of grid.at[n] ?? []) {
        const edge = grid.edges[e];
        if (edge !== undefined && e !== without && !sure.has(e)) seen.add(edge.a === n ? edge.b : edge.a);
      }
    }
    const met = new Set([...seen].flatMap((n) => [plusAt.get(n) ?? [], pushesAt.get(n) ?? []].flat()));
    return [...new Set(sources)].filter((s) => met.has(s) && !limited.includes(s));
  };

  const untoldOutput = new Set([
    ...grid.feeds.flatMap(({ element }) => (element.amps.origin === "unknown" ? [element.part] : [])),
    ...grid.converters.flatMap(({ element }) => (element.amps.origin === "unknown" ? [element.part] : [])),
  ]);
  return {
    grid,
    of: (c) => circuits.get(c.id) ?? null,
    push,
    unguardedSources,
    back,
    meetsDeviceBeyond,
    allGuardedBeyond,
    untold,
    untoldOutput,
  };
}

const NONE: Span = { low: 0, high: 0 };
const NAMELESS: Guard = { end: "from", metres: NONE, rating: null, family: null, placed: null, part: null };
const NO_PUSH: Push = { amps: 0, leastAmps: 0, sources: [], unsure: [], limited: [] };

const exactly = (x: number): Span => ({ low: x, high: x });
const plus = (a: Span, b: Span): Span => ({ low: a.low + b.low, high: a.high + b.high });
const ratingOf = (v: Value | "unknown"): Span | null => (v === "unknown" ? null : v);

/** A length that is not known is at least the straight way, and has no end. */
const spanOf = (v: Value): Span => (v.origin === "unknown" ? { low: v.low, high: Infinity } : v);

function lengthOf({ circuit }: CircuitView, edge: GridEdge | undefined): Span {
  const conductor = circuit.conductors[edge?.conductor ?? -1];
  return conductor === undefined ? NONE : spanOf(conductor.length);
}

const both = (a: boolean | "unknown", b: boolean | "unknown"): boolean | "unknown" =>
  a === false || b === false ? false : a === "unknown" || b === "unknown" ? "unknown" : true;

const atOnce = (part: string, sheathed: boolean | "unknown", guardedBy: Guard): FeedingPoint => ({
  metres: NONE,
  from: "other source",
  part,
  sheathed,
  ahead: sheathed,
  guardedBy,
  doubt: null,
});

/** The part that a node belongs to. */
const nameOf = (grid: Grid, node: number): string => partOfTerminal(grid.nodeNames[node] ?? "");

/** A terminal is named after its part: `BP:pole`, `PNL:3:+`. */
export function partOfTerminal(terminal: string): string {
  const colon = terminal.indexOf(":");
  return colon < 0 ? terminal : terminal.slice(0, colon);
}
