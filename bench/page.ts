import { once } from "node:events";
import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { readPage, serveFiles } from "../src/cli/page-server.ts";
import { launchOptions } from "../test/browser/find-browser.ts";
import { buildPage, weighFirstLoad } from "../tools/build-page.ts";
import type { Row } from "./bench.ts";
import { makePlan } from "./make-plan.ts";
import { sorted } from "./time.ts";
import { timeFirstLoad, timeKeys, watchKeys } from "./time-page.ts";

const root = join(import.meta.dirname, "..");
const KIB = 1024;

/** What people wait for on the page, in a browser: its bytes, its first load, and a key in the text until the new drawing is on the screen. */
export async function pageRows(): Promise<Row[]> {
  const folder = join(root, "out", "bench", "page");
  const { firstFiles } = await buildPage(folder);
  const { gzip, brotli } = weighFirstLoad(folder, firstFiles);
  const rows: Row[] = [
    { work: "the page, bytes of the first load packed by gzip, KiB", value: gzip / KIB, goal: 400 },
    { work: "the page, the same by brotli, KiB", value: brotli / KIB, goal: 400 },
  ];
  const browser = await chromium.launch(launchOptions());
  try {
    const sloop = readFileSync(join(root, "examples", "sloop.yaml"), "utf8");
    for (const { name, text, circuit, goalMs } of [
      { name: "sloop", text: sloop, circuit: "W13", goalMs: 50 },
      { name: "400 circuits", text: makePlan(400), circuit: "W6", goalMs: 120 },
    ]) {
      const server = await serve(folder, text);
      const address = `${addressOf(server)}?plan=plan.yaml`;
      if (name === "sloop") {
        const loads: Awaited<ReturnType<typeof timeFirstLoad>>[] = [];
        for (let k = 0; k < 9; k++) loads.push(await timeFirstLoad(browser, address));
        const times = (of: "paint" | "drawn") => sorted(loads.map((load) => load[of]));
        rows.push({ work: "first load until something is seen", ...times("paint"), goalMs: 1000, beside: null });
        rows.push({ work: "first load until the sloop is drawn", ...times("drawn"), goalMs: 1500, beside: null });
      }
      const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
      await watchKeys(context);
      const page = await context.newPage();
      await page.goto(address);
      await page.locator(`[data-main="circuits.${circuit}"]`).waitFor({ state: "attached" });
      // The first are spent on warming up.
      const times = (await timeKeys(page, circuit, 70)).slice(10);
      rows.push({
        work: `a key in the text until it is drawn and judged: ${name}`,
        ...sorted(times),
        goalMs,
        beside: null,
      });
      await context.close();
      server.closeAllConnections();
      server.close();
    }
  } finally {
    await browser.close();
  }
  return rows;
}

async function serve(folder: string, plan: string): Promise<Server> {
  const files = await readPage(folder, plan);
  if (files === null) throw new Error(`${folder} holds no page`);
  const server = serveFiles(files).listen(0, "127.0.0.1");
  await once(server, "listening");
  return server;
}

function addressOf(server: Server): string {
  const bound = server.address();
  if (typeof bound !== "object" || bound === null) throw new Error("the server does not listen");
  return `http://127.0.0.1:${bound.port}/`;
}
