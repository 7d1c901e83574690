import { COPIES_KEPT, type Build, type GoodCopy } from "./build.ts";
import { stored, type Store, type StoreFault } from "./store.ts";

/**
 * A store that lasts as long as the page: for browsers that lend none, and for tests.
 *
 * @param passing why there is no better one; null in tests, where it stands for the browser's own
 */
export function memoryStore(passing: StoreFault | null): Store {
  const builds = new Map<string, Build>();
  const copies = new Map<string, readonly GoodCopy[]>();
  const handles = new Map<string, unknown>();
  // One microtask each, as with a real store nothing is there at once.
  const soon = async <T>(call: () => T): Promise<T> => {
    await Promise.resolve();
    return call();
  };
  return {
    passing,
    list: () => soon(() => stored([...builds.values()].sort((a, b) => b.changedAt - a.changedAt))),
    load: (id) => soon(() => stored(builds.get(id) ?? null)),
    write: (build) =>
      soon(() => {
        if ((builds.get(build.id)?.turn ?? 0) > build.turn) return { ok: false, why: "elsewhere" } as const;
        builds.set(build.id, build);
        return stored(null);
      }),
    takeTurn: (id) =>
      soon(() => {
        const build = builds.get(id);
        if (build === undefined) return stored(null);
        builds.set(id, { ...build, turn: build.turn + 1 });
        return stored(build.turn + 1);
      }),
    remove: (id) =>
      soon(() => {
        for (const kept of [builds, copies, handles]) kept.delete(id);
        return stored(null);
      }),
    addCopy: (id, copy, instead) =>
      soon(() => {
        const others = (copies.get(id) ?? []).filter(({ at }) => at !== instead && at !== copy.at);
        copies.set(id, [copy, ...others].slice(0, COPIES_KEPT));
        return stored(null);
      }),
    copies: (id) => soon(() => stored(copies.get(id) ?? [])),
    handle: (id) => soon(() => stored(handles.get(id) ?? null)),
    keepHandle: (id, handle) =>
      soon(() => {
        handles.set(id, handle);
        return stored(null);
      }),
  };
}
