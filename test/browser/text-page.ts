import { h, render } from "preact";
import { completeAt, hoverAt } from "../../src/act/assist/index.ts";
import { compile, createMemory, type Compiled } from "../../src/compile.ts";
import { applySplices, type Splice } from "../../src/plan/text/splice.ts";
import type { Bench, BenchState } from "../../src/workbench/contract.ts";
import { PlanLine } from "../../src/workbench/text/plan-line.tsx";
import { TextBeside } from "../../src/workbench/text/text-beside.tsx";
import { TextView } from "../../src/workbench/text/text-view.tsx";
import { makePagePlan } from "../../src/workbench/worker/page-plan.ts";
import { makeFakeBench, type FakeBench } from "./fake-bench.ts";
import "../../src/workbench/look/tokens.css";
import "../../src/workbench/shell/app.css";

/** What the test reads and calls on the page. */
export interface TextPage {
  fake: FakeBench | null;
  /** Names of the steps that were made. */
  steps: string[];
  /** ms until a plan is compiled; a plan that never comes shows what is stale. */
  delay: number;
  readonly show: (what: "view" | "beside", text: string) => void;
  /** A change made elsewhere on the page. */
  readonly change: (text: string) => void;
}

const never = () => Promise.reject(new Error("not on this page"));

const page: TextPage = {
  fake: null,
  steps: [],
  delay: 30,
  change: () => undefined,
  show(what, text) {
    const fake = makeFakeBench(null, text, { explain: never, findCures: never, strip: never });
    const memory = createMemory();
    let compiled: Compiled = compile(text, memory);
    const past: string[] = [];
    const next: string[] = [];
    const planOf = (revision: number) => makePagePlan(compiled, revision, { compileMs: 0, drawMs: 0 });
    fake.set({ plan: planOf(1), view: what === "view" ? "text" : "one-line", textBeside: what === "beside" });
    let waiting: ReturnType<typeof setTimeout> | undefined;
    const become = (now: string): void => {
      fake.set({ text: now, revision: fake.bench.state.revision + 1 });
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        compiled = compile(now, memory);
        fake.set({ plan: planOf(fake.bench.state.revision) });
      }, page.delay);
    };
    const step = (name: string, now: string): void => {
      past.push(fake.bench.state.text);
      next.length = 0;
      page.steps.push(name);
      become(now);
    };
    const own: Partial<Bench> = {
      typed: (splices: readonly Splice[], name?: string) => {
        step(name ?? "typing", applySplices(fake.bench.state.text, splices));
      },
      undo: () => {
        const before = past.pop();
        if (before === undefined) return;
        next.push(fake.bench.state.text);
        become(before);
      },
      redo: () => {
        const after = next.pop();
        if (after === undefined) return;
        past.push(fake.bench.state.text);
        become(after);
      },
      complete: (offset) => Promise.resolve(completeAt(fake.bench.state.text, offset, compiled)),
      hover: (offset) => Promise.resolve(hoverAt(fake.bench.state.text, offset, compiled)),
      say: (said) => {
        fake.set({ said: { text: said, level: "polite", count: fake.bench.state.said.count + 1 } });
      },
    };
    // The state is asked of the fake bench each time.
    const bench: Bench = Object.defineProperty({ ...fake.bench, ...own }, "state", {
      get: (): BenchState => fake.bench.state,
    });
    Object.assign(page, {
      fake,
      steps: [],
      change: (now: string) => {
        step("elsewhere", now);
      },
    });
    const root = document.querySelector("#bench");
    if (root === null) throw new Error("the page has no place for the bench");
    render(null, root);
    const sheet = h(
      "div",
      { class: "app-sheet" },
      what === "view" ? h(TextView, { bench }) : h("main", {}, h("h2", {}, "Sheet")),
    );
    const desk = h("div", { class: "app-desk" }, what === "beside" ? h(TextBeside, { bench }) : null, sheet);
    render(h("div", { class: "app" }, h("span", {}), h("span", {}), desk, h(PlanLine, { bench })), root);
  },
};
Object.assign(globalThis, { page });
