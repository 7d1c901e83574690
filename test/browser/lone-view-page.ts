import { h, render } from "preact";
import { FindingBody } from "../../src/workbench/findings/finding-body.tsx";
import { FindingsView } from "../../src/workbench/findings/findings-view.tsx";
import { SchedulesView } from "../../src/workbench/schedules/schedules-view.tsx";
import { WhyView } from "../../src/workbench/why/why-view.tsx";
import type { PagePlan } from "../../src/workbench/worker/protocol.ts";
import { makeFakeBench, type FakeBench, type Outside } from "./fake-bench.ts";
import "../../src/workbench/look/tokens.css";

/** What the test reads and calls on the page. */
export interface LoneViewPage {
  fake: FakeBench | null;
  readonly show: (view: "schedules" | "findings" | "why" | "body", plan: PagePlan | null, text: string) => number;
  readonly hide: () => void;
}

const outside = globalThis as unknown as Outside; // put there by the test before the page loads

const page: LoneViewPage = {
  fake: null,
  hide: () => {
    const root = document.querySelector("#view");
    if (root !== null) render(null, root);
  },
  show: (view, plan, text) => {
    const root = document.querySelector("#view");
    if (root === null) throw new Error("the page has no place for a view");
    const fake = makeFakeBench(plan, text, {
      explain: (...given) => outside.explain(...given),
      findCures: (...given) => outside.findCures(...given),
      strip: (...given) => outside.strip(...given),
    });
    page.fake = fake;
    render(null, root);
    const start = performance.now();
    const { bench } = fake;
    const [finding] = plan?.findings.filter((f) => f.outcome === "fail") ?? [];
    if (view === "schedules") render(h(SchedulesView, { bench }), root);
    else if (view === "findings") render(h(FindingsView, { bench }), root);
    else if (view === "why") render(h(WhyView, { bench }), root);
    else if (finding !== undefined)
      render(h("article", {}, h("h2", {}, "notes"), h(FindingBody, { bench, finding })), root);
    // Layout counts: what is not laid out is not shown.
    root.getBoundingClientRect();
    return performance.now() - start;
  },
};
Object.assign(globalThis, { page });
