import type { Contact, Converter, Mover } from "./element.ts";
import type { GivenState, System } from "./system.ts";

/** Parts may be called `constructor`, and a copy of a state has a prototype. */
const saidOf = ({ positions }: GivenState, part: string): string | undefined =>
  Object.hasOwn(positions, part) ? positions[part] : undefined;

/** Whether a supply from outside gives in a state: plugged in, or running. In a plan without states each has its turn. */
export function givesIn(state: GivenState, part: string, { elements }: Pick<System, "elements">): boolean {
  if (state.isImplied === true || state.on.includes(part)) return true;
  const sources = elements.flatMap((e) => (e.is === "source" && e.from !== "transformer" ? [e] : []));
  const inlets = sources.filter((e) => e.from === "shore");
  const said = saidOf(state, part);
  if (said !== undefined) return said === "in";
  // Where nothing is plugged in, `shore` stands for the generator.
  return state.shore && (inlets.length > 0 ? inlets : sources.slice(0, 1)).some((e) => e.part === part);
}

/**
 * Tells of converters and contacts whether they may work, or close, in a state: not where it holds the switch of their part in a position that keeps them off.
 *
 * Ignores what moves them by itself: whether an inverter really inverts follows from what feeds it.
 */
export function mayWork({
  elements,
}: Pick<System, "elements">): (of: Converter | Contact, state: GivenState) => boolean {
  const movers = new Map(elements.flatMap((e): [string, Mover][] => (e.is === "mover" ? [[e.id, e]] : [])));
  return (of, state) => {
    const isAt = (id: string, allowed: readonly string[]): boolean => {
      const said = saidOf(state, id);
      return said === undefined || allowed.includes(said);
    };
    const works = of.is === "converter" ? of.worksIn : of.closedIn;
    const moves = movers.get(of.mover ?? of.part);
    if (moves === undefined || works === undefined) return true;
    if (moves.rules === undefined) return isAt(moves.id, works);
    return moves.rules.some((r) => works.includes(r.to) && (r.when ?? []).every((w) => isAt(w.mover, w.in)));
  };
}
