import { COPIES_KEPT, readBuild, type BuildHead, type GoodCopy } from "./build.ts";
import { textOf, type Log, type Step } from "./log.ts";
import { memoryStore } from "./memory-store.ts";
import { answer, faultOf, openShelves, SHELVES, type Shelves } from "./shelves.ts";
import type { Store } from "./store.ts";

/** A build on its shelf: the steps stand on their own. */
interface BuildRecord {
  readonly head: BuildHead;
  readonly text: string;
  readonly log: Omit<Log, "steps">;
}

/**
 * Opens the browser's own store; where it lends none, one that lasts as long as the page and says so.
 *
 * @param lend gives the browser's store; some browsers throw where it is switched off
 */
export async function openBrowserStore(
  lend: () => IDBFactory | undefined = () => indexedDB,
  name = "wireworthy",
): Promise<Store> {
  /** What stands on the shelf of steps, so that only what differs is written. */
  const written = new Map<string, Log>();
  try {
    const indexed = lend();
    if (indexed === undefined) return memoryStore("denied");
    const opened = await openShelves(indexed, name, () => {
      written.clear();
    });
    return opened.ok ? shelvedStore(opened.value, written) : memoryStore(opened.why);
  } catch (error) {
    return memoryStore(faultOf(error));
  }
}

function shelvedStore({ work }: Shelves, written: Map<string, Log>): Store {
  return {
    passing: null,

    list: () =>
      work(["builds"], "readonly", async ({ shelf }) => {
        const records = (await answer(shelf("builds").getAll())) as BuildRecord[]; // as `write` put them
        return records.map((record) => record.head).sort((a, b) => b.changedAt - a.changedAt);
      }),

    load: (id) =>
      work(["builds", "steps"], "readonly", async ({ shelf }) => {
        const record = await recordOf(shelf("builds"), id);
        const steps = (await answer(shelf("steps").getAll(all(id)))) as Step[]; // as `putSteps` put them; `readBuild` looks closer
        if (record === undefined) return null;
        const build = readBuild(record.head, record.text, { ...record.log, steps });
        if (build.log.steps === steps) written.set(id, build.log);
        else written.delete(id);
        return build;
      }),

    async write(build, parting = false) {
      const { log, ...head } = build;
      const before = written.get(build.id);
      const result = await work(["builds", "steps"], "readwrite", async ({ shelf, giveUp }) => {
        if (!parting) {
          const found = await recordOf(shelf("builds"), build.id);
          if ((found?.head.turn ?? 0) > build.turn) {
            giveUp("elsewhere");
            return null;
          }
        }
        const { steps, ...rest } = log;
        const record: BuildRecord = { head, text: textOf(log), log: rest };
        shelf("builds").put(record, build.id);
        putSteps(shelf("steps"), build.id, before, steps, log.folded);
        return null;
      });
      if (result.ok) written.set(build.id, log);
      else written.delete(build.id);
      return result;
    },

    takeTurn: (id) =>
      work(["builds"], "readwrite", async ({ shelf }) => {
        written.delete(id);
        const record = await recordOf(shelf("builds"), id);
        if (record === undefined) return null;
        const turn = record.head.turn + 1;
        shelf("builds").put({ ...record, head: { ...record.head, turn } }, id);
        return turn;
      }),

    remove: (id) =>
      work(SHELVES, "readwrite", ({ shelf }) => {
        written.delete(id);
        for (const name of ["builds", "handles"] as const) shelf(name).delete(id);
        for (const name of ["steps", "copies"] as const) shelf(name).delete(all(id));
        return null;
      }),

    addCopy: (id, copy, instead) =>
      work(["copies"], "readwrite", async ({ shelf }) => {
        if (instead !== null) shelf("copies").delete([id, instead]);
        shelf("copies").put(copy, [id, copy.at]);
        const keys = (await answer(shelf("copies").getAllKeys(all(id)))) as IDBValidKey[]; // as they always are
        for (const key of keys.slice(0, -COPIES_KEPT)) shelf("copies").delete(key);
        return null;
      }),

    copies: (id) =>
      work(["copies"], "readonly", async ({ shelf }) => {
        const copies = (await answer(shelf("copies").getAll(all(id)))) as GoodCopy[]; // as `addCopy` put them
        return copies.reverse();
      }),

    handle: (id) =>
      work(["handles"], "readonly", async ({ shelf }) => (await answer(shelf("handles").get(id))) ?? null),

    keepHandle: (id, handle) =>
      work(["handles"], "readwrite", ({ shelf }) => {
        shelf("handles").put(handle, id);
        return null;
      }),
  };
}

async function recordOf(builds: IDBObjectStore, id: string): Promise<BuildRecord | undefined> {
  return (await answer(builds.get(id))) as BuildRecord | undefined; // as `write` put it
}

/** All records of a build, from a number on: a list is later than any number. */
const all = (id: string, from = -Infinity): IDBKeyRange => IDBKeyRange.bound([id, from], [id, []]);

/** Writes the steps that are not there yet and takes away those that are no longer in the list. */
function putSteps(
  shelf: IDBObjectStore,
  id: string,
  before: Log | undefined,
  steps: readonly Step[],
  folded: number,
): void {
  let same = folded;
  if (before !== undefined && before.folded <= folded) {
    // Steps are never changed, so the same one is the same object.
    while (same < folded + steps.length && before.steps[same - before.folded] === steps[same - folded]) same++;
    if (before.folded < folded) shelf.delete(IDBKeyRange.bound([id, before.folded], [id, folded], false, true));
    if (before.folded + before.steps.length > same) shelf.delete(all(id, same));
  } else {
    shelf.delete(all(id));
  }
  for (const [i, step] of steps.entries()) if (folded + i >= same) shelf.put(step, [id, folded + i]);
}
