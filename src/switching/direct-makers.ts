import type { InternalElement } from "../system/index.ts";
import { ledThrough, type NamedMetal } from "./name-metal.ts";
import { rootOf, separate, unite } from "./union-find.ts";
import type { SwitchedSystem } from "./switched-system.ts";

type Element<K extends InternalElement["is"]> = Extract<InternalElement, { readonly is: K }>;

/** What makes direct current and is no battery. */
export type DirectMaker = Element<"feed"> | Element<"converter">;

/** What of the metal of a build counts for the study of positions. */
export interface CountingMetal {
  readonly counts: (node: number) => boolean;
  /** Makers of direct current by which a maker of alternating current lives. */
  readonly makers: readonly DirectMaker[];
  /** Those beside which a battery can be switched to the same metal: whether they keep anything up without it, nobody can rely on. */
  readonly aside: readonly DirectMaker[];
}

/**
 * Finds pieces of metal that anything alternating, or whatever its maker lives by, could ever reach.
 *
 * Alternators, solar modules, and converters and chargers at their output keep an inverter alive where no battery does. Where a battery can be switched to
 * the same metal they stand aside: with it on they change nothing, and with it off what comes out of a controller that has lost its battery is not to be
 * relied on (common practice), neither that there are volts nor that there are none.
 */
export function countingMetal(system: SwitchedSystem, metal: NamedMetal): CountingMetal {
  const all = separate(metal.nodes.length);
  const through = ledThrough(system.elements);
  for (const e of system.elements)
    if (e.is === "contact" || (e.is === "join" && through.has(e.id))) unite(all, metal.nodeOf(e.a), metal.nodeOf(e.b));
  const pieceOf = (terminal: string): number => rootOf(all, metal.nodeOf(terminal));
  const counting = new Set(endsOf(system).map(pieceOf));
  const held = new Set(system.elements.flatMap((e) => (e.is === "store" ? [pieceOf(e.plus)] : [])));
  const makers = new Set<DirectMaker>();
  const aside = new Set<DirectMaker>();
  // One may be fed by what another makes.
  for (let before = -1; before !== makers.size;) {
    before = makers.size;
    for (const e of system.elements) {
      const plus = e.is === "feed" ? e.plus : e.is === "converter" && e.outCurrent === "DC" ? e.outPlus : null;
      if ((e.is !== "feed" && e.is !== "converter") || plus === null || !metal.isWired(plus)) continue;
      const at = pieceOf(plus);
      if (!counting.has(at)) continue;
      if (held.has(at)) {
        aside.add(e);
        continue;
      }
      makers.add(e);
      if (e.is === "converter") for (const t of [e.inPlus, e.inMinus]) counting.add(pieceOf(t));
    }
  }
  return { counts: (node) => counting.has(rootOf(all, node)), makers: [...makers], aside: [...aside] };
}

/** Terminals of the alternating side and of the direct inputs of its makers. */
function endsOf({ elements, circuits }: SwitchedSystem): string[] {
  const ends = elements.flatMap((e): readonly string[] => {
    if (e.is === "source") return [...Object.values(e.terminals), ...(e.fedBy ?? [])];
    if (e.is === "converter") {
      if (e.outCurrent === "AC") return [e.inPlus, e.inMinus, e.outPlus, e.outMinus, ...(e.outLines ?? [])];
      return e.inCurrent === "AC" ? [e.inPlus, e.inMinus] : [];
    }
    return e.is === "draw" && e.alternating !== undefined ? e.alternating.lines : [];
  });
  const alternating = circuits.filter((c) => c.current === "AC");
  return [...ends, ...alternating.flatMap((c) => c.conductors.map(({ from }) => from))];
}
