import { afterAll, beforeAll, describe, expect } from "vitest";
import assert from "node:assert/strict";
import { build } from "esbuild";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { CONTENT_POLICY } from "../../tools/build-page.ts";
import type { KeptBuild } from "../../src/workbench/start/kept-build.ts";
import { countActions, expectNoAxeFaults, inDark, shoot, test, type Harness, type Opening } from "./harness.ts";
import { addressOf, serveFolder } from "./set-up.ts";
import type { StartMore, StartTestPage } from "./start-page.ts";

/** Start, the wire desk, the ask field and the settings, over a bench that answers by the real compiler and does nothing else. */

const root = join(import.meta.dirname, "../..");
const folder = join(root, "out/test", `start-${process.pid}`);
let server: Server;

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  await build({
    entryPoints: { page: join(root, "test/browser/start-page.ts") },
    outdir: folder,
    bundle: true,
    format: "esm",
    jsx: "automatic",
    jsxImportSource: "preact",
    target: "es2023",
    minify: true,
  });
  // Here all styles are in one sheet; what comes later asks for its own.
  writeFileSync(join(folder, "later.css"), "");
  writeFileSync(
    join(folder, "index.html"),
    `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="${CONTENT_POLICY}"><title>Wireworthy</title><link rel="icon" href="data:,">
<link rel="stylesheet" href="page.css"><script type="module" src="page.js"></script></head><body><div id="root"></div></body></html>\n`,
  );
  server = await serveFolder(folder);
});
afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

/** What the page of the test put there. */
interface Inside {
  readonly page: StartTestPage;
}

async function open(
  harness: Harness,
  view: "start" | "wire-desk",
  opening: Opening & { readonly more?: Opening["more"]; readonly shown?: StartMore } = {},
): Promise<Page> {
  const { shown = {}, ...rest } = opening;
  const page = await harness.open({ address: addressOf(server), ...rest });
  await page.waitForFunction("'page' in globalThis");
  await page.evaluate(
    ([name, more]) => {
      const inside = globalThis as unknown as Inside; // put there by start-page.ts
      inside.page.show(name, {}, more);
    },
    [view, shown] as const,
  );
  await page.getByRole("main").waitFor();
  return page;
}

const callsOf = (page: Page): Promise<readonly (readonly unknown[])[]> =>
  page.evaluate(() => (globalThis as unknown as Inside).page.fake.calls.map((call) => [...call])); // put there by start-page.ts

const answer = (page: Page) => page.getByRole("region", { name: "Answer" });

const kept: readonly KeptBuild[] = [
  {
    id: "a",
    name: "Coastal sloop",
    revision: "B",
    fileName: "sloop.yaml",
    savedSays: "saved today 14:02",
    tallySays: "2 must, 1 cannot tell",
    status: "fail",
    changesNotInFile: 0,
    hasCopies: true,
    recovered: false,
  },
  {
    id: "b",
    name: "Expedition van",
    revision: "D",
    fileName: "van.yaml",
    savedSays: "last change yesterday 22:41",
    tallySays: "",
    status: null,
    changesNotInFile: 7,
    hasCopies: false,
    recovered: true,
  },
];

