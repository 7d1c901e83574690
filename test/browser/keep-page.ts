import { openBrowserStore } from "../../src/workbench/keep/browser-store.ts";
import { newBuild } from "../../src/workbench/keep/build.ts";
import { pageClock } from "../../src/workbench/keep/clock.ts";
import { browserFiles } from "../../src/workbench/keep/file.ts";
import { openKeeper } from "../../src/workbench/keep/keeper.ts";
import { namesOf, newLog, pushStep, redo, textOf, undo, undoTo } from "../../src/workbench/keep/log.ts";
import { memoryStore } from "../../src/workbench/keep/memory-store.ts";
import { browserPenHost } from "../../src/workbench/keep/one-pen.ts";
import { registerWorker } from "../../src/workbench/keep/register-worker.ts";
import { savedLine } from "../../src/workbench/keep/saved-line.ts";
import { watchPage } from "../../src/workbench/keep/watch-page.ts";

/** A page of a test: what keeps plans, in a real browser, and nothing else. */
const store = await openBrowserStore();
const keeper = openKeeper({
  store,
  files: browserFiles(),
  pens: browserPenHost(),
  clock: pageClock,
  newId: () => crypto.randomUUID(),
});
watchPage(keeper);

const page = {
  keeper,
  store,
  openBrowserStore,
  memoryStore,
  newBuild,
  registerWorker,
  log: { namesOf, newLog, pushStep, redo, textOf, undo, undoTo },
  says: () => {
    const now = keeper.current();
    return now === null ? null : savedLine(now.saving, Date.now()).says;
  },
  type: (text: string) => {
    const end = keeper.current()?.text.length ?? 0;
    keeper.record({ name: `typed ${text}`, splices: [{ start: end, end, text }] });
  },
};
export type KeepPage = typeof page;
Object.assign(globalThis, { page });
document.documentElement.dataset["ready"] = "";
