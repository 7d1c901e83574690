import type { Build } from "../build.ts";
import { metalOf, metalPieces } from "./metal.ts";

/** What comes back through a structure. */
export interface ReturnsThrough {
  /** Parts whose minus has no other way to a battery. */
  readonly users: readonly string[];
  /** Those of them that belong to its engine or vehicle. */
  readonly own: readonly string[];
}

const found = new WeakMap<Build, Map<string, ReturnsThrough>>();

/** The parts whose current comes back through a structure: taken away, it leaves their minus without a battery. */
export function returnsThrough(build: Build, structure: string): ReturnsThrough {
  let all = found.get(build);
  if (all === undefined) found.set(build, (all = new Map<string, ReturnsThrough>()));
  let through = all.get(structure);
  if (through === undefined) all.set(structure, (through = follow(build, structure)));
  return through;
}

function follow(build: Build, structure: string): ReturnsThrough {
  const metal = metalOf(build);
  const { grid } = build.settled.model;
  const nodes = metal.structures.get(structure) ?? new Set<number>();
  const carries = (is: string): boolean => is === "return" || is === "contact";
  const whole = metalPieces(metal, (e) => carries(e.is));
  const without = metalPieces(metal, (e) => carries(e.is) && !nodes.has(e.a) && !nodes.has(e.b));
  const touched = new Set([...nodes].map((n) => whole[n]));
  const at = (pieces: Int32Array, gridNode: number): number => pieces[metal.standsFor(gridNode)] ?? -1;
  const withStore = new Set(grid.stores.map((s) => at(without, s.minus)));
  const users: string[] = [];
  const own: string[] = [];
  const look = (part: string, minus: number, isEngines: boolean): void => {
    if (!touched.has(at(whole, minus)) || withStore.has(at(without, minus))) return;
    (isEngines || isFactory(build, part) ? own : users).push(part);
  };
  for (const { element, minus } of grid.draws)
    look(element.part, minus, build.part(element.part)?.part.traits.cranks === true);
  for (const { element, minus } of grid.feeds) look(element.part, minus, element.runsWith === "engine");
  for (const { element, in: input, out } of grid.converters) {
    look(element.part, out.minus, false);
    if (input !== null && input.minus !== out.minus) look(element.part, input.minus, false);
  }
  // Batteries apart from all others: those that the structure alone joins to them.
  const pieces = [...new Set(grid.stores.map((s) => at(without, s.minus)))];
  if (pieces.length > 1) {
    const main = at(without, grid.stores[0]?.minus ?? 0);
    for (const { element, minus } of grid.stores)
      if (
        touched.has(at(whole, minus)) &&
        at(without, minus) !== main &&
        at(whole, minus) === at(whole, grid.stores[0]?.minus ?? 0)
      )
        (isFactory(build, element.part) ? own : users).push(element.part);
  }
  return { users: [...new Set(users)], own: [...new Set(own)] };
}

/** Whether every conductor that lands on a part's minus is of the harness that came with the vehicle or engine. */
function isFactory(build: Build, part: string): boolean {
  const leads = build.circuits.filter(
    ({ circuit }) => circuit.from.part === part || circuit.to.part === part || circuit.draws.includes(part),
  );
  return leads.length > 0 && leads.some((c) => c.plan?.facts.factory?.value === true);
}
