import { build } from "esbuild";
import { createHash } from "node:crypto";
import { once } from "node:events";
import { createServer } from "node:http";
import { join } from "node:path";
import { buffer } from "node:stream/consumers";
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import assert from "node:assert/strict";
import { test, type Harness, type Opening } from "./harness.ts";
import type { KeepPage } from "./keep-page.ts";
import { addressOf } from "./set-up.ts";

/** What keeps plans, against a real browser's store, files, locks and caches. */

declare const page: KeepPage; // put there by the page itself

const root = join(import.meta.dirname, "../..");
const files = new Map<string, { readonly type: string; readonly body: string }>();
const server = createServer((request, answer) => {
  const path = new URL(request.url ?? "/", "http://localhost").pathname;
  const file = files.get(path === "/" ? "/index.html" : path);
  answer.writeHead(file === undefined ? 404 : 200, {
    "content-type": file?.type ?? "text/plain",
  });
  answer.end(file?.body);
});
let address = "";

/** Puts a version of the site up, with its service worker. */
async function putUp(version: string): Promise<void> {
  const common = { bundle: true, write: false, target: "es2022", absWorkingDir: root } as const;
  const { outputFiles } = await build({ ...common, entryPoints: ["test/browser/keep-page.ts"], format: "esm" });
  const body = `<!doctype html><html lang="en"><link rel="icon" href="data:,"><title>${version}</title><script type="module" src="page.js"></script></html>`;
  files.set("/index.html", { type: "text/html", body });
  files.set("/page.js", { type: "text/javascript", body: outputFiles[0]?.text ?? "" });
  const marks = [...files]
    .filter(([path]) => path !== "/sw.js")
    .map(([path, file]) => [path.slice(1), createHash("sha256").update(file.body).digest("hex").slice(0, 16)]);
  const worker = await build({
    ...common,
    entryPoints: ["src/workbench/keep/service-worker.ts"],
    format: "iife",
    define: { WIREWORTHY_FILES: JSON.stringify(marks) },
  });
  files.set("/sw.js", { type: "text/javascript", body: worker.outputFiles[0]?.text ?? "" });
}

beforeAll(async () => {
  await putUp("first");
  await once(server.listen(0, "127.0.0.1"), "listening");
  address = addressOf(server);
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
});

async function openTab(harness: Harness, more: Opening = {}): Promise<Page> {
  const tab = await harness.open({ address, ...more });
  await isReady(tab);
  return tab;
}
const isReady = (tab: Page): Promise<unknown> => tab.waitForSelector("html[data-ready]", { state: "attached" });
const textOf = (tab: Page): Promise<string | undefined> => tab.evaluate(() => page.keeper.current()?.text);
const says = (tab: Page): Promise<string | null> => tab.evaluate(() => page.says());

