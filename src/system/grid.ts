import type { Contact, Converter, Draw, Feed, Store } from "./element.ts";
import type { System } from "./system.ts";

/** A metal path of the direct-current side: a conductor, or a contact inside a part. */
export interface GridEdge {
  readonly id: string;
  readonly a: number;
  readonly b: number;
  /** Index of its circuit; −1 for a contact. */
  readonly circuit: number;
  /** Index of the conductor in its circuit; −1 for a contact. */
  readonly conductor: number;
  readonly contact: Contact | null;
  /** May be guarded by a device. */
  readonly live: boolean;
}

interface AtPort<T> {
  readonly element: T;
  readonly plus: number;
  readonly minus: number;
}

/** A converter with its direct-current sides; an input that takes alternating current is null. */
export interface GridConverter {
  readonly element: Converter;
  readonly in: { readonly plus: number; readonly minus: number } | null;
  readonly out: { readonly plus: number; readonly minus: number };
}

/** A load of the direct-current side. A maker of alternating current is one too: its first level is its rating. */
export interface GridDraw extends AtPort<Draw> {
  readonly inverter: Converter | null;
}

/**
 * The direct-current side as a graph of numbered nodes. Terminals that are one piece of metal are one node; sources and loads hang
 * between nodes and are no edges, so plus and minus are separate pieces of it.
 */
export interface Grid {
  readonly nodeCount: number;
  /** One terminal of each node, for print. */
  readonly nodeNames: readonly string[];
  readonly nodeOf: (terminal: string) => number;
  readonly edges: readonly GridEdge[];
  /** Edges at each node. */
  readonly at: readonly (readonly number[])[];
  readonly stores: readonly AtPort<Store>[];
  readonly feeds: readonly AtPort<Feed>[];
  readonly draws: readonly GridDraw[];
  readonly converters: readonly GridConverter[];
}

/** Numbers the nodes of the direct-current side and collects what lies between them. */
export function makeGrid(system: System): Grid {
  const parent = new Map<string, string>();
  const root = (t: string): string => {
    let at = t;
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) at = up;
    // Shorten the way for the next one that asks.
    for (let step = t; step !== at;) {
      const up = parent.get(step);
      if (up === undefined) break;
      parent.set(step, at);
      step = up;
    }
    return at;
  };
  for (const element of system.elements) {
    if (element.is !== "join") continue;
    const a = root(element.a);
    const b = root(element.b);
    if (a !== b) parent.set(b, a);
  }
  const numbers = new Map<string, number>();
  const nodeNames: string[] = [];
  const at: number[][] = [];
  const nodeOf = (terminal: string): number => {
    const name = root(terminal);
    let n = numbers.get(name);
    if (n === undefined) {
      n = nodeNames.length;
      numbers.set(name, n);
      nodeNames.push(name);
      at.push([]);
    }
    return n;
  };

  const edges: GridEdge[] = [];
  const addEdge = (edge: GridEdge): void => {
    if (edge.a === edge.b) return;
    at[edge.a]?.push(edges.length);
    at[edge.b]?.push(edges.length);
    edges.push(edge);
  };
  system.circuits.forEach((circuit, c) => {
    if (circuit.current !== "DC") return;
    circuit.conductors.forEach((conductor, i) => {
      // On the alternating side earth lies beside each circuit and carries nothing; as metal of its own it would turn trees round.
      if (system.quiet !== undefined && conductor.role === "protective") return;
      addEdge({
        id: conductor.id,
        a: nodeOf(conductor.from),
        b: nodeOf(conductor.to),
        circuit: c,
        conductor: i,
        contact: null,
        live: conductor.role === "live",
      });
    });
  });
  const direct = new Set(system.parts.filter((p) => p.current === "DC").map((p) => p.id));
  const stores: AtPort<Store>[] = [];
  const feeds: AtPort<Feed>[] = [];
  const draws: GridDraw[] = [];
  const converters: GridConverter[] = [];
  for (const element of system.elements) {
    switch (element.is) {
      case "contact":
        // What opens alternating current has a mover of its own, in a part of either current.
        if (!direct.has(element.part) || element.mover !== undefined) break;
        addEdge({
          id: element.id,
          a: nodeOf(element.a),
          b: nodeOf(element.b),
          circuit: -1,
          conductor: -1,
          contact: element,
          live: true,
        });
        break;
      case "join":
      case "source":
      case "earth join":
      case "residual guard":
      case "mover":
        break;
      case "store":
        stores.push({ element, plus: nodeOf(element.plus), minus: nodeOf(element.minus) });
        break;
      case "feed":
        feeds.push({ element, plus: nodeOf(element.plus), minus: nodeOf(element.minus) });
        break;
      case "draw":
        if (element.current === "DC") {
          draws.push({ element, plus: nodeOf(element.plus), minus: nodeOf(element.minus), inverter: null });
        }
        break;
      case "converter": {
        const input =
          element.inCurrent === "DC" ? { plus: nodeOf(element.inPlus), minus: nodeOf(element.inMinus) } : null;
        if (element.outCurrent === "DC") {
          converters.push({
            element,
            in: input,
            out: { plus: nodeOf(element.outPlus), minus: nodeOf(element.outMinus) },
          });
        } else if (input !== null) {
          draws.push({ element: drawOf(element), ...input, inverter: element });
        }
        break;
      }
    }
  }
  return { nodeCount: nodeNames.length, nodeNames, nodeOf, edges, at, stores, feeds, draws, converters };
}

/** What a maker of alternating current takes from its bank at its rating. */
function drawOf(inverter: Converter): Draw {
  const atVolts = inverter.volts.high;
  const asked = { ...inverter.amps, high: inverter.amps.high / inverter.efficiency.low };
  return {
    is: "draw",
    id: inverter.id,
    part: inverter.part,
    plus: inverter.inPlus,
    minus: inverter.inMinus,
    law: "watts",
    atVolts,
    levels: [{ name: "running", amps: asked }],
    current: "DC",
    alwaysOn: false,
    startSeconds: { low: 0, high: 0, origin: "derived" },
  };
}
