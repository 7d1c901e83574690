import type { InternalElement } from "./element.ts";

/** What a hand or the world outside moves of a part. */
export interface MovedPart {
  readonly positions: readonly string[];
  /** A plug, whose positions a state gives as `shore`. */
  readonly isPlug: boolean;
}

/** Parts that move as a whole, by name: a generator that is off or running, an inlet that is out or in. */
export function movedParts(elements: readonly InternalElement[]): ReadonlyMap<string, MovedPart> {
  const plugs = new Set(elements.flatMap((e) => (e.is === "source" && e.from === "shore" ? e.part : [])));
  return new Map(
    elements.flatMap((e) =>
      e.is === "mover" && e.id === e.part && e.by !== "itself"
        ? [[e.part, { positions: e.positions, isPlug: plugs.has(e.part) }] as const]
        : [],
    ),
  );
}
