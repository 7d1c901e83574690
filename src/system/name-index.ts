import type { Diagnostic, Span } from "../diagnostic.ts";
import { foldName, listed, nearestNames, shown } from "../plan/index.ts";

/** Finds named things as people write them: case and spaces folded, and the nearest names offered when there is none. */
export interface NameIndex<T> {
  get(name: string): T | undefined;
  /** The thing, or a message about the place where it was named. */
  find(name: string, at: Span, about: string, say: (d: Diagnostic) => void): T | undefined;
}

/**
 * @param what as in "no part is called …"
 * @param calledOf what people call it, which is offered but never taken for the name
 */
export function indexNames<T>(
  what: string,
  things: readonly T[],
  nameOf: (thing: T) => string,
  calledOf: (thing: T) => string | undefined = () => undefined,
): NameIndex<T> {
  const byName = new Map<string, T>();
  for (const thing of things) {
    const folded = foldName(nameOf(thing));
    if (!byName.has(folded)) byName.set(folded, thing);
  }
  const get = (name: string): T | undefined => byName.get(foldName(name));
  return {
    get,
    find(name, at, about, say) {
      const found = get(name);
      if (found !== undefined) return found;
      const called = things.filter((thing) => foldName(calledOf(thing) ?? "") === foldName(name)).map(nameOf);
      const near = called.length > 0 ? called : nearestNames(name, things.map(nameOf));
      say({
        id: `system/${what.replace(/ /g, "-")}-unknown`,
        level: "error",
        at: [at],
        about,
        message: `no ${what} is called \`${shown(name)}\``,
        hint:
          called.length > 0
            ? `that is the \`name\` of ${listed(called)}; write its key here`
            : near.length > 0
              ? `did you mean ${listed(near, "or")}?`
              : `define it under \`${what}s:\`, or mend the name`,
        data: { name, near },
      });
      return undefined;
    },
  };
}
