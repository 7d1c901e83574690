import type { InternalElement, Mover } from "./element.ts";
import type { Plugs } from "./find-plugs.ts";

/** What a hand or the world outside moves of a part. */
export interface MovedPart {
  readonly positions: readonly string[];
  readonly by: Mover["by"];
  /** Something is plugged in there: a state gives its position as `shore` too. */
  readonly isInlet: boolean;
  /** Parts of the plan that feed it; none: it is fed from outside. */
  readonly fedBy: readonly string[];
}

/** Parts that move as a whole, by name: a generator that is off or running, an inlet that is out or in. */
export function movedParts(elements: readonly InternalElement[], plugs: Plugs): ReadonlyMap<string, MovedPart> {
  const inlets = new Set(elements.flatMap((e) => (e.is === "source" && e.from === "shore" ? e.part : [])));
  return new Map(
    elements.flatMap((e): [string, MovedPart][] => {
      if (e.is !== "mover" || e.id !== e.part || e.by === "itself") return [];
      const fedBy = (plugs.get(e.part) ?? []).map(({ key }) => key);
      return [[e.part, { positions: e.positions, by: e.by, isInlet: inlets.has(e.part) || fedBy.length > 0, fedBy }]];
    }),
  );
}
