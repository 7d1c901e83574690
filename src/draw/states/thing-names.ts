import type { SwitchingProblem } from "../../switching/index.ts";

/**
 * A mover as people write it: `CU:main` is `CU main`.
 *
 * @example
 * moverName("INV:relay") //=> "INV relay"
 */
export const moverName = (id: string): string => id.replaceAll(":", " ");

/** What sources, loads and joins are called. */
export interface ThingNames {
  readonly source: (id: string) => string;
  readonly taker: (id: string) => string;
  readonly join: (id: string) => string;
}

/** Names of the things of a build: the part where it has one of the kind, else with what of it is meant. */
export function namesOf({
  sources,
  takers,
  joins,
}: Pick<SwitchingProblem, "sources" | "takers" | "joins">): ThingNames {
  const naming = (list: readonly { readonly id: string; readonly part: string }[], known: ReadonlySet<string>) => {
    const count = (part: string): number => list.filter((one) => one.part === part).length;
    const names = new Map(
      list.map(({ id, part }) => [id, count(part) === 1 && !known.has(part) ? part : moverName(id)]),
    );
    return (id: string): string => names.get(id) ?? moverName(id);
  };
  const none = new Set<string>();
  const source = naming(sources, none);
  return {
    source,
    // What gives and takes is told apart.
    taker: naming(takers, new Set(sources.map(({ part }) => part))),
    join: (id) => (sources.some((s) => s.id === id) ? source(id) : naming(joins, none)(id)),
  };
}
