import axe from "axe-core";
import { afterAll, beforeAll, describe, inject, test } from "vitest";
import assert from "node:assert/strict";
import type { Browser, Page } from "playwright-core";
import type { BenchState } from "../../src/workbench/contract.ts";
import type { PagePlan } from "../../src/workbench/worker/protocol.ts";
import { connect } from "./find-browser.ts";
import type { LoneViewPage } from "./lone-view-page.ts";
import { COLOUR_RULES } from "./harness.ts";
import { bundleViews, openPage, readExample, type Example } from "./lone-views.ts";

/** Schedules, findings and why, each alone over a bench that only writes down what it is asked. */

let browser: Browser;
let views: Awaited<ReturnType<typeof bundleViews>>;
const sloop = readExample("sloop");

beforeAll(async () => {
  browser = await connect(inject("browserEndpoint"));
  views = await bundleViews();
});
afterAll(() => browser.close());

type View = Parameters<LoneViewPage["show"]>[0];
type Screen = Parameters<Browser["newPage"]>[0];
const desk: Screen = { viewport: { width: 1440, height: 900 } };
const phone: Screen = { viewport: { width: 390, height: 844 } };

async function withView(
  view: View,
  does: (page: Page) => Promise<void>,
  {
    example = sloop,
    plan = example.plan,
    screen = desk,
  }: { example?: Example; plan?: PagePlan | null; screen?: Screen } = {},
): Promise<void> {
  const page = await openPage(browser, example, views, screen);
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  try {
    await page.evaluate(([v, p, t]) => (globalThis as unknown as { page: LoneViewPage }).page.show(v, p, t), [
      view,
      plan,
      example.text,
    ] as const); // put there by the bundle
    await does(page);
    assert.deepEqual(faults, []);
  } finally {
    await page.close();
  }
}

/** What was done, of one name. */
const calls = (page: Page, name: string): Promise<readonly (readonly unknown[])[]> =>
  page.evaluate((n) => {
    const { fake } = (globalThis as unknown as { page: LoneViewPage }).page; // put there by the bundle
    return (fake?.calls ?? []).filter(([called]) => called === n).map(([, ...given]) => given);
  }, name);
const set = (page: Page, change: Partial<BenchState>): Promise<void> =>
  page.evaluate((c) => {
    (globalThis as unknown as { page: LoneViewPage }).page.fake?.set(c); // put there by the bundle
  }, change);
const nextOutcome = (page: Page, message: string): Promise<void> =>
  page.evaluate((m) => {
    const { fake } = (globalThis as unknown as { page: LoneViewPage }).page; // put there by the bundle
    if (fake !== null) fake.outcome = { ok: false, message: m, hint: "write `3.2 m` or `3.2 ft`" };
  }, message);
const focused = (page: Page): Promise<string> => page.evaluate(() => document.activeElement?.textContent ?? "");

