import type { Step, SwitchingProblem } from "../../switching/index.ts";

/**
 * A mover as people write it: `CU:main` is `CU main`.
 *
 * @example
 * moverName("INV:relay") //=> "INV relay"
 */
export const moverName = (id: string): string => id.replaceAll(":", " ");

/**
 * One action, or what follows by itself, in words.
 *
 * @example
 * sayStep({ mover: "INL", from: "out", to: "in", by: "outside" }) //=> "plug INL in"
 * sayStep({ mover: "TS", from: "off", to: "shore", by: "hand" }) //=> "turn TS to shore"
 * sayStep({ mover: "INV:relay", from: "resting", to: "passing", by: "itself", after: 2 }) //=> "INV relay goes to passing by itself after 2 s"
 */
export function sayStep({ mover, from, to, by, after }: Step): string {
  const name = moverName(mover);
  if (by === "itself") return `${name} goes to ${to} by itself${after === undefined ? "" : ` after ${after} s`}`;
  if (to === "in" && from === "out") return `plug ${name} in`;
  if (to === "out" && from === "in") return `unplug ${name}`;
  if (to === "running") return `start ${name}`;
  if (from === "running") return `stop ${name}`;
  if (to === "on" || to === "off") return `switch ${name} ${to}`;
  if (to === "open" || to === "closed") {
    const verb = to === "open" ? "open" : "close";
    return by === "outside" ? `${name} ${verb}s` : `${verb} ${name}`;
  }
  return by === "outside" ? `${name} goes to ${to}` : `turn ${name} to ${to}`;
}

/**
 * A way from everything off.
 *
 * @example
 * sayWay([]) //=> "everything off"
 */
export const sayWay = (steps: readonly Step[]): string =>
  steps.length === 0 ? "everything off" : steps.map(sayStep).join(", ");

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