describe("start", () => {
  for (const size of ["desk", "tablet", "phone"] as const) {
    test(`fits a ${size}, and can be read by everybody in light and dark`, async ({ harness }) => {
      const page = await open(harness, "start", { size, shown: { builds: kept } });
      await page.getByText("mm²", { exact: false }).first().waitFor();
      await expectNoAxeFaults(page);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
      await shoot(page, `start-${size}-light`);
      await inDark(page, async () => {
        await shoot(page, `start-${size}-dark`);
        await expectNoAxeFaults(page, "colours");
      });
    });
  }

  test("six plain questions ask for a plan in six actions, by keys as well", async ({ harness }) => {
    const page = await open(harness, "start", { more: { locale: "de-DE" } });
    const hands = countActions(page);
    await hands.key("3");
    await hands.key("Enter"); // boat
    await hands.key("Enter"); // nothing yet
    await hands.typeInto(page.getByRole("textbox", { name: /^battery/ }), "LiFePO4 12 V 100 Ah");
    await hands.key("Enter"); // no shore
    await hands.key("Enter"); // rules of the country, kept
    await hands.typeInto(page.getByRole("textbox", { name: /^first load/ }), "fridge 45 W, start 8 A, 3 m");
    assert.equal(hands.count(), 7);
    const answers = {
      what: "boat",
      there: "nothing",
      battery: "LiFePO4 12 V 100 Ah",
      shore: "none",
      rules: "iso-small-craft",
      country: "DE",
      load: "fridge 45 W, start 8 A, 3 m",
    };
    await expect.poll(() => callsOf(page)).toContainEqual(["newPlan", { do: "new-plan", answers }]);
  });

  test("an answer is taken back, what is refused says so beside its field, and all can be skipped", async ({
    harness,
  }) => {
    const page = await open(harness, "start");
    const button = (name: string | RegExp) => page.getByRole("button", { name, exact: true });
    await button("van").click();
    await button("old wiring to check").click();
    await button("change: van").click();
    await button("cabin").click();
    await page.evaluate(() => {
      const { fake } = (globalThis as unknown as Inside).page; // put there by start-page.ts
      fake.outcome = { ok: false, message: "`45` needs a unit", hint: "write `45 W`" };
    });
    await button("Skip the rest").click();
    await page.getByText("`45` needs a unit; write `45 W`").waitFor();
    assert.deepEqual((await callsOf(page)).at(-1), [
      "newPlan",
      { do: "new-plan", answers: { what: "cabin", there: "old wiring" } },
    ]);
  });

  test("builds are opened, those found after a crash first, and forgotten only when asked twice", async ({
    harness,
  }) => {
    const page = await open(harness, "start", { shown: { builds: kept } });
    const rows = page.getByRole("listitem").filter({ hasText: /sloop\.yaml|not yet in a file/ });
    await expect.poll(() => rows.first().innerText()).toContain("7 changes not yet in a file, found after a crash");
    await page.getByRole("button", { name: "Look and keep Expedition van" }).click();
    await page.getByRole("button", { name: "Forget Coastal sloop …" }).click();
    assert.deepEqual(
      await callsOf(page),
      [
        ["setUnits", expect.anything()],
        ["openBuild", "b"],
      ].slice(1),
    );
    await page.getByRole("button", { name: "Forget Coastal sloop", exact: true }).click();
    assert.deepEqual((await callsOf(page)).at(-1), ["forget", "a"]);
  });

  test("good copies of a kept plan are listed and opened beside", async ({ harness }) => {
    const rows = await open(harness, "start", { shown: { builds: kept } });
    assert.equal(await rows.getByRole("button", { name: /^Good copies/ }).count(), 1, "where there are any");
    await rows.getByRole("button", { name: "Good copies of Coastal sloop" }).click();
    assert.deepEqual((await callsOf(rows)).at(-1), ["copies", "a"]);

    const page = await open(harness, "start", { shown: { keeps: "one" } });
    await page.getByRole("button", { name: "Good copies of Coastal sloop" }).click();
    const dialog = page.getByRole("dialog", { name: "Good copies of Coastal sloop" });
    await dialog.getByText(/, revision B$/).waitFor();
    await expectNoAxeFaults(page);
    await shoot(page, "start-copies");
    await dialog.getByRole("button", { name: /^Open beside: copy of / }).click();
    await dialog.waitFor({ state: "detached" });
    const sloop = "wireworthy: 1\nname: Coastal sloop\n";
    assert.deepEqual((await callsOf(page)).at(-1), ["openText", sloop, "Coastal sloop, copy"]);
  });

  test("an address whose plan is not kept here is told, and only then", async ({ harness }) => {
    const gone = /not kept in this browser any more/;
    const page = await open(harness, "start", { shown: { keeps: "another" } });
    await page.getByRole("status").filter({ hasText: gone }).waitFor();
    await expectNoAxeFaults(page);
    const other = await open(harness, "start", { shown: { keeps: "one" } });
    await other.getByRole("button", { name: "Open Coastal sloop" }).waitFor();
    assert.equal(await other.getByText(gone).count(), 0);
  });

  test("without builds there is no row for them, and a file can be dropped", async ({ harness }) => {
    const page = await open(harness, "start");
    assert.equal(await page.getByText("Go on where you left").count(), 0);
    await page.evaluate(() => {
      const data = new DataTransfer();
      data.items.add(new File(["wireworthy: 1\r\n"], "mine.yaml"));
      dispatchEvent(new DragEvent("drop", { dataTransfer: data, cancelable: true }));
    });
    await expect.poll(async () => (await callsOf(page)).map(([name]) => name)).toContain("openDropped");
  });

  test("the question of the card goes with whoever opens the desk", async ({ harness }) => {
    const page = await open(harness, "start");
    await page.keyboard.press("1");
    await page.keyboard.type("60 W");
    await page.getByText(/mm²/).first().waitFor();
    await page.getByRole("button", { name: "Open the wire desk" }).click();
    assert.deepEqual((await callsOf(page)).at(-1), ["go", "wire-desk"]);
    await page.evaluate(() => {
      (globalThis as unknown as Inside).page.show("wire-desk"); // put there by start-page.ts
    });
    assert.equal(await page.getByLabel("load, amps or watts").inputValue(), "60 W");
  });
});

