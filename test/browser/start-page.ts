import { h, render } from "preact";
import { compile } from "../../src/compile.ts";
import { answerQuestion } from "../../src/size/answer.ts";
import { readQuestion } from "../../src/size/question.ts";
import type { AskOffer } from "../../src/act/index.ts";
import { wireCard } from "../../src/act/wire-card/index.ts";
import { AskField } from "../../src/workbench/ask/ask-field.tsx";
import type { Bench, BenchState, Sized } from "../../src/workbench/contract.ts";
import { KeysHelp } from "../../src/workbench/settings/keys-help.tsx";
import { UnitsMenu } from "../../src/workbench/settings/units-menu.tsx";
import { pageClock } from "../../src/workbench/keep/clock.ts";
import { browserFiles } from "../../src/workbench/keep/file.ts";
import { openKeeper } from "../../src/workbench/keep/keeper.ts";
import { memoryStore } from "../../src/workbench/keep/memory-store.ts";
import { StartPage } from "../../src/workbench/shell/start-page.tsx";
import { DropAnywhere } from "../../src/workbench/start/drop-anywhere.tsx";
import type { KeptBuild } from "../../src/workbench/start/kept-build.ts";
import { StartView } from "../../src/workbench/start/start-view.tsx";
import { WireDeskView } from "../../src/workbench/wire-desk/wire-desk-view.tsx";
import { makeFakeBench, type FakeBench } from "./fake-bench.ts";
import "../../src/workbench/look/tokens.css";

/** A page of a test: the views before a plan, over a bench that answers questions by the real compiler. */
export interface StartTestPage {
  readonly fake: FakeBench;
  readonly show: (view: "start" | "wire-desk", change?: Partial<BenchState>, more?: StartMore) => void;
  /** How the bench answers from now on; `slow`: not before it is told to. */
  answers: "quick" | "slow" | "broken";
  release: () => void;
}

export interface StartMore {
  readonly builds?: readonly KeptBuild[] | null;
  readonly recovered?: readonly KeptBuild[];
  /** Start as it stands in the page, over a browser that keeps one plan with a good copy; the address may have named another one. */
  readonly keeps?: "one" | "another";
}

const never = (): Promise<never> => Promise.reject(new Error("not asked for here"));
const fake = makeFakeBench(null, "", { explain: never, findCures: never, strip: () => Promise.resolve(null) });
const keeper = openKeeper({
  store: memoryStore(null),
  files: browserFiles(),
  pens: { openChannel: null, locks: null },
  clock: pageClock,
  newId: () => crypto.randomUUID(),
});
const SLOOP = "wireworthy: 1\nname: Coastal sloop\n";
await keeper.newBuild(SLOOP, "sloop");
keeper.markGood(SLOOP, {
  name: "Coastal sloop",
  revision: "B",
  tally: {
    must: 0,
    should: 0,
    note: 0,
    waived: 0,
    cannotTellMust: 0,
    cannotTell: 0,
    pass: 1,
    thin: 0,
    notApplicable: 0,
  },
});
await keeper.close();
const waiting: (() => void)[] = [];

function sizeOf(question: unknown): Sized {
  const read = readQuestion(question);
  return read.ok
    ? { ok: true, answer: answerQuestion(read.question, compile) }
    : { ok: false, problems: read.problems };
}

const offers: readonly AskOffer[] = [
  { kind: "go", about: "parts.fridge", says: "fridge", more: "load, W13" },
  { kind: "go", about: "circuits.W13", says: "W13", more: "PNL:1 → fridge, 2.5 mm²" },
  { kind: "why", about: "circuits.W13", says: "why W13 is 2.5 mm²", more: "" },
  { kind: "needs", needs: "a length, such as 5.2 m", text: "length fridge", says: "length of W13", more: "" },
  {
    kind: "question",
    question: { load: "60 W", volts: "24 V", run: "4 m" },
    says: "which wire for 60 W",
    more: "4 m, 24 V",
  },
  { kind: "told", message: "the fridge stands alone", hint: "feed it from a panel", says: "unplug fridge", more: "" },
];

const page: StartTestPage = {
  fake,
  answers: "quick",
  release: () => {
    for (const go of waiting.splice(0)) go();
  },
  show: (view, change = {}, more = {}) => {
    const root = document.querySelector("#root");
    if (root === null) throw new Error("the page has no root");
    fake.set({
      open: false,
      view,
      units: { lengths: "m", sizes: "both", temperatures: "°C", decimal: "." },
      ...change,
    });
    render(null, root);
    const { bench } = fake;
    if (view === "start" && more.keeps !== undefined) {
      fake.set({ revision: 0 });
      render(h(StartPage, { bench, keeper, isGone: more.keeps === "another" }), root);
    } else if (view === "start") {
      const note = (name: string) => (id: unknown) => void (fake.calls as unknown[]).push([name, id]); // a list of its own
      render(
        h("div", {}, [
          h(StartView, {
            bench,
            builds: more.builds === undefined ? [] : more.builds,
            recovered: more.recovered ?? [],
            onOpenBuild: note("openBuild"),
            onForget: note("forget"),
            onCopies: note("copies"),
          }),
          h(DropAnywhere, { bench }),
          h(KeysHelp, { bench }),
        ]),
        root,
      );
    } else {
      render(
        h("div", {}, [
          h("header", { style: { display: "flex", gap: "16px", padding: "8px 16px" } }, [
            h("h1", { style: { fontSize: "1rem" } }, "Plan"),
            h(AskField, { bench }),
            h(UnitsMenu, { bench }),
          ]),
          h(WireDeskView, { bench }),
          h(KeysHelp, { bench }),
        ]),
        root,
      );
    }
  },
};

const answered: Pick<Bench, "size" | "wire" | "ask" | "setUnits" | "openExample" | "openText"> = {
  size: async (question) => {
    if (page.answers === "broken") throw new Error("the worker stopped");
    if (page.answers === "slow") await new Promise<void>((go) => waiting.push(go));
    return sizeOf(question);
  },
  wire: (question) => Promise.resolve(wireCard(question)),
  ask: async (text) => {
    if (page.answers === "slow") await new Promise<void>((go) => waiting.push(go));
    return text.includes("nothing") ? [] : offers.filter(({ says }) => text.length < 12 || says.includes(text));
  },
  setUnits: (units) => {
    fake.set({ units: { ...fake.bench.state.units, ...units } });
  },
  openExample: (name) => {
    (fake.calls as unknown[]).push(["openExample", name]); // as the others do
    return Promise.resolve();
  },
  openText: (text, name) => {
    (fake.calls as unknown[]).push(["openText", text, name]); // as the others do
    return Promise.resolve();
  },
};
Object.assign(fake.bench, answered);
Object.assign(globalThis, { page });
