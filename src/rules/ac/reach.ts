import { disjointSets } from "../battery/pieces.ts";
import type { Build } from "../build.ts";
import { switchingOf } from "./switching-of.ts";

/** What the metal of a source reaches, every contact closed: not past a transformer or an inverter. */
export interface Reach {
  readonly terminal: (name: string) => boolean;
  /** By the mover of a switch or breaker. */
  readonly mover: (name: string) => boolean;
  /** By part: any terminal of it. */
  readonly part: (id: string) => boolean;
  /** Whether a load or charger is on its lines. */
  readonly takes: boolean;
}

/** Tells what the lines of a source lead to in some position of the switches. */
export function reachOf(build: Build, source: string): Reach {
  const { problem, terminals } = switchingOf(build);
  const sets = disjointSets(problem.nodes.length);
  for (const { a, b } of problem.contacts) sets.unite(a, b);
  const roots = sets.roots();
  const own = new Set(
    problem.sources.flatMap((s) => (s.id === source ? s.lines.map(({ node }) => roots[node] ?? -1) : [])),
  );
  const isOn = (node: number): boolean => own.has(roots[node] ?? -2);
  const names = new Set(terminals.flatMap((list, node) => (isOn(node) ? list : [])));
  const moverOf = new Map(
    build.system.elements.flatMap((e) => (e.is === "contact" ? [[e.id, e.mover ?? e.part] as const] : [])),
  );
  const movers = new Set(problem.contacts.flatMap((c) => (isOn(c.a) ? [moverOf.get(c.id)] : [])));
  return {
    terminal: (name) => names.has(name),
    mover: (name) => movers.has(name),
    part: (id) => [...names].some((name) => name.startsWith(`${id}:`)),
    takes: problem.takers.some((t) => t.lines.some(isOn)),
  };
}
