import type { InternalElement } from "./element.ts";
import type { SystemCircuit } from "./system.ts";

/**
 * What is one piece of metal on the direct-current side, with every contact closed: terminals that conductors, joins and contacts lead
 * between.
 *
 * @returns for each terminal the one that stands for its whole piece
 */
export function joinMetal(
  circuits: readonly Pick<SystemCircuit, "current" | "conductors">[],
  elements: readonly InternalElement[],
): (terminal: string) => string {
  const links = createLinks();
  for (const { current, conductors } of circuits) {
    if (current === "DC") for (const c of conductors) if (c.role !== "protective") links.unite(c.from, c.to);
  }
  for (const e of elements) if (e.is === "join" || e.is === "contact") links.unite(e.a, e.b);
  return links.root;
}

interface Links {
  readonly unite: (a: string, b: string) => void;
  /** One terminal that stands for all that are joined to this one. */
  readonly root: (terminal: string) => string;
}

function createLinks(): Links {
  const parent = new Map<string, string>();
  const root = (terminal: string): string => {
    let at = terminal;
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) {
      const above = parent.get(up);
      if (above !== undefined) parent.set(at, above); // shortens the way for the next one that asks
      at = up;
    }
    return at;
  };
  return {
    root,
    unite(a, b) {
      const [ra, rb] = [root(a), root(b)];
      if (ra !== rb) parent.set(rb, ra);
    },
  };
}
