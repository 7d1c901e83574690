import type { Build } from "./build.ts";
import { stored, type Store } from "./store.ts";

/**
 * A store that loses nothing as long as the page stands: builds that the other one did not take are held here, and offered to it again
 * as soon as it takes something.
 */
export function holdingStore(store: Store): Store {
  const held = new Map<string, Build>();
  const forget = (build: Build): void => {
    if (held.get(build.id) === build) held.delete(build.id);
  };
  return {
    ...store,

    async list() {
      const listed = await store.list();
      if (!listed.ok && held.size === 0) return listed;
      const others = listed.ok ? listed.value.filter(({ id }) => !held.has(id)) : [];
      return stored([...held.values(), ...others].sort((a, b) => b.changedAt - a.changedAt));
    },

    async load(id) {
      const build = held.get(id);
      return build === undefined ? store.load(id) : stored(build);
    },

    async write(build, parting) {
      const result = await store.write(build, parting);
      if (!result.ok) {
        if (result.why !== "elsewhere") held.set(build.id, build);
        return result;
      }
      held.delete(build.id);
      for (const other of held.values()) {
        if ((await store.write(other)).ok) forget(other);
      }
      return result;
    },

    async remove(id) {
      held.delete(id);
      return store.remove(id);
    },
  };
}