describe("the wire desk", () => {
  for (const [size, theme] of [
    ["desk", "light"],
    ["phone", "dark"],
  ] as const) {
    test(`fits a ${size} in ${theme}, and can be read by everybody`, async ({ harness }) => {
      const page = await open(harness, "wire-desk", { size, theme });
      await page.getByRole("button", { name: "fridge that starts" }).click();
      await page.getByRole("button", { name: "Why", exact: true }).click();
      await answer(page).getByText("◀ decides").waitFor();
      await expectNoAxeFaults(page);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
      await shoot(page, `wire-desk-${size}-${theme}`);
    });
  }

  test("answers each blank as it is filled in, and says why one size less does not do", async ({ harness }) => {
    const page = await open(harness, "wire-desk");
    const blank = (name: string) => page.getByLabel(name);
    await blank("load, amps or watts").fill("52 W");
    await blank("length of the run").fill("5.2 m");
    await answer(page).getByText("10.4 m of wire; 5.2 m one way").waitFor();
    await blank("how the length is meant").selectOption("there and back");
    await answer(page).getByText("5.2 m of wire; 2.6 m one way").waitFor();
    await blank("greatest voltage drop").fill("1 %");
    await answer(page)
      .getByText(/limit 1 %/)
      .first()
      .waitFor();
    await answer(page)
      .getByText(/it would lose .* the limit is 1 %/)
      .waitFor();
  });

  test("asks a doubtful figure back and never guesses", async ({ harness }) => {
    const page = await open(harness, "wire-desk");
    const length = page.getByLabel("length of the run");
    await length.fill("1,000 m");
    await page.getByText("`1,000` can mean 1.000 or 1000").waitFor();
    assert.equal(await length.getAttribute("aria-invalid"), "true");
    await answer(page).getByText("The answer waits for one blank of the sentence.").waitFor();
    await page.getByRole("button", { name: "1.000 m" }).click();
    await answer(page).getByText("2 m of wire; 1 m one way").waitFor();
  });

  test("shows no answer to an earlier question as that to the last", async ({ harness }) => {
    const page = await open(harness, "wire-desk");
    await answer(page).getByText("6 m of wire; 3 m one way").waitFor();
    await page.evaluate(() => {
      (globalThis as unknown as Inside).page.answers = "slow"; // put there by start-page.ts
    });
    const length = page.getByLabel("length of the run");
    await length.fill("4 m");
    await length.fill("5 m");
    await answer(page).getByText("working …").waitFor();
    await page.evaluate(() => {
      (globalThis as unknown as Inside).page.release(); // as above
    });
    await answer(page).getByText("10 m of wire; 5 m one way").waitFor();
    assert.equal(await answer(page).getByText("working …").count(), 0);
  });

  test("says so when the worker breaks, and answers the next question", async ({ harness }) => {
    const page = await open(harness, "wire-desk");
    const set = (answers: StartTestPage["answers"]) =>
      page.evaluate((how) => {
        (globalThis as unknown as Inside).page.answers = how; // put there by start-page.ts
      }, answers);
    await set("broken");
    await page.getByLabel("length of the run").fill("4 m");
    await answer(page).getByText("The desk broke on this question: the worker stopped.").waitFor();
    await set("quick");
    await page.getByLabel("length of the run").fill("5 m");
    await answer(page).getByText("10 m of wire; 5 m one way").waitFor();
  });

  test("takes the question of the address, and follows it", async ({ harness }) => {
    const page = await open(harness, "wire-desk", { path: "#wire-desk?load=20+A&volts=24+V&run=7+m" });
    await answer(page).getByText("14 m of wire; 7 m one way").waitFor();
    await page.evaluate(() => {
      location.hash = "#wire-desk?load=20+A&volts=24+V&run=8+m";
    });
    await answer(page).getByText("16 m of wire; 8 m one way").waitFor();
  });

  test("works in a browser that lends no store", async ({ harness }) => {
    const page = await open(harness, "wire-desk", {
      before: async (context) => {
        await context.addInitScript(() => {
          Object.defineProperty(globalThis, "localStorage", {
            get: () => {
              throw new DOMException("denied", "SecurityError");
            },
          });
        });
      },
    });
    await page.getByRole("button", { name: /^Units and look/ }).click();
    await page.getByRole("radio", { name: "1,5" }).check();
    await page.getByText("This browser keeps nothing between visits").waitFor();
    await page.getByRole("button", { name: "Close" }).click();
    await answer(page)
      .getByText(/loses \d+,\d\d V/)
      .waitFor();
  });
});

