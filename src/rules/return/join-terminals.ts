import type { Conductor } from "../../system/index.ts";
import type { Build } from "../build.ts";

/** A part set into a protective conductor that lets no small direct current through: a galvanic isolator. */
interface Blocker {
  readonly id: string;
  readonly part: string;
  readonly a: number;
  readonly b: number;
}

/** Terminals by the node of the metal that they are of. */
export interface JoinedTerminals {
  /** −1: no node is there. */
  readonly nodeOf: (terminal: string) => number;
  readonly standsFor: (gridNode: number) => number;
  readonly count: () => number;
  readonly caseOf: (part: string) => number;
  readonly earthNodes: () => readonly number[];
  readonly blockers: readonly Blocker[];
}

const isEarthTerminal = (terminal: string): boolean => terminal.endsWith(":PE");

/**
 * Numbers the terminals of protective conductors beside the nodes of the grid. The protective terminals of a part are one piece of metal, its case; not those
 * of a galvanic isolator or of a transformer, which is why they are there.
 */
export function joinTerminals(build: Build, bonds: readonly { readonly conductor: Conductor }[]): JoinedTerminals {
  const { grid, system } = build.settled.model;
  const parent = new Map<string, string>();
  const root = (terminal: string): string => {
    let at = terminal;
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) at = up;
    return at;
  };
  const unite = (a: string, b: string): void => {
    const [ra, rb] = [root(a), root(b)];
    if (ra !== rb) parent.set(rb, ra);
  };
  const apart = new Set<string>();
  const blockers: { id: string; part: string; a: string; b: string }[] = [];
  const earths = new Set<string>();
  for (const e of system.elements) {
    if (e.is === "join") unite(e.a, e.b);
    else if (e.is === "contact" && isEarthTerminal(e.a) && isEarthTerminal(e.b)) {
      apart.add(e.part);
      blockers.push(e);
      for (const t of [e.a, e.b]) earths.add(t);
    } else if (e.is === "source") {
      if (e.from === "transformer") apart.add(e.part);
      const own = e.terminals.PE;
      if (own !== undefined) earths.add(own);
    } else if (e.is === "converter" && e.outCurrent === "AC" && e.outMinus.endsWith(":N"))
      earths.add(e.outMinus.replace(/:N$/, ":PE"));
  }
  for (const { conductor } of bonds) for (const t of [conductor.from, conductor.to]) earths.add(t);
  for (const { current, conductors } of system.circuits) {
    if (current !== "DC") continue;
    for (const c of conductors)
      if (c.role === "protective") for (const t of [c.from, c.to]) if (isEarthTerminal(t)) earths.add(t);
  }
  const cases = new Map<string, string>();
  const partOf = ownerOf(build);
  for (const terminal of earths) {
    if (!isEarthTerminal(terminal)) continue;
    const part = partOf(terminal);
    const first = cases.get(part);
    if (first === undefined) cases.set(part, terminal);
    else if (!apart.has(part)) unite(first, terminal);
  }
  for (const { id, plan, elements } of build.parts) {
    if (plan?.facts["minus at case"]?.value !== true) continue;
    let own = cases.get(id);
    if (own === undefined) cases.set(id, (own = `${id}:PE`));
    earths.add(own);
    for (const e of elements) {
      if (e.is === "draw" || e.is === "feed" || e.is === "store") unite(own, e.minus);
      else if (e.is === "converter") unite(own, e.inCurrent === "DC" ? e.inMinus : e.outMinus);
    }
  }

  const nodes = new Map<string, number>();
  const stands = new Int32Array(grid.nodeCount);
  grid.nodeNames.slice(0, grid.nodeCount).forEach((name, n) => {
    const at = root(name);
    const first = nodes.get(at);
    if (first === undefined) nodes.set(at, n);
    stands[n] = first ?? n;
  });
  let count = grid.nodeCount;
  for (const terminal of earths) {
    const at = root(terminal);
    if (!nodes.has(at)) nodes.set(at, count++);
  }
  const nodeOf = (terminal: string): number => nodes.get(root(terminal)) ?? -1;
  return {
    nodeOf,
    standsFor: (n) => stands[n] ?? n,
    count: () => count,
    caseOf: (part) => {
      const own = cases.get(part);
      return own === undefined ? -1 : nodeOf(own);
    },
    earthNodes: () => [...earths].filter(isEarthTerminal).map(nodeOf),
    blockers: blockers.map(({ id, part, a, b }) => ({ id, part, a: nodeOf(a), b: nodeOf(b) })),
  };
}

/** The part that a terminal is of; a name may hold a colon, so the longest that fits counts. */
function ownerOf(build: Build): (terminal: string) => string {
  return (terminal) => {
    for (let end = terminal.lastIndexOf(":"); end > 0; end = terminal.lastIndexOf(":", end - 1)) {
      const id = terminal.slice(0, end);
      if (build.part(id) !== undefined) return id;
    }
    return terminal;
  };
}