describe("schedules", () => {
  test("a grid is one stop for Tab; arrows walk its cells, its head too", () =>
    withView("schedules", async (page) => {
      await page.getByRole("searchbox").focus();
      for (let i = 0; i < 3; i++) await page.keyboard.press("Tab");
      assert.equal(await focused(page), "W18");
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("ArrowRight");
      assert.match(await focused(page), /^fail, should/);
      await page.keyboard.press("Control+Home");
      await page.keyboard.press("ArrowUp");
      assert.equal(await focused(page), "circuit");
      assert.equal(await page.locator("[role=grid] [tabindex='0']").count(), 1);
    }));

  test("Enter types over a length as one act; Esc gives the old one back", () =>
    withView("schedules", async (page) => {
      await page.getByRole("row", { name: /^W13 / }).getByText("5.2 m").click();
      assert.deepEqual(await calls(page, "select"), [["circuits.W13"]]);
      const field = page.getByRole("textbox", { name: "length of W13" });
      assert.equal(await field.inputValue(), "5.2 m");
      await field.fill("6 m");
      await page.keyboard.press("Escape");
      assert.equal(await focused(page), "5.2 m");
      assert.deepEqual(await calls(page, "act"), []);
      await page.keyboard.press("F2");
      await field.fill("6,1 m");
      await page.keyboard.press("Enter");
      await field.waitFor({ state: "detached" });
      assert.deepEqual(await calls(page, "act"), [
        [{ do: "set-figure", about: "circuits.W13", field: "length", text: "6,1 m" }],
      ]);
      assert.equal(await focused(page), "5.2 m");
    }));

  test("what could not be read stays as typed, with what was expected under it", () =>
    withView("schedules", async (page) => {
      await nextOutcome(page, "a length needs a unit");
      await page.getByRole("row", { name: /^W13 / }).getByText("5.2 m").click();
      const field = page.getByRole("textbox", { name: "length of W13" });
      await field.fill("6");
      await page.keyboard.press("Enter");
      assert.equal(await page.getByRole("alert").textContent(), "a length needs a unit. write `3.2 m` or `3.2 ft`");
      assert.equal(await field.inputValue(), "6");
      assert.equal(await field.getAttribute("aria-invalid"), "true");
    }));

  test("heads sort, words filter, W asks why", () =>
    withView("schedules", async (page) => {
      await page.getByRole("button", { name: "one way: length one way" }).click();
      const names = (): Promise<string[]> => page.locator("[role=grid] tbody th").allTextContents();
      assert.equal((await names())[0], "W33"); // 0.3 m
      await page.getByRole("searchbox").fill("fridge");
      assert.deepEqual(await names(), ["W13"]);
      await page.locator("[role=grid] tbody th").focus();
      await page.keyboard.press("w");
      assert.deepEqual(await calls(page, "why"), [["W13"]]);
    }));

  test("tabs lead to every schedule, by arrows too", () =>
    withView("schedules", async (page) => {
      await page.getByRole("tab", { name: "Circuits" }).focus();
      for (const name of ["Conductors", "Devices", "Volts by state", "Defaults used", "Waivers", "Circuits"]) {
        await page.keyboard.press("ArrowRight");
        assert.equal(await page.getByRole("tab", { selected: true }).textContent(), name);
        assert.equal(await page.getByRole("grid").getAttribute("aria-label"), name);
      }
    }));

  test("of many circuits only those in sight are drawn, and the wheel brings the others", () =>
    withView(
      "schedules",
      async (page) => {
        const rows = page.locator("[role=grid] tr[data-row]");
        assert.equal(await page.getByRole("grid").getAttribute("aria-rowcount"), "409");
        assert.ok((await rows.count()) < 90, `${await rows.count()} rows`);
        await page.locator(".schedules-scroll").evaluate((box) => {
          box.scrollTop = box.scrollHeight;
        });
        await page.locator("tr[data-row='407']").waitFor();
        assert.ok((await rows.count()) < 90);
        await page.locator("tr[data-row='407'] th").click();
        await page.keyboard.press("Escape");
        await page.keyboard.press("Control+Home");
        assert.equal(await page.evaluate(() => document.activeElement?.closest("tr")?.dataset["row"]), "0");
      },
      { plan: manyCircuits(sloop.plan) },
    ));

  test("on a phone a circuit is a card, and its length is pressed to be typed over", () =>
    withView(
      "schedules",
      async (page) => {
        const card = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "W13" }) });
        await card.getByRole("button", { name: /length of W13/ }).click();
        const field = page.getByRole("textbox", { name: "length of W13" });
        await field.fill("5 m");
        await page.keyboard.press("Enter");
        await field.waitFor({ state: "detached" });
        assert.equal((await calls(page, "act")).length, 1);
      },
      { screen: phone },
    ));

  test("a plan without circuits says what comes first", () =>
    withView(
      "schedules",
      async (page) => {
        await page.getByText("No circuit yet. Pull one on the one-line.").waitFor();
      },
      { plan: { ...sloop.plan, design: { ...sloop.plan.design, circuits: [] } } },
    ));

  test("somebody else has the pen: nothing can be typed over", () =>
    withView("schedules", async (page) => {
      await set(page, { readOnly: true });
      await page.getByRole("row", { name: /^W13 / }).getByText("5.2 m").click();
      assert.equal(await page.getByRole("grid").getByRole("textbox").count(), 0);
    }));
});

