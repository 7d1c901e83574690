import type { Plan } from "../../plan/index.ts";
import type { Design } from "../../size/index.ts";
import type { System } from "../../system/index.ts";
import { viewParts, type PartView } from "./part-view.ts";
import { viewWires, type WireView } from "./wire-view.ts";

/** A point of the one-line where wires meet: a bar, a part, or one side of a part that sits in the line. */
export interface Vertex {
  readonly key: string;
  readonly part: PartView;
  /** Bar of a panel or section of a box; empty: the only one. */
  readonly bar: string;
  /** One side of a switch and the like: only a point, the symbol stands on the edge through it. */
  readonly side: boolean;
  readonly edges: Edge[];
}

/** A wire between two vertices, or the inside of a part that sits in the line. */
export interface Edge {
  readonly from: Vertex;
  readonly to: Vertex;
  readonly wire: WireView | null;
  /** The part whose inside it is. */
  readonly through: PartView | null;
  /** Alternating current at a converter: never a branch of the tree that the converter stands in. */
  readonly boundary: boolean;
}

export interface Graph {
  readonly vertices: readonly Vertex[];
  readonly edges: readonly Edge[];
  readonly parts: ReadonlyMap<string, PartView>;
  readonly wires: readonly WireView[];
  /** Wires that carry no current out: links of negatives, earth leads. */
  readonly returns: readonly WireView[];
}

/**
 * What a one-line is drawn of, as a graph in the order of the plan.
 *
 * @param unknown symbol of a part whose kind is not known
 */
export function readGraph(plan: Plan, system: System, design: Design, unknown = "unknown"): Graph {
  const parts = viewParts(plan, system, unknown);
  const wires = viewWires(system, design);
  const vertices = new Map<string, Vertex>();
  const edges: Edge[] = [];

  const inSeries = seriesStores(wires, parts);

  const vertexOf = ({ part: id, port: given }: WireView["from"], sign: string): Vertex | null => {
    const part = parts.get(id);
    if (part === undefined) return null;
    const side = part.is === "through" || inSeries.has(id);
    const port = inSeries.has(id) ? (sign === "−" ? "in" : "out") : given;
    const bar =
      part.is === "panel"
        ? (part.barOfWay[port] ?? (port === "" ? "in" : port))
        : part.is === "bar" && !part.structure
          ? port
          : "";
    const key = side ? `${id}|${port}` : `${id}|${bar}`;
    const known = vertices.get(key);
    if (known !== undefined) return known;
    const vertex: Vertex = { key, part, bar, side, edges: [] };
    vertices.set(key, vertex);
    return vertex;
  };
  const join = (edge: Edge): void => {
    edges.push(edge);
    edge.from.edges.push(edge);
    edge.to.edges.push(edge);
  };

  for (const wire of wires) {
    if (!wire.live) continue;
    const [from, to] = [vertexOf(wire.from, wire.fromSign), vertexOf(wire.to, wire.toSign)];
    if (from === null || to === null) continue;
    const boundary = wire.current === "AC" && [from, to].some(({ part }) => part.is === "converter");
    join({ from, to, wire, through: null, boundary });
  }
  for (const part of parts.values()) {
    if (part.is !== "through" && !inSeries.has(part.id)) continue;
    const [a, b] = [vertices.get(`${part.id}|in`), vertices.get(`${part.id}|out`)];
    if (a !== undefined && b !== undefined) join({ from: a, to: b, wire: null, through: part, boundary: false });
  }
  // A load that hangs on a converter alone stays with it.
  const settled = edges.map((edge) => {
    const far = edge.from.part.is === "converter" ? edge.to : edge.from;
    return edge.boundary && far.edges.length === 1 && far.part.is === "load" ? { ...edge, boundary: false } : edge;
  });
  const again = new Map(edges.map((edge, i) => [edge, settled[i] ?? edge]));
  for (const vertex of vertices.values())
    vertex.edges.splice(0, Infinity, ...vertex.edges.map((e) => again.get(e) ?? e));
  return {
    vertices: [...vertices.values()],
    edges: settled,
    parts,
    wires,
    returns: wires.filter(({ live }) => !live),
  };
}

/** Batteries in series with others: what comes to their minus carries current out as well, so they stand in the line as a switch does. */
function seriesStores(wires: readonly WireView[], parts: ReadonlyMap<string, PartView>): Set<string> {
  const ends = wires
    .filter(({ live }) => live)
    .flatMap((w) => [{ id: w.from.part, sign: w.fromSign }, { id: w.to.part, sign: w.toSign }]); // prettier-ignore
  const plus = new Set(ends.filter(({ sign }) => sign !== "−").map(({ id }) => id));
  const both = ends.filter(({ id, sign }) => sign === "−" && plus.has(id) && parts.get(id)?.is === "store");
  return new Set(both.map(({ id }) => id));
}

export const otherEnd = (edge: Edge, vertex: Vertex): Vertex => (edge.from === vertex ? edge.to : edge.from);
