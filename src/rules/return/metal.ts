import type { Conductor, GridEdge } from "../../system/index.ts";
import { disjointSets, joinedPieces } from "../battery/pieces.ts";
import type { Build, CircuitView } from "../build.ts";
import { factsOf, saysWord, saysYes } from "../stated.ts";
import { joinTerminals } from "./join-terminals.ts";

/** A path in the metal that brings current back, or that bonds. */
export interface MetalEdge {
  readonly id: string;
  readonly a: number;
  readonly b: number;
  /** return: it may carry what loads take · contact: inside a part · bond: protective or bonding, carries nothing · blocker: stops small direct currents */
  readonly is: "return" | "contact" | "bond" | "blocker";
  readonly view: CircuitView | undefined;
  readonly conductor: Conductor | undefined;
  /** Of a contact. */
  readonly part: string | null;
  /** Edge of the grid; −1: alternating circuits and their protective conductors are none of it. */
  readonly grid: number;
}

/** The metal of the returns and of all that is earthed or bonded, as one graph. Below `grid.nodeCount` its nodes are those of the grid. */
export interface Metal {
  readonly nodeCount: number;
  readonly edges: readonly MetalEdge[];
  /** Edges at each node. */
  readonly at: readonly (readonly number[])[];
  /** Node of a terminal; −1: nothing of this metal is there. */
  readonly nodeOf: (terminal: string) => number;
  /** Node that stands for one of the grid: parts whose minus is joined to their case make one of two. */
  readonly standsFor: (gridNode: number) => number;
  /** By node: 1 where a minus lands and no plus. */
  readonly isReturn: Uint8Array;
  /** By node: 1 where it is a protective terminal, an electrode or a structure. */
  readonly isEarth: Uint8Array;
  /** Structures of the plan, and their nodes: joints and body. */
  readonly structures: ReadonlyMap<string, ReadonlySet<number>>;
  /** Nodes of the cases of parts. */
  readonly caseOf: (part: string) => number;
}

const found = new WeakMap<Build["settled"], Metal>();

/** Lays the returns and the bonding out, once for all rules. */
export function metalOf(build: Build): Metal {
  let metal = found.get(build.settled);
  if (metal === undefined) found.set(build.settled, (metal = layMetal(build)));
  return metal;
}

