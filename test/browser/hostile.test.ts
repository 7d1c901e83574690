import { expect } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { makePlan } from "../../bench/make-plan.ts";
import { namedPlan } from "../fixtures/hostile-texts.ts";
import { test } from "./harness.ts";
import { drawn, goTo, isThere, openExample, settled, textOfPlan, things, undo } from "./steps.ts";

/** Whatever is pasted into the text: nothing of it runs, nothing breaks, and the way back is one undo. */

async function openText(page: Page): Promise<void> {
  await openExample(page, "sloop");
  await goTo(page, /Text/);
}

/** Pastes over the whole plan, as a person does: all is chosen, then one insertion. */
async function paste(page: Page, text: string): Promise<void> {
  const editor = page.getByRole("main", { name: "Text of the plan" }).getByRole("textbox");
  await editor.click();
  await page.keyboard.press("ControlOrMeta+a");
  await editor.evaluate((node, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", pasted);
    node.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

/** What is tried in the name of each kind of thing. */
const MARKUP = {
  system: `{{constructor.constructor('globalThis.ran=1')()}}`,
  // These stand in paths, where no quotes are.
  battery: `<svg onload=ran=1>`,
  switch: `</text><script>ran=1</script>`,
  load: `<img src=x onerror=ran=1>`,
  wire: `"><script>globalThis.ran=1</script>`,
  zone: `</title><svg onload="globalThis.ran=1">`,
  state: `]]><a href="javascript:globalThis.ran=1">x</a>`,
};

test("markup in names is shown as it was written, and never runs", async ({ harness }) => {
  const page = await harness.open();
  await openText(page);
  const quoted = Object.fromEntries(
    Object.entries(MARKUP).map(([what, name]) => [what, /["']|\{/.test(name) ? JSON.stringify(name) : name]),
  );
  await paste(page, namedPlan(quoted));
  for (const view of [/Schedules/, /Findings/, /Wire desk/, /One-line/]) {
    await goTo(page, view);
    await settled(page);
    const seen = await page.evaluate(() => ({
      ran: "ran" in globalThis,
      scripts: document.querySelectorAll("script:not([src]), iframe, img[src=x], a[href^='javascript:']").length,
      handlers: [...document.querySelectorAll("*")].flatMap((el) =>
        el.getAttributeNames().filter((name) => name.startsWith("on")),
      ),
    }));
    assert.deepEqual(seen, { ran: false, scripts: 0, handlers: [] });
  }
  await isThere(things(page));
  // It is shown, and not merely left out.
  await expect.poll(() => page.getByRole("heading", { level: 1 }).innerText()).toContain(MARKUP.load);
});

const JUNK = {
  "control characters": "\u0000\u0001\ufeff\u202e\ud800 \u2028 junk",
  "another kind of file": "<!doctype html><html><body>not a plan</body></html>",
  "signs of the grammar": "{ [ ( : - & * ! | > ' \" % @ `",
  "a name that holds itself": "a: &a [*a, *a]\nb: *a\n",
  nothing: "",
  "wrong kinds": "wireworthy: 99\nparts: 7\ncircuits: []\nstates: yes\n",
};

test("junk and half a file are met with words, and the plan that stood before is one undo away", async ({
  harness,
}) => {
  const page = await harness.open();
  await openText(page);
  const sloop = readFileSync(join(import.meta.dirname, "../../examples/sloop.yaml"), "utf8");
  const name = page.getByRole("heading", { level: 1 });
  for (const [what, text] of Object.entries({ "half of it": sloop.slice(0, sloop.length / 2), ...JUNK })) {
    await paste(page, text);
    await expect.poll(() => undo(page).getAttribute("aria-label"), { message: what }).not.toMatch(/nothing/);
    await settled(page);
    await undo(page).click();
    await expect.poll(() => undo(page).getAttribute("aria-label"), { message: what }).toMatch(/nothing/);
    await expect.poll(() => name.innerText(), { message: what }).toMatch(/Coastal sloop/);
  }
  assert.equal(await textOfPlan(page), sloop);
  await isThere(things(page));
});

test("ten thousand lines are taken, and the page goes on answering", async ({ harness }) => {
  const page = await harness.open();
  await openText(page);
  const plan = makePlan(400);
  const filler = Array.from({ length: 10_000 - plan.split("\n").length }, (_, i) => `# line ${i}: nothing`).join("\n");
  await paste(page, `${plan}${filler}\n`);
  await goTo(page, /One-line/);
  await isThere(drawn(page, "parts.PNL20"));
  // The page itself is never held up by the compiler: a frame comes while it works.
  await goTo(page, /Text/);
  const frame = await page.evaluate(async () => {
    const from = performance.now();
    await new Promise((resolve) => requestAnimationFrame(resolve));
    return performance.now() - from;
  });
  assert.ok(frame < 1000, `${frame} ms to a frame`);
  assert.doesNotMatch((await undo(page).getAttribute("aria-label")) ?? "", /nothing/);
});