describe("findings", () => {
  test("J and K step through the list as it stands", () =>
    withView("findings", async (page) => {
      await page.getByRole("button", { name: "Print the list" }).focus();
      await page.keyboard.press("j");
      await page.keyboard.press("j");
      assert.match(await focused(page), /^Unknown fact: B1/);
      await page.keyboard.press("k");
      assert.match(await focused(page), /^Switched-off always-on load: bilge pump/);
      assert.equal((await calls(page, "openNote")).length, 3);
    }));

  test("cures are looked for when asked, and shown in pencil", () =>
    withView("findings", async (page) => {
      const item = page.getByRole("article", { name: /^Switched-off/ });
      await item.getByRole("button", { name: "Find cures" }).click();
      await item.getByRole("table").first().getByText("SW1:in → bilge pump").waitFor();
      await item
        .getByRole("button", { name: /^See it in pencil/ })
        .first()
        .click();
      assert.deepEqual(await calls(page, "pencilCure"), [
        [{ rule: "battery/switched-off-always-on-load", about: "parts.bilge pump" }, 0],
      ]);
    }));

  test("a waiver asks for its reason", () =>
    withView("findings", async (page) => {
      const item = page.getByRole("article", { name: /^Switched-off/ });
      await item.getByRole("button", { name: /^Waive/ }).click();
      const form = item.getByRole("form", { name: /^Why may this stand/ });
      await form.getByRole("button", { name: "Waive" }).click();
      await form.getByRole("alert").waitFor();
      assert.deepEqual(await calls(page, "act"), []);
      await form.getByLabel("Reason").fill("mended in spring");
      await form.getByLabel(/^Until/).fill("2031-05-01");
      await form.getByRole("button", { name: "Waive" }).click();
      await form.waitFor({ state: "detached" });
      const [[act] = []] = await calls(page, "act");
      assert.match(JSON.stringify(act), /"do":"waive".*"reason":"mended in spring".*"until":"2031-05-01"/);
    }));

  test("groups keep all findings, and what was not checked is said at the end", () =>
    withView("findings", async (page) => {
      const { length } = sloop.plan.findings.filter((f) => f.waived === null || f.waived.lapsed !== null);
      assert.ok(length > 0);
      for (const by of ["consequence", "place", "rule"]) {
        await page.getByRole("combobox").selectOption(by);
        assert.equal(await page.getByRole("article").count(), length, by);
      }
      assert.match(
        (await page.locator("footer").textContent()) ?? "",
        /pass.*Not judged: fault withstand of W25.*No certificate/,
      );
    }));

  test("an open note puts its cure in pencil, and rubs it out when it is closed", () =>
    withView("body", async (page) => {
      await page.getByText(/^Cure: feed it from ahead/).waitFor();
      assert.equal((await calls(page, "pencilCure")).length, 1);
      await set(page, {
        pencil: {
          id: 1,
          is: "cure",
          about: null,
          says: "cure",
          step: "W18",
          text: "",
          revision: 1,
          comparison: null,
          plan: null,
          drawing: null,
        },
      });
      await page.getByRole("button", { name: "Apply cure" }).click();
      assert.equal((await calls(page, "ink")).length, 1);
      await page.evaluate(() => {
        (globalThis as unknown as { page: LoneViewPage }).page.hide(); // put there by the bundle
      });
      await page.waitForFunction(
        () => (globalThis as unknown as { page: LoneViewPage }).page.fake?.calls.some(([name]) => name === "rubOut"), // put there by the bundle
      );
    }));
});

