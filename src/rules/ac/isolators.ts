import type { Build, PartView } from "../build.ts";
import { inletsOf, type Inlet } from "./inlets.ts";

/** A galvanic isolator and the inlets whose protective conductor leads through it. */
export interface Isolator {
  readonly view: PartView;
  readonly inlets: readonly Inlet[];
}

/** The galvanic isolators of a build. */
export function isolatorsOf(build: Build): readonly Isolator[] {
  const inlets = inletsOf(build);
  return build.parts.flatMap((view): Isolator[] => {
    if (view.part.kind !== "galvanic isolator") return [];
    const own = inlets.filter((i) =>
      build.system.circuits.some((c) => {
        const ends = c.conductors.flatMap(({ from, to }) => [from, to]);
        return ends.some((t) => t.startsWith(`${view.id}:`)) && ends.some((t) => t.startsWith(`${i.view.id}:`));
      }),
    );
    return [{ view, inlets: own.length > 0 ? own : inlets.filter((i) => i.view.part.supply === view.part.supply) }];
  });
}
