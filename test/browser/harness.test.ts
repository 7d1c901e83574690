import { afterAll, beforeAll, describe } from "vitest";
import assert from "node:assert/strict";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { join } from "node:path";
import { CONTENT_POLICY } from "../../tools/build-page.ts";
import { countActions, expectNoAxeFaults, sizes, test } from "./harness.ts";
import { addressOf, serveFolder } from "./set-up.ts";

/** The harness sees what it is there to see: a planted fault of each kind. */

const folder = join(import.meta.dirname, "../../out/test", `planted-${process.pid}`);
let server: Server;
let address = "";

const pageOf = (name: string, body: string): void => {
  const policy = `<meta http-equiv="Content-Security-Policy" content="${CONTENT_POLICY}">`;
  const head = `<meta charset="utf-8">${policy}<title>${name}</title><link rel="icon" href="data:,">`;
  writeFileSync(join(folder, `${name}.html`), `<!doctype html><html lang="en"><head>${head}</head>${body}</html>\n`);
};

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  pageOf("index", `<body><main><h1>sound</h1><label>name <input></label><button>go</button></main></body>`);
  const scripts = {
    throws: `throw new Error("planted");`,
    says: `console.error("planted");`,
    asks: `new Image().src = "https://elsewhere.invalid/a.png"; fetch("https://elsewhere.invalid/").catch(() => 0);`,
    misses: `fetch("none.js");`,
    works: `new Worker("worker.js", { type: "module" });`,
  };
  writeFileSync(join(folder, "worker.js"), `fetch("none.js"); throw new Error("planted in a worker");`);
  for (const [name, script] of Object.entries(scripts)) {
    writeFileSync(join(folder, `${name}.js`), script);
    pageOf(name, `<body><main><h1>${name}</h1></main><script src="${name}.js"></script></body>`);
  }
  pageOf("inline", `<body><main><h1>inline</h1></main><script>document.title = "ran";</script></body>`);
  pageOf("unnamed", `<body><main><h1>unnamed</h1><input><p style="color:#bbb">pale</p></main></body>`);
  server = await serveFolder(folder);
  address = addressOf(server);
});
afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("a fault of the page is seen", () => {
  for (const [name, says] of [
    ["throws", /thrown: Error: planted/],
    ["says", /console: planted/],
    ["asks", /violates the following Content Security Policy directive/],
    ["misses", /answered 404: .*none\.js/],
    ["works", /answered 404: .*none\.js/],
    ["inline", /violates the following Content Security Policy directive/],
  ] as const) {
    test(name, async ({ harness }) => {
      const page = await harness.open({ address, path: `${name}.html` });
      await page.waitForLoadState("networkidle");
      const faults = harness.faults.splice(0);
      assert.ok(
        faults.some((fault) => says.test(fault)),
        faults.join("\n"),
      );
      assert.notEqual(await page.title(), "ran");
    });
  }
});

test("a fault of accessibility is seen, and none where there is none", async ({ harness }) => {
  const sound = await harness.open({ address });
  await expectNoAxeFaults(sound);
  const page = await harness.open({ address, path: "unnamed.html" });
  await assert.rejects(expectNoAxeFaults(page), /label .*input[\s\S]*color-contrast|color-contrast[\s\S]*label/);
});

test("what a person does is counted", async ({ harness }) => {
  const page = await harness.open({ address });
  const hands = countActions(page);
  await hands.typeInto(page.getByRole("textbox", { name: "name" }), "fridge");
  assert.equal(hands.count(), 2);
  await hands.typeInto(page.getByRole("textbox", { name: "name" }), "pump");
  assert.equal(hands.count(), 3);
  await hands.click(page.getByRole("button", { name: "go" }));
  await hands.key("Tab");
  assert.equal(hands.count(), 5);
  assert.equal(await page.getByRole("textbox").inputValue(), "pump");
});

test("a screen is as it was ordered", async ({ harness }) => {
  const page = await harness.open({ address, size: "phone", theme: "dark", forcedColours: true });
  const seen = await page.evaluate(() => ({
    width: innerWidth,
    dark: matchMedia("(prefers-color-scheme: dark)").matches,
    forced: matchMedia("(forced-colors: active)").matches,
    still: matchMedia("(prefers-reduced-motion: reduce)").matches,
    touch: navigator.maxTouchPoints > 0,
  }));
  assert.deepEqual(seen, { width: sizes.phone.width, dark: true, forced: true, still: true, touch: true });
});