describe("why", () => {
  test("the answer comes at once, what would change it after it; the picture is a table too", () =>
    withView("why", async (page) => {
      await set(page, { whySubject: "W12" });
      await page.getByRole("heading", { name: "Why is W12 35 mm²?" }).waitFor();
      assert.match(
        (await page.getByRole("img", { name: /drop: 35 mm², decides$/ }).getAttribute("aria-label")) ?? "",
        /^mechanical/,
      );
      await page.getByRole("table", { name: "what would change it" }).waitFor();
      await page.getByText("Show as table").click();
      await page.getByRole("rowheader", { name: "drop, running, decides" }).waitFor();
      await page.getByRole("button", { name: "Try 25 mm²" }).click();
      assert.deepEqual(await calls(page, "pencilAct"), [
        [{ do: "set-figure", about: "circuits.W12", field: "size", text: "25 mm²" }, "try: W12 25 mm²"],
      ]);
      await page.getByRole("button", { name: "Pin 35 mm²" }).click();
      assert.deepEqual(await calls(page, "act"), [[{ do: "pin", about: "circuits.W12", what: "wire" }]]);
      await page.keyboard.press("]");
      await page.getByRole("heading", { name: /^Why is W13 / }).waitFor();
    }));

  test("a comma stands in its figures and not in its clauses", () =>
    withView("why", async (page) => {
      await set(page, { whySubject: "W12", units: { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "," } });
      await page
        .getByText(/would lose 1,60 V, 13,3 %/)
        .first()
        .waitFor();
      assert.ok((await page.getByText("ISO 10133:2012 4.7", { exact: false }).count()) > 0);
    }));

  test("what is not a size has its working without a ladder", () =>
    withView("why", async (page) => {
      for (const subject of [
        "fridge",
        "fridge@at anchor",
        "lowest-charge",
        "battery/switched-off-always-on-load parts.bilge pump",
      ]) {
        await set(page, { whySubject: subject });
        await page.locator(".why-answer").waitFor();
        assert.equal(await page.locator(".why-ladder").count(), 0, subject);
        await set(page, { whySubject: null });
        await page.getByRole("heading", { name: "Why is what?" }).waitFor();
      }
    }));

  test("an unknown name is told, with what is near", () =>
    withView("why", async (page) => {
      await set(page, { whySubject: "frige" });
      assert.match((await page.getByRole("alert").textContent()) ?? "", /nothing here is called `frige`/);
      await page.getByRole("button", { name: "fridge", exact: true }).click();
      assert.deepEqual(await calls(page, "why"), [["fridge"]]);
    }));
});

describe("each view is read aloud without a fault", () => {
  for (const view of ["schedules", "findings", "why", "body"] as const) {
    for (const [screen, themes] of [
      [desk, ["light", "dark"]],
      [phone, ["light"]],
    ] as const) {
      test(`${view}, ${screen === phone ? "phone" : "desk"}, ${themes.join(" and ")}`, () =>
        withView(
          view,
          async (page) => {
            if (view === "why") {
              await set(page, { whySubject: "W12" });
              await page.locator(".why-answer").waitFor();
            }
            await page.addScriptTag({ content: axe.source });
            for (const theme of themes) {
              await page.emulateMedia({ colorScheme: theme, reducedMotion: "reduce" });
              const faults = await page.evaluate(
                async (rules) => {
                  const { axe: inPage } = globalThis as unknown as { axe: typeof axe }; // put there by the line above
                  const { violations } = await inPage.run(document, rules === null ? {} : { runOnly: [...rules] });
                  return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join(", ")}`);
                },
                theme === "dark" ? COLOUR_RULES : null,
              );
              assert.deepEqual(faults, [], theme);
            }
            const { width, seen } = await page.evaluate(() => ({
              width: document.documentElement.scrollWidth,
              seen: document.documentElement.clientWidth,
            }));
            assert.ok(width <= seen, `${width} px on a page of ${seen}`);
          },
          { screen: { ...screen, colorScheme: "light" } },
        ));
    }
  }
});

/** The circuits of a plan twelve times over. */
function manyCircuits(plan: PagePlan): PagePlan {
  const circuits = Array.from({ length: 12 }, (_, n) =>
    plan.design.circuits.map((c) => (n === 0 ? c : { ...c, id: `${c.id}-${n}` })),
  ).flat();
  return { ...plan, design: { ...plan.design, circuits } };
}