test("the store gives back what was put in: texts, undo lists, copies", async ({ harness }) => {
  const tab = await openTab(harness);
  const wrong = await tab.evaluate(async () => {
    const found: string[] = [];
    const same = (what: string, is: unknown, should: unknown): void => {
      if (JSON.stringify(is) !== JSON.stringify(should))
        found.push(`${what}: ${JSON.stringify(is)}, not ${JSON.stringify(should)}`);
    };
    const { pushStep, undo, redo, undoTo } = page.log;
    const real = await page.openBrowserStore();
    same("lasts", real.passing, null);
    const model = page.memoryStore(null);
    let build = page.newBuild("a", "sloop", "", 1);
    /** All that an undo list holds, in an order of its own; of long ones only the ends are told. */
    const marksOf = (one: typeof build | null): unknown => {
      if (one === null) return null;
      const { base, folded, done, steps } = one.log;
      const rest = steps.map(({ name, at, typed, splices, inverse }) => [name, at, typed, splices, inverse]);
      const told = JSON.stringify([one.turn, base, folded, done, page.log.textOf(one.log), rest]);
      return [told.length, told.slice(0, 300), told.slice(-300)];
    };
    const put = (text: string) => {
      build = { ...build, log: pushStep(build.log, { name: text, splices: [{ start: 0, end: 0, text }], at: 0 }) };
    };
    const turns: (() => void)[] = [
      () => {
        put("x");
      },
      () => {
        put("y");
        put("z");
      },
      () => {
        build = { ...build, log: undo(undo(build.log)) };
      },
      () => {
        build = { ...build, log: redo(build.log) };
      },
      () => {
        put("branch");
      },
      () => {
        for (let i = 0; i < 2010; i++) put(String(i % 10));
      },
      () => {
        put("after folding");
      },
      () => {
        build = { ...build, log: undoTo(build.log, 100) };
      },
      () => {
        put("short again");
      },
      () => {
        put("large".repeat(300_000));
        put("larger".repeat(300_000));
      },
    ];
    for (const [i, turn] of turns.entries()) {
      turn();
      same(`${i} written`, await real.write(build), await model.write(build));
      // By another store, which remembers nothing.
      const loaded = await (await page.openBrowserStore()).load("a");
      same(`${i} loaded`, loaded.ok && marksOf(loaded.value), marksOf(build));
      if (i === 4) await real.load("a"); // and by the same one
    }
    await real.write(page.newBuild("a2", "a name that begins like the other", "other", 2));
    for (let at = 1; at <= 33; at++)
      await real.addCopy(
        "a",
        { at, text: String(at), summary: { name: "", revision: "", tally: {} as never } },
        at === 33 ? 32 : null,
      );
    const copies = await real.copies("a");
    same("copies", copies.ok && copies.value.map((copy) => copy.at), [
      33,
      ...Array.from({ length: 29 }, (_, i) => 31 - i),
    ]);
    same("turn", await real.takeTurn("a"), { ok: true, value: 1 });
    same("an earlier turn", await real.write(build), { ok: false, why: "elsewhere" });
    same("nobody's turn", await real.takeTurn("nobody"), { ok: true, value: null });
    const listed = await real.list();
    same("list", listed.ok && listed.value.map((head) => head.id), ["a2", "a"]);
    await real.remove("a");
    same("removed", await real.load("a"), { ok: true, value: null });
    same("its copies", await real.copies("a"), { ok: true, value: [] });
    const other = await real.load("a2");
    same("the other", other.ok && other.value !== null && page.log.textOf(other.value.log), "other");
    same("what cannot be kept", await real.keepHandle("a", () => 1), { ok: false, why: "broken" });
    return found;
  });
  assert.deepEqual(wrong, []);
});

test("what was typed just before the page went is there when it comes back, with its undo list", async ({
  harness,
}) => {
  const tab = await openTab(harness);
  await tab.evaluate(async () => {
    await page.keeper.newBuild("a", "sloop");
    page.type("b");
    location.reload(); // at once
  });
  await tab.waitForFunction(() =>
    performance
      .getEntriesByType("navigation")
      .some((one) => one instanceof PerformanceNavigationTiming && one.type === "reload"),
  );
  await isReady(tab);
  const rows = await tab.evaluate(() => page.keeper.listBuilds());
  assert.deepEqual(
    rows?.map(({ name, crashed, unsaved }) => ({ name, crashed, unsaved })),
    [{ name: "sloop", crashed: false, unsaved: 1 }],
  );
  await tab.evaluate((id) => page.keeper.openBuild(id), rows[0]?.id ?? "");
  assert.equal(await textOf(tab), "ab");
  await tab.evaluate(() => {
    page.keeper.undo();
  });
  assert.equal(await textOf(tab), "a");
});

test("after a crash the plan is there but for what was typed in the last 100 ms", async ({ harness }) => {
  const tab = await openTab(harness);
  const beside = await openTab(harness, { beside: tab });
  await tab.evaluate(async () => {
    await page.keeper.newBuild("a", "sloop");
    page.type("b");
  });
  await tab.waitForTimeout(100);
  tab.goto("chrome://crash").catch(() => undefined); // it never answers
  await tab.waitForEvent("crash");
  const row = async () => (await beside.evaluate(() => page.keeper.listBuilds()))?.[0];
  await expect.poll(async () => (await row())?.crashed).toBe(true);
  await beside.evaluate((id) => page.keeper.openBuild(id), (await row())?.id ?? "");
  assert.equal(await textOf(beside), "ab");
  assert.equal(await beside.evaluate(() => page.keeper.current()?.readOnly), false);
});

test("a second tab reads, and takes the pen when it is asked to", async ({ harness }) => {
  const first = await openTab(harness);
  const second = await openTab(harness, { beside: first });
  const id = await first.evaluate(async () => {
    await page.keeper.newBuild("a", "sloop");
    return page.keeper.current()?.id ?? "";
  });
  await second.evaluate((id) => page.keeper.openBuild(id), id);
  const readOnly = (tab: Page) => tab.evaluate(() => page.keeper.current()?.readOnly);
  assert.deepEqual([await readOnly(first), await readOnly(second)], [false, true]);
  await first.evaluate(() => {
    page.type("b");
  });
  await expect.poll(() => textOf(second)).toBe("ab");
  await first.evaluate(() => {
    page.type("c");
  });
  await second.evaluate(() => page.keeper.workHere());
  assert.deepEqual([await readOnly(first), await readOnly(second)], [true, false]);
  assert.equal(await textOf(second), "abc");
  await second.evaluate(() => {
    page.type("d");
  });
  await expect.poll(() => textOf(first)).toBe("abcd");
});

