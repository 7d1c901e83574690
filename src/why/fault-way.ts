import { deviceResistance } from "../device/index.ts";
import { solveFault, type LaidFaults, type SolvedFault } from "../fault/index.ts";
import { layCases, type FaultCases } from "../size/fault-cases.ts";
import { listDevices } from "../size/fault-devices.ts";
import type { EdgeOhms } from "../size/cold-edges.ts";
import { faultEdges, type FaultEdges } from "../size/fault-edges.ts";
import { endPlaces, placeIn, type EndPlace } from "../size/fault-places.ts";
import type { FaultDevice } from "../size/fault-study.ts";
import type { Settled } from "../size/index.ts";
import type { WayElement } from "./explanation.ts";

/** All that the faults of a build are solved with, laid once. */
export interface FaultsLaid {
  readonly devices: readonly FaultDevice[];
  readonly edges: FaultEdges;
  readonly cases: FaultCases;
  readonly places: readonly EndPlace[];
}

const known = new WeakMap<Settled, FaultsLaid>();

/** Lays the faults of a build as the study does. */
export function faultsLaid(settled: Settled): FaultsLaid {
  let laid = known.get(settled);
  if (laid === undefined) {
    const devices = listDevices(settled);
    const edges = faultEdges(settled, devices);
    laid = { devices, edges, cases: layCases(settled, edges), places: endPlaces(settled.model) };
    known.set(settled, laid);
  }
  return laid;
}

/** A fault with every element between one of its batteries and the short, out and back. */
export interface FaultWay {
  readonly fault: SolvedFault;
  /** The battery from which the way is told: the one that pushes most. */
  readonly store: number;
  /** Its volts while nothing is drawn: what is lost in all elements together. */
  readonly volts: number;
  /** Empty where it stands in a string. */
  readonly elements: readonly WayElement[];
}

/** Below this a part of an edge is no element. */
const NO_OHMS = 1e-9;

/**
 * Solves a short and walks from its strongest battery to it and back. The drops along any way add up to the volts of the battery, since a dead short leaves none.
 *
 * @param ohms resistances that the case was laid with
 * @returns null where no battery pushes
 */
export function faultWay(
  { model }: Settled,
  { devices }: FaultsLaid,
  place: EndPlace,
  laid: LaidFaults,
  ohms: EdgeOhms,
  isCold: boolean,
): FaultWay | null {
  const { grid } = model;
  const fault = solveFault(laid, placeIn(place, ohms));
  const strongest = fault.stores.reduce<{ store: number; amps: number } | null>(
    (a, b) => (a === null || b.amps > a.amps + 1e-9 ? b : a),
    null,
  );
  const source = grid.stores[strongest?.store ?? -1];
  if (strongest === null || source === undefined || !(strongest.amps > 0)) return null;
  const inside = laid.one.storeOhms[strongest.store] ?? 0;
  const volts = laid.one.storeVolts[strongest.store] ?? 0;
  const flows = new Map(fault.flows.map((f) => [f.edge, f]));

  /** What an edge is made of from one end: what stands before the wire there, the wire, what stands behind it. */
  const elementsOf = (
    e: number,
    fromA: boolean,
    amps: number,
    pole: WayElement["pole"],
    upTo: "end" | "short",
  ): WayElement[] => {
    const edge = grid.edges[e];
    if (edge === undefined) return [];
    const all = ohms.all[e] ?? 0;
    const [near, far] = fromA ? ([ohms.beforeA, "a"] as const) : ([ohms.beforeB, "b"] as const);
    const element = (what: WayElement["what"], part: number): WayElement[] =>
      part < NO_OHMS ? [] : [{ element: edge.id, what, pole, amps, ohms: part, volts: amps * part }];
    const deviceAt = (at: "a" | "b"): number =>
      devices.reduce((sum, d) => {
        if (d.edge !== e || d.at !== at || d.family === null || d.rating === null) return sum;
        return sum + (deviceResistance(d.family, d.rating)[isCold ? "cold" : "hot"] ?? 0);
      }, 0);
    const before = near[e] ?? 0;
    const nearDevice = deviceAt(far);
    const start = [...element("joints", before - nearDevice), ...element("device", nearDevice)];
    if (edge.contact !== null) return [...element("contact", all - before), ...start];
    const shortIsNear = (place.end === "from") === fromA;
    if (upTo === "short" && shortIsNear) return start;
    const other = fromA ? (ohms.beforeB[e] ?? 0) : (ohms.beforeA[e] ?? 0);
    const wire = element("wire", all - before - other);
    if (upTo === "short") return [...start, ...wire];
    const otherDevice = deviceAt(fromA ? "b" : "a");
    return [...start, ...wire, ...element("device", otherDevice), ...element("joints", other - otherDevice)];
  };

  /** Edges from a node to any of some others, the fewest first. */
  const walk = (from: number, to: readonly number[], without: number): number[] | null => {
    const came = new Map<number, number>([[from, -1]]);
    const queue = [from];
    let end = to.includes(from) ? from : -1;
    for (let i = 0; i < queue.length && end < 0; i++) {
      const n = queue[i] ?? 0;
      for (const e of grid.at[n] ?? []) {
        const edge = grid.edges[e];
        if (edge === undefined || e === without || !Number.isFinite(laid.one.ohms[e] ?? Infinity)) continue;
        const next = edge.a === n ? edge.b : edge.a;
        if (came.has(next)) continue;
        came.set(next, e);
        if (to.includes(next)) {
          end = next;
          break;
        }
        queue.push(next);
      }
    }
    if (end < 0) return null;
    const edges: number[] = [];
    for (let n = end; n !== from;) {
      const e = came.get(n) ?? -1;
      const edge = grid.edges[e];
      if (edge === undefined) return null;
      edges.push(e);
      n = edge.a === n ? edge.b : edge.a;
    }
    return edges.reverse();
  };
  const along = (
    from: number,
    edges: readonly number[],
    pole: WayElement["pole"],
  ): { at: number; list: WayElement[] } => {
    let at = from;
    const list: WayElement[] = [];
    for (const e of edges) {
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      const fromA = edge.a === at;
      const flow = flows.get(e)?.atA ?? 0;
      list.push(...elementsOf(e, fromA, fromA ? flow : -flow, pole, "end"));
      at = fromA ? edge.b : edge.a;
    }
    return { at, list };
  };
  const last = grid.edges[place.edge];
  const out = last === undefined ? null : walk(source.plus, [last.a, last.b], place.edge);
  const back = walk(place.against, [source.minus], place.edge);
  const none = { fault, store: strongest.store, volts, elements: [] };
  if (last === undefined || out === null || back === null) return none;
  const there = along(source.plus, out, "out");
  const fromA = there.at === last.a;
  const flow = flows.get(place.edge);
  const amps = fromA ? (flow?.atA ?? 0) : -(flow?.atB ?? 0);
  const elements: WayElement[] = [
    {
      element: source.element.part,
      what: "source",
      pole: "out",
      amps: strongest.amps,
      ohms: inside,
      volts: strongest.amps * inside,
    },
    ...there.list,
    ...elementsOf(place.edge, fromA, amps, "out", "short"),
    ...along(place.against, back, "back").list,
  ];
  return { ...none, elements };
}
