import axe from "axe-core";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Browser, BrowserContext, BrowserContextOptions, Locator, Page } from "playwright-core";
import { inject, test as plainTest } from "vitest";
import assert from "node:assert/strict";
import { connect } from "./find-browser.ts";

const root = join(import.meta.dirname, "../..");

/** The longest wait for one thing, ms; a page that is not loaded down by other work answers in a tenth of that. */
const PATIENCE = 10_000;

/** Screens that people have in front of them. */
export const sizes = {
  desk: { width: 1440, height: 900 },
  tablet: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
} as const;

export interface Opening {
  readonly size?: keyof typeof sizes;
  readonly theme?: "light" | "dark";
  readonly reducedMotion?: boolean;
  readonly forcedColours?: boolean;
  /** Behind the address of the page: `?plan=sloop.yaml`, `#…`. */
  readonly path?: string;
  /** Of a server of the test's own. */
  readonly address?: string;
  /** Another tab of a browser that is open. */
  readonly beside?: Page;
  /** What the test does to a browser before the page comes up: the clock, a store that fails. */
  readonly before?: (context: BrowserContext) => Promise<unknown>;
  readonly more?: BrowserContextOptions;
}

export interface Harness {
  /** Opens the page in a browser profile of its own. */
  readonly open: (opening?: Opening) => Promise<Page>;
  /** What went wrong so far, and is told as a fault at the end of the test; a test that expects some takes them out. */
  readonly faults: string[];
}

/**
 * A test with a browser. At its end it fails for whatever a page said on its console as an error, threw, was refused, or asked for from elsewhere.
 */
export const test = plainTest.extend<{ readonly harness: Harness }>({
  harness: async ({ task }, use) => {
    const browser = await browserOfThisFile();
    const faults: string[] = [];
    const opened = new Set<BrowserContext>();
    await use({
      faults,
      open: async (opening = {}) => {
        const address = opening.address ?? inject("pageAddress");
        const context = opening.beside?.context() ?? (await newContext(browser, opening));
        if (!opened.has(context)) {
          watchFaults(context, address, faults);
          // Shorter than a test may take, so that what was waited for is named.
          context.setDefaultTimeout(PATIENCE);
        }
        opened.add(context);
        await opening.before?.(context);
        const page = await context.newPage();
        await page.goto(`${address}${opening.path ?? ""}`);
        return page;
      },
    });
    const hasFailed = task.result?.state === "fail";
    for (const context of opened) {
      // What stood there when it failed, for whoever looks into it.
      for (const [i, page] of hasFailed ? context.pages().entries() : [])
        await shoot(page, `failed-${task.name.replace(/\W+/g, "-").slice(0, 60)}-${i}`).catch(() => undefined);
      await context.close();
    }
    assert.deepEqual(faults, [], "faults of the page");
  },
});

let browser: Promise<Browser> | null = null;
const browserOfThisFile = (): Promise<Browser> => (browser ??= connect(inject("browserEndpoint")));

const newContext = (
  from: Browser,
  { size = "desk", theme = "light", reducedMotion = true, forcedColours = false, more }: Opening,
): Promise<BrowserContext> =>
  from.newContext({
    viewport: sizes[size],
    hasTouch: size !== "desk",
    colorScheme: theme,
    reducedMotion: reducedMotion ? "reduce" : "no-preference",
    forcedColors: forcedColours ? "active" : "none",
    locale: "en-GB",
    ...more,
  });

/** Writes down what goes wrong in a profile: of its pages, their workers and their service worker. */
export function watchFaults(context: BrowserContext, address: string, faults: string[]): void {
  const isInside = (url: string): boolean => url.startsWith(address) || /^(?:data|blob|about):/.test(url);
  context.on("console", (message) => {
    if (message.type() === "error") faults.push(`console: ${message.text()}`);
  });
  context.on("weberror", (thrown) => faults.push(`thrown: ${String(thrown.error())}`));
  context.on("request", (request) => {
    if (!isInside(request.url())) faults.push(`asked elsewhere: ${request.url()}`);
  });
  context.on("response", (response) => {
    if (response.status() >= 400) faults.push(`answered ${response.status()}: ${response.url()}`);
  });
}

/** Rules of the guidelines on accessibility up to 2.2 AA, and what is good practice besides. */
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** Of these, what hangs on colours: all that can differ where one page is seen in another theme. */
export const COLOUR_RULES = ["color-contrast", "link-in-text-block"];

/** The faults of accessibility that a program can find: one line a rule, with how many places and the first of them. */
export async function axeFaults(page: Page, of: "everything" | "colours" = "everything"): Promise<string[]> {
  const isThere = await page.evaluate("typeof axe === 'object'");
  if (isThere !== true) {
    await page.evaluate(axe.source);
    // What is out of sight has no sizes to be judged until it is laid out.
    await page.addStyleTag({ content: "* { content-visibility: visible !important }" });
  }
  const only =
    of === "colours" ? { type: "rule" as const, values: COLOUR_RULES } : { type: "tag" as const, values: RULES };
  return page.evaluate(async (runOnly) => {
    // Put into the page by the lines above.
    const { axe: inPage } = globalThis as unknown as { readonly axe: typeof axe };
    const { violations } = await inPage.run(document, { runOnly });
    return violations.map(({ id, help, nodes }) => {
      const [{ target, failureSummary = "" } = { target: [] }] = nodes;
      const more = nodes.slice(1, 4).map((node) => node.target.join(" "));
      const places = [target.join(" "), ...more].join(" | ");
      return `${id}, ${nodes.length} ×: ${help}: ${places}: ${failureSummary.replace(/\s+/g, " ")}`;
    });
  }, only);
}

/** Shows the page, as it stands, in the other theme, does something, and comes back. */
export async function inDark<T>(page: Page, does: () => Promise<T>): Promise<T> {
  await page.emulateMedia({ colorScheme: "dark" });
  try {
    return await does();
  } finally {
    await page.emulateMedia({ colorScheme: "light" });
  }
}

export async function expectNoAxeFaults(page: Page, of: "everything" | "colours" = "everything"): Promise<void> {
  const found = await axeFaults(page, of);
  assert.ok(found.length === 0, `faults of accessibility\n${found.join("\n")}`);
}

/** Writes a picture of the page into `out/screens/`, for people to look at. */
export async function shoot(page: Page, name: string): Promise<void> {
  const folder = join(root, "out", "screens");
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), caret: "initial" });
}

/** Does what a person does and counts it: a click or tap is one, a drag, a key, a field typed and ended by Enter. */
export interface Hands {
  readonly count: () => number;
  readonly click: (what: Locator) => Promise<void>;
  readonly key: (key: string) => Promise<void>;
  /** Types into what has the focus, and presses Enter. */
  readonly type: (text: string) => Promise<void>;
  /** Waits for a field to have the focus first. */
  readonly typeInto: (field: Locator, text: string) => Promise<void>;
}

export function countActions(page: Page): Hands {
  let done = 0;
  const act = async (action: () => Promise<unknown>): Promise<void> => {
    done++;
    await action();
  };
  const type = (text: string): Promise<void> =>
    act(async () => {
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
    });
  return {
    count: () => done,
    click: (what) => act(() => what.click()),
    key: (key) => act(() => page.keyboard.press(key)),
    type,
    typeInto: async (field, text) => {
      // A field that a person has to click first costs a click of its own.
      await field.waitFor();
      if (!(await field.evaluate((node) => node === document.activeElement))) await act(() => field.click());
      await field.press("ControlOrMeta+a");
      await type(text);
    },
  };
}