/** Of the browser's own file system, which behaves as a disk but needs no dialogue. */
const fileText = (tab: Page, name: string): Promise<string> =>
  tab.evaluate(async (name) => {
    const folder = await navigator.storage.getDirectory();
    return (await (await folder.getFileHandle(name)).getFile()).text();
  }, name);

test("a file is written after a rest, found again after a reload, and merged when it was changed outside", async ({
  harness,
}) => {
  // The pickers have to be there when the page looks for them.
  const before = async (context: BrowserContext) => {
    await context.addInitScript(() => {
      const lent = async () => (await navigator.storage.getDirectory()).getFileHandle("sloop.yaml", { create: true });
      Object.assign(window, { showSaveFilePicker: lent, showOpenFilePicker: async () => [await lent()] });
    });
  };
  const tab = await openTab(harness, { before });
  await tab.evaluate(async () => {
    await page.keeper.newBuild("a\nb\nc\nd\n", "sloop");
    await page.keeper.saveAs();
  });
  assert.match((await says(tab)) ?? "", /^Saved in sloop\.yaml, \d\d:\d\d$/);
  await tab.evaluate(() => {
    page.type("e\n");
  });
  assert.equal(await says(tab), "Saving in sloop.yaml");
  await expect.poll(() => fileText(tab, "sloop.yaml"), { timeout: 4000 }).toBe("a\nb\nc\nd\ne\n");
  await tab.reload();
  await isReady(tab);
  await tab.evaluate(async () => {
    const rows = await page.keeper.listBuilds();
    await page.keeper.openBuild(rows?.[0]?.id ?? "");
    const writer = await (await (await navigator.storage.getDirectory()).getFileHandle("sloop.yaml")).createWritable();
    await writer.write("A\nb\nc\nd\ne\n");
    await writer.close();
    page.type("f\n");
    window.dispatchEvent(new Event("focus"));
  });
  await expect.poll(() => textOf(tab)).toBe("A\nb\nc\nd\ne\nf\n");
  await expect.poll(() => fileText(tab, "sloop.yaml"), { timeout: 4000 }).toBe("A\nb\nc\nd\ne\nf\n");
  // The same file is the same plan.
  await tab.evaluate(async () => {
    await page.keeper.newBuild("x", "van");
    await page.keeper.openFile();
  });
  assert.equal(await textOf(tab), "A\nb\nc\nd\ne\nf\n");
  assert.equal((await tab.evaluate(() => page.keeper.listBuilds()))?.length, 2);
});

test("a browser without files of its own opens by a field and saves as a download", async ({ harness }) => {
  const tab = await openTab(harness, {
    before: async (context) => {
      await context.addInitScript(() => {
        Object.assign(window, { showSaveFilePicker: undefined, showOpenFilePicker: undefined });
      });
    },
  });
  const chooser = tab.waitForEvent("filechooser");
  const opening = tab.evaluate(() => page.keeper.openFile());
  await (
    await chooser
  ).setFiles({ name: "sloop.yaml", mimeType: "text/yaml", buffer: Buffer.from("\uFEFFa\r\nb\r\n") });
  assert.equal(await opening, null);
  assert.equal(await textOf(tab), "a\nb\n");
  await tab.evaluate(() => {
    page.type("c\n");
  });
  const download = tab.waitForEvent("download");
  assert.equal(await tab.evaluate(() => page.keeper.saveFile()), null);
  assert.equal((await download).suggestedFilename(), "sloop.yaml");
  const bytes = await buffer(await (await download).createReadStream());
  assert.deepEqual(bytes, Buffer.from("\uFEFFa\r\nb\r\nc\r\n"));
  assert.match((await says(tab)) ?? "", /^Downloaded as sloop\.yaml/);
});