/** The offer that the field points at; the sentence of the desk has options of its own. */
const chosen = (page: Page) => page.getByRole("listbox", { name: "Offers" }).getByRole("option", { selected: true });

describe("the ask field", () => {
  test("is reached by Ctrl K, walked by arrows, taken by Enter, left by Esc", async ({ harness }) => {
    const page = await open(harness, "wire-desk");
    const field = page.getByRole("combobox", { name: "Ask why, find, or do" });
    await page.keyboard.press("Control+k");
    await expect.poll(() => field.evaluate((node) => node === document.activeElement)).toBe(true);
    await page.keyboard.type("fri");
    await page.getByRole("option", { name: /^fridge/ }).waitFor();
    await expectNoAxeFaults(page);
    await shoot(page, "ask-desk");
    assert.equal(await chosen(page).count(), 1);
    await page.keyboard.press("ArrowDown");
    await expect.poll(() => chosen(page).innerText()).toMatch(/^W13/);
    const active = await field.getAttribute("aria-activedescendant");
    assert.equal(await chosen(page).getAttribute("id"), active);
    await page.keyboard.press("Enter");
    await expect
      .poll(() => callsOf(page))
      .toContainEqual(["take", expect.objectContaining({ kind: "go", says: "W13" })]);
    await page.keyboard.press("/");
    await page.keyboard.type("x");
    await page.keyboard.press("Escape");
    assert.equal(await field.inputValue(), "");
    assert.equal(await field.getAttribute("aria-expanded"), "false");
  });

  test("never takes what was offered for an earlier text", async ({ harness }) => {
    const page = await open(harness, "wire-desk");
    await page.keyboard.press("Control+k");
    await page.keyboard.type("fri");
    await page.getByRole("option", { name: /^fridge/ }).waitFor();
    await page.keyboard.type(" nothing");
    await page.keyboard.press("Enter");
    await page
      .getByText(/nothing is called that/i)
      .first()
      .waitFor();
    assert.deepEqual(
      (await callsOf(page)).filter(([name]) => name === "take"),
      [],
    );
  });

  test("is a sheet of its own on a phone", async ({ harness }) => {
    const page = await open(harness, "wire-desk", { size: "phone" });
    await page.getByRole("button", { name: "Ask", exact: true }).click();
    await page.keyboard.type("fri");
    await page.getByRole("option", { name: /^fridge/ }).waitFor();
    const box = await page.locator(".ask-sheet").boundingBox();
    assert.deepEqual([box?.x, box?.y, box?.width], [0, 0, 390]);
    const option = await page.getByRole("option").first().boundingBox();
    assert.ok((option?.height ?? 0) >= 44);
    await shoot(page, "ask-phone");
    await page.getByRole("button", { name: "Close" }).click();
    await page.locator(".ask-sheet").waitFor({ state: "hidden" });
  });
});

describe("settings", () => {
  test("are kept for the next visit and shown at once", async ({ harness }) => {
    const page = await open(harness, "start");
    await page.getByRole("button", { name: /^Units and look/ }).click();
    await page.getByRole("radio", { name: "feet and inches" }).check();
    await page.getByRole("radio", { name: "dark", exact: true }).check();
    await page.getByRole("radio", { name: "ink and shapes only" }).check();
    await expectNoAxeFaults(page);
    const look = (of: Page) =>
      of.evaluate(() => ["theme", "contrast"].map((name) => document.documentElement.dataset[name]));
    assert.deepEqual(await look(page), ["dark", "more"]);
    const next = await open(harness, "start", { beside: page });
    await next.getByRole("button", { name: /ft in/ }).waitFor();
    assert.deepEqual(await look(next), ["dark", "more"]);
  });

  test("? shows the keys of the view, and single keys can be switched off", async ({ harness }) => {
    const page = await open(harness, "start");
    await page.keyboard.press("?");
    await page.getByRole("dialog", { name: "Keys of this view" }).getByText("lay out your own").waitFor();
    await expectNoAxeFaults(page);
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.getByRole("button", { name: /^Units and look/ }).click();
    await page.getByRole("group", { name: "Single-letter keys" }).getByRole("radio", { name: "off" }).check();
    await page.keyboard.press("Escape");
    await page.keyboard.press("3");
    await page.keyboard.press("?");
    assert.equal(await page.getByRole("dialog").count(), 0);
    assert.equal(
      await page.evaluate(() => document.activeElement?.textContent),
      await page.getByRole("button", { name: /^Units and look/ }).textContent(),
    );
  });
});