function layMetal(build: Build): Metal {
  const { grid, system } = build.settled.model;
  const { edges: gridEdges, nodeCount: gridNodes } = grid;
  const viewAt = new Map(system.circuits.map((c, i) => [i, build.circuit(c.id)]));
  const bonds: { view: CircuitView | undefined; conductor: Conductor }[] = [];
  for (const view of build.circuits) {
    if (view.model !== null) continue;
    for (const conductor of view.circuit.conductors)
      // A bond from a terminal that is named outright, `B1:−`, is one all the same.
      if ((conductor.role === "protective" || conductor.fn === "−") && !joinsNeutral(conductor))
        bonds.push({ view, conductor });
  }
  const joined = joinTerminals(build, bonds);
  const { nodeOf, standsFor } = joined;
  const edges: MetalEdge[] = [];
  const isReturn = findReturns(build);
  const inReturn = (n: number): boolean => isReturn[n] === 1;
  gridEdges.forEach((edge, e) => {
    const own = ofGrid(edge);
    const isBond = own.conductor?.role === "protective" && !joinsNeutral(own.conductor);
    const isStructure = edge.contact !== null && build.part(edge.contact.part)?.part.traits.structure === true;
    if (!isBond && !isStructure && !(inReturn(edge.a) && inReturn(edge.b))) return;
    if (own.conductor?.role === "protective" && !isBond) return;
    edges.push({
      id: edge.id,
      a: standsFor(edge.a),
      b: standsFor(edge.b),
      is: isBond ? "bond" : edge.contact === null ? "return" : "contact",
      ...own,
      part: edge.contact?.part ?? null,
      grid: e,
    });
  });
  for (const { view, conductor } of bonds)
    edges.push({
      id: conductor.id,
      a: nodeOf(conductor.from),
      b: nodeOf(conductor.to),
      is: "bond",
      view,
      conductor,
      part: null,
      grid: -1,
    });
  for (const { part, a, b, id } of joined.blockers)
    edges.push({ id, a, b, is: "blocker", view: undefined, conductor: undefined, part, grid: -1 });

  function ofGrid({ circuit, conductor }: GridEdge): Pick<MetalEdge, "view" | "conductor"> {
    const view = circuit < 0 ? undefined : viewAt.get(circuit);
    return { view, conductor: view?.circuit.conductors[conductor] };
  }

  const nodeCount = joined.count();
  const at: number[][] = Array.from({ length: nodeCount }, () => []);
  edges.forEach(({ a, b }, e) => {
    if (a === b) return;
    at[a]?.push(e);
    at[b]?.push(e);
  });
  const returns = new Uint8Array(nodeCount);
  for (let n = 0; n < gridNodes; n++) if (inReturn(n)) returns[standsFor(n)] = 1;
  const isEarth = new Uint8Array(nodeCount);
  for (const n of joined.earthNodes()) isEarth[n] = 1;
  for (const { is, a, b } of edges) if (is === "bond") for (const n of [a, b]) if (returns[n] === 0) isEarth[n] = 1;
  const structures = new Map<string, Set<number>>();
  for (const { id, part } of build.parts) {
    if (part.traits.structure !== true && part.traits.electrode !== true) continue;
    const own = new Set([nodeOf(`${id}:pole`)].filter((n) => n >= 0));
    for (const { a, b, part: p } of edges) if (p === id) for (const n of [a, b]) own.add(n);
    for (const n of own) isEarth[n] = 1;
    if (part.traits.structure === true) structures.set(id, own);
  }
  return {
    nodeCount,
    edges,
    at,
    nodeOf,
    standsFor,
    isReturn: returns,
    isEarth,
    structures,
    caseOf: joined.caseOf,
  };
}

/** Where neutral meets the protective conductor: no bond of cases. */
const joinsNeutral = ({ from, to }: Conductor): boolean => /:(N|L\d?)$/.test(from) || /:(N|L\d?)$/.test(to);

/** By node of the grid: 1 where its piece of metal, every contact closed, has a minus on it and no plus. */
function findReturns({ settled }: Build): Uint8Array {
  const { grid } = settled.model;
  const pieces = joinedPieces(settled);
  const plus = new Set<number>();
  const minus = new Set<number>();
  const look = (port: { readonly plus: number; readonly minus: number } | null): void => {
    if (port === null) return;
    plus.add(pieces[port.plus] ?? -1);
    minus.add(pieces[port.minus] ?? -1);
  };
  for (const list of [grid.stores, grid.feeds, grid.draws]) for (const port of list) look(port);
  for (const { in: input, out } of grid.converters) for (const port of [input, out]) look(port);
  return Uint8Array.from(pieces, (piece) => (minus.has(piece) && !plus.has(piece) ? 1 : 0));
}

/** Nodes that metal holds together, by number of the node that stands for all; whichever edges are let through. */
export function metalPieces(metal: Metal, lets: (edge: MetalEdge) => boolean): Int32Array {
  const sets = disjointSets(metal.nodeCount);
  for (const edge of metal.edges) if (lets(edge)) sets.unite(edge.a, edge.b);
  return sets.roots();
}

/** What the case of a part is, and whether it is bonded; undefined: nothing is said. */
export const caseIs = (build: Build, part: string): "metal" | "insulated" | "unknown" | undefined =>
  saysWord(ownFacts(build, part), "case", ["metal", "insulated"]);
export const isBonded = (build: Build, part: string): boolean | "unknown" | undefined =>
  saysYes(ownFacts(build, part), "bonded");

/** The facts that any part may state. */
function ownFacts(build: Build, id: string): ReturnType<typeof factsOf> {
  const view = build.part(id);
  return { ...view?.plan?.facts }; // facts of all parts, asked by their names
}