test("a store that is denied or full is said, and the work goes on", async ({ harness }) => {
  const denied = await openTab(harness, {
    before: async (context) => {
      await context.addInitScript(() => {
        Object.defineProperty(globalThis, "indexedDB", {
          get: () => {
            throw new DOMException("no", "SecurityError");
          },
        });
      });
    },
  });
  await denied.evaluate(async () => {
    await page.keeper.newBuild("a", "sloop");
    page.type("b");
  });
  assert.match((await says(denied)) ?? "", /^Not saved since \d\d:\d\d: this browser lends no store/);
  assert.equal(await textOf(denied), "ab");

  const full = await openTab(harness);
  await full.evaluate(() => page.keeper.newBuild("a", "sloop"));
  // The driver's own limit has no effect on profiles that live in memory, so the transaction is ended as a full disk ends it.
  await full.evaluate(() => {
    const shelf = IDBObjectStore.prototype;
    const own = Object.getOwnPropertyDescriptor(shelf, "put") ?? {};
    Object.assign(globalThis, { makeRoom: () => Object.defineProperty(shelf, "put", own) });
    shelf.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
      const request = this.add(value, key);
      Object.defineProperty(this.transaction, "error", { value: new DOMException("full", "QuotaExceededError") });
      this.transaction.abort();
      return request;
    };
  });
  await full.evaluate(() => {
    page.type("b".repeat(1_000_000));
  });
  await expect.poll(() => says(full)).toMatch(/^Not saved since \d\d:\d\d: the disk is full/);
  assert.equal((await textOf(full))?.length, 1_000_001);
  await full.evaluate(() => {
    (globalThis as unknown as { makeRoom: () => void }).makeRoom(); // put there above
    page.type("c");
  });
  await expect.poll(() => says(full)).toBe("Kept in this browser only");
});

/** The tab's title tells that a newer version is ready, and how often that was told. */
const register = (tab: Page): Promise<void> =>
  tab.evaluate(async () => {
    await page.registerWorker((takeOver) => {
      document.title += ", newer there";
      Object.assign(globalThis, { takeOver });
    }, page.keeper.settle);
    await navigator.serviceWorker.ready;
  });

test("the page works without a network after its first visit; a newer one waits until it is asked for", async ({
  harness,
}) => {
  const tab = await openTab(harness);
  /** Whether what a tab shows came by loading it anew. */
  const isReloaded = (tab: Page): Promise<boolean> =>
    tab.evaluate(() =>
      performance
        .getEntriesByType("navigation")
        .some((one) => one instanceof PerformanceNavigationTiming && one.type === "reload"),
    );
  await register(tab);
  await tab.waitForFunction(() => navigator.serviceWorker.controller !== null);
  assert.equal(await isReloaded(tab), false, "the first worker replaces nothing");
  await tab.context().setOffline(true);
  await tab.goto(`${address}?plan=x#view=text`);
  await isReady(tab);
  assert.equal(await tab.title(), "first");
  await tab.context().setOffline(false);
  try {
    const beside = await openTab(harness, { beside: tab });
    await register(beside);
    await putUp("second");
    await tab.reload();
    await isReady(tab);
    await register(tab);
    for (const one of [tab, beside]) await one.waitForFunction(() => document.title === "first, newer there");
    // A tab whose work is stored in time goes along; what was typed last is there afterwards.
    await beside.evaluate(async () => {
      await page.keeper.newBuild("a", "sloop");
    });
    await Promise.all([
      beside.evaluate(() => {
        page.type("b");
      }),
      tab.evaluate(() => {
        (globalThis as unknown as { takeOver: () => void }).takeOver();
      }),
    ]);
    for (const one of [tab, beside]) await one.waitForFunction(() => document.title === "second");
    assert.equal((await tab.evaluate(() => caches.keys())).length, 1, "the old version is cleared away");
    await isReady(beside);
    const rows = await beside.evaluate(() => page.keeper.listBuilds());
    await beside.evaluate((id) => page.keeper.openBuild(id), rows?.[0]?.id ?? "");
    assert.equal(await textOf(beside), "ab");
  } finally {
    await putUp("first");
  }
});

test("a tab whose work is kept nowhere stays when a newer page takes over, and says so", async ({ harness }) => {
  const tab = await openTab(harness);
  await register(tab);
  await tab.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const beside = await openTab(harness, { beside: tab });
  try {
    await register(beside);
    await beside.evaluate(async () => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
      await page.keeper.newBuild("a", "sloop");
      page.type("b");
    });
    await putUp("second");
    await tab.reload();
    await isReady(tab);
    await register(tab);
    for (const one of [tab, beside]) await one.waitForFunction(() => document.title.endsWith(", newer there"));
    await tab.evaluate(() => {
      (globalThis as unknown as { takeOver: () => void }).takeOver();
    });
    await tab.waitForFunction(() => document.title === "second");
    await beside.waitForFunction(() => document.title === "first, newer there, newer there");
    assert.equal(await textOf(beside), "ab");
  } finally {
    await putUp("first");
  }
});
