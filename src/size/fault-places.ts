import type { FaultPlace } from "../fault/index.ts";
import type { EdgeOhms } from "./cold-edges.ts";
import type { CircuitModel, Model } from "./model.ts";

/** A place within a live conductor, behind the devices of one of its ends, and what it is shorted to. */
export interface EndPlace {
  readonly c: CircuitModel;
  readonly edge: number;
  readonly end: "from" | "to";
  readonly against: number;
  readonly to: "return" | "structure";
}

/** Pieces of a run that are studied from each of its ends. */
export const MOST_PIECES = 40;

/** Every place at which a fault is studied: both ends of every live conductor, to the other pole and to the structure where there is one. */
export function endPlaces(model: Model): EndPlace[] {
  const { grid, system } = model;
  const against = otherPoles(model);
  const known = landedTerminals(model);
  const body = system.parts.flatMap((p) => {
    const node = p.traits.structure === true ? known.get(`${p.id}:pole`) : undefined;
    return node === undefined ? [] : [node];
  });
  const places: EndPlace[] = [];
  for (const c of model.circuits) {
    const live = c.edges.filter((e) => grid.edges[e]?.live === true);
    const back = backOf(model, c);
    live.forEach((edge, i) => {
      // Of a run in very many pieces those near its ends bound the others.
      if (i >= MOST_PIECES && i < live.length - MOST_PIECES) return;
      const own = back[Math.min(i, back.length - 1)];
      for (const end of ["from", "to"] as const) {
        const side = end === "from" ? "a" : "b";
        const node = own?.[side] ?? against[grid.edges[edge]?.[side] ?? -1] ?? -1;
        if (node < 0) continue;
        places.push({ c, edge, end, against: node, to: "return" });
        for (const b of body) if (b !== node) places.push({ c, edge, end, against: b, to: "structure" });
      }
    });
  }
  return places;
}

/** The two ends of a return. */
interface Way {
  readonly a: number;
  readonly b: number;
}

/** The returns that come with a circuit, each with its ends as those of the live conductor stand: of its own, or those of the circuit that brings its current back. */
function backOf({ grid, circuits }: Model, c: CircuitModel): readonly Way[] {
  const waysOf = (edges: readonly number[]): Way[] =>
    edges.flatMap((e) => (grid.edges[e]?.live === false ? (grid.edges[e] ?? []) : []));
  const own = waysOf(c.edges);
  const other = own.length > 0 || c.back < 0 ? undefined : circuits[c.back];
  if (other === undefined) return own;
  const { from, to } = other.circuit;
  const turned = from.part === c.circuit.to.part || to.part === c.circuit.from.part;
  const ways = waysOf(other.edges);
  return turned ? ways.map(({ a, b }) => ({ a: b, b: a })).reverse() : ways;
}

/** The place in a case: its share of the edge's resistance is that of the joint and the devices at its end. */
export function placeIn({ edge, end, against }: EndPlace, ohms: EdgeOhms): FaultPlace {
  const all = ohms.all[edge] ?? 1;
  const before = (end === "from" ? ohms.beforeA : ohms.beforeB)[edge] ?? 0;
  const share = Math.min(1, before / all);
  return { plus: { edge, share: end === "from" ? share : 1 - share }, minus: { node: against } };
}

const others = new WeakMap<Model, Int32Array>();

/**
 * By node of the plus side: the node of the other pole that stands beside it. Of a source, a load or a converter its own; else the end of the return that comes with the
 * conductor; else where the returns of its system go. −1: it is of the other pole itself.
 */
export function otherPoles(model: Model): Int32Array {
  let found = others.get(model);
  if (found === undefined) others.set(model, (found = findOthers(model)));
  return found;
}

function findOthers(model: Model): Int32Array {
  const { grid, circuits, system } = model;
  const known = landedTerminals(model);
  const other = new Int32Array(grid.nodeCount).fill(-1);
  const put = (plus: number, minus: number): void => {
    if (plus !== minus && plus >= 0) other[plus] = minus;
  };
  const returnOf = new Map(system.supplies.map((s) => [s.id, nodeOfReturn(known, s.returnPart)]));
  const fallback = grid.stores[0]?.minus ?? -1;
  const live = new Set<number>();
  for (const c of circuits) {
    const common = returnOf.get(c.supply?.id ?? "") ?? -1;
    for (const e of c.edges) {
      const edge = grid.edges[e];
      if (edge?.live !== true) continue;
      for (const n of [edge.a, edge.b]) {
        live.add(n);
        put(n, common >= 0 ? common : fallback);
      }
    }
  }
  // What hangs between two contacts is of the pole that they are of.
  for (let again = true; again;) {
    again = false;
    for (const { a, b, contact } of grid.edges) {
      if (contact === null) continue;
      for (const [from, to] of [
        [a, b],
        [b, a],
      ] as const) {
        if (!live.has(from) || live.has(to)) continue;
        live.add(to);
        put(to, other[from] ?? -1);
        again = true;
      }
    }
  }
  for (const c of circuits) {
    const lives = c.edges.filter((e) => grid.edges[e]?.live === true);
    const back = backOf(model, c);
    lives.forEach((e, i) => {
      const [edge, way] = [grid.edges[e], back[Math.min(i, back.length - 1)]];
      if (edge === undefined || way === undefined) return;
      put(edge.a, way.a);
      put(edge.b, way.b);
    });
  }
  for (const { plus, minus } of grid.draws) put(plus, minus);
  for (const { in: input, out } of grid.converters) {
    if (input !== null) put(input.plus, input.minus);
    put(out.plus, out.minus);
  }
  for (const { plus, minus } of grid.feeds) put(plus, minus);
  for (const { plus, minus } of grid.stores) put(plus, minus);
  return other;
}

/** Nodes by the terminals on which something lands; a terminal that nothing lands on is no node. */
function landedTerminals({ grid, circuits }: Model): ReadonlyMap<string, number> {
  const known = new Map<string, number>();
  const add = (terminal: string): void => void known.set(terminal, grid.nodeOf(terminal));
  for (const c of circuits)
    for (const e of c.edges) {
      const conductor = c.circuit.conductors[grid.edges[e]?.conductor ?? -1];
      if (conductor !== undefined) {
        add(conductor.from);
        add(conductor.to);
      }
    }
  for (const { contact } of grid.edges)
    if (contact !== null) {
      add(contact.a);
      add(contact.b);
    }
  for (const { element } of grid.stores) add(element.minus);
  return known;
}

/** Where the returns of a system go; −1: nothing lands there. */
const nodeOfReturn = (known: ReadonlyMap<string, number>, part: string | undefined): number =>
  known.get(`${part ?? ""}:pole`) ?? known.get(`${part ?? ""}:−`) ?? -1;
