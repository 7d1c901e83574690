import { afterAll, expect } from "vitest";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { inject } from "vitest";
import type { Server } from "node:http";
import { makePlan } from "../../bench/make-plan.ts";
import { sorted } from "../../bench/time.ts";
import { timeKeys, watchKeys } from "../../bench/time-page.ts";
import { test } from "./harness.ts";
import { addressOf, serveFolder } from "./set-up.ts";
import { drawn, isThere } from "./steps.ts";

/**
 * From a key in the text to the drawing and the notes that go with it. The true figures are those of `npm run bench`, on a machine with nothing else to
 * do; here, beside all other tests, only what has become slower by far is found.
 */
const MARGIN = 20;

const servers: Server[] = [];
afterAll(async () => {
  for (const server of servers) {
    server.closeAllConnections();
    server.close();
    await once(server, "close");
  }
});

const sloop = readFileSync(join(import.meta.dirname, "../../examples/sloop.yaml"), "utf8");

for (const { name, text, circuit, goalMs, keys } of [
  { name: "the sloop", text: sloop, circuit: "W13", goalMs: 50, keys: 24 },
  { name: "400 circuits", text: makePlan(400), circuit: "W6", goalMs: 120, keys: 8 },
]) {
  test(`a key is answered on the drawing: ${name}`, async ({ harness }) => {
    const server = await serveFolder(inject("pageFolder"), text);
    servers.push(server);
    const page = await harness.open({ address: addressOf(server), path: "?plan=plan.yaml", before: watchKeys });
    await isThere(drawn(page, `circuits.${circuit}`));
    const { median, slow } = sorted((await timeKeys(page, circuit, keys + 4)).slice(4));
    console.log(`${name}: ${median.toFixed(0)} ms, 95th percentile ${slow.toFixed(0)} ms; goal ${goalMs} ms`);
    expect(median).toBeLessThan(MARGIN * goalMs);
  });
}
