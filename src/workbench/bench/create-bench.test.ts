import { describe, test } from "vitest";
import assert from "node:assert/strict";
import type { ActRequest } from "../../act/index.ts";
import { applySplices } from "../../plan/text/splice.ts";
import { newLog, namesOf, pushStep, redo, textOf, undo, undoTo } from "../keep/log.ts";
import type { News } from "../worker/client.ts";
import type { PageDrawing, PagePlan, PlanMessage, Question } from "../worker/protocol.ts";
import { createBench } from "./create-bench.ts";
import type { Keep, KeepChange } from "./keep.ts";

/** A bench with a keeper in memory and a worker that answers when the test says so. */
function open(text: string) {
  let log = newLog("");
  let hear: (change: KeepChange) => void = () => undefined;
  let buildId = "one";
  const tell = (): void => {
    hear({ is: "text", text: textOf(log) });
  };
  const done = () => Promise.resolve({ ok: true } as const);
  const keep: Keep = {
    record(step) {
      log = pushStep(log, { ...step, at: 0 });
      return true;
    },
    undo() {
      log = undo(log);
      tell();
    },
    redo() {
      log = redo(log);
      tell();
    },
    undoTo(count) {
      log = undoTo(log, count);
      tell();
    },
    steps: () => ({ names: namesOf(log), done: log.done }),
    head: () => ({ kept: { says: "", level: "calm" }, readOnly: false, fileName: null, buildId }),
    subscribe(listener) {
      hear = listener;
    },
    compiled: () => undefined,
    newBuild(fresh, name) {
      log = newLog(fresh);
      buildId = name;
      hear({ is: "opened", text: fresh });
      return Promise.resolve();
    },
    openBuild: () => Promise.resolve(false),
    openFile: done,
    openDropped: done,
    saveFile: done,
    saveAs: done,
    takePen: () => Promise.resolve(),
  };
  const sent: PlanMessage[] = [];
  const asked: { question: Question; answer: (value: unknown) => void; signal: AbortSignal | undefined }[] = [];
  let news: (item: News) => void = () => undefined;
  const bench = createBench({
    workers(listener) {
      news = listener;
      return {
        sendPlan: (message) => {
          sent.push(message);
        },
        ask: (question, signal) =>
          new Promise((answer) => {
            // The test answers with what that question is answered with.
            asked.push({ question, answer: answer as (value: unknown) => void, signal });
            signal?.addEventListener("abort", () => {
              answer(null);
            });
          }),
      };
    },
    keep,
    units: { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." },
    spokenLength: () => "brief",
    fetchExample: () => Promise.resolve(text),
    onPlace: () => undefined,
  });
  return { bench, asked, sent, news: (item: News) => { news(item); }, ready: bench.openText(text, "one") }; // prettier-ignore
}

const acted = (from: string, to: string, step: string) => ({
  ok: true,
  splices: [{ start: 0, end: from.length, text: to }],
  text: to,
  step,
  select: null,
  remarks: [],
});
const request: ActRequest = { do: "set-figure", about: "circuits.W1", field: "length", text: "2 m" };
const finding = { rule: "a/b", about: "circuits.W1" };
const edits = (text: string, says: string) => ({
  is: "edits",
  cures: [{ says, text }],
  tried: 1,
  complete: true,
  why: "",
});
const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("acts and what happens while they are worked out", () => {
  test("an act is worked out again on the text as it stands when a key came between", async () => {
    const { bench, asked, ready } = open("a: 1");
    await ready;
    const doing = bench.act(request);
    bench.typed([{ start: 3, end: 4, text: "9" }], "typed");
    asked[0]?.answer(acted("a: 1", "a: 2", "old"));
    await settle();
    assert.equal(asked[1]?.question.of, "a: 9");
    asked[1]?.answer(acted("a: 9", "a: 92", "new"));
    assert.deepEqual(await doing, { ok: true });
    assert.equal(bench.state.text, "a: 92");
    assert.deepEqual(bench.steps().names, ["typed", "new"]);
  });

  test("an act on a plan that is no longer open changes nothing", async () => {
    const { bench, asked, ready } = open("a: 1");
    await ready;
    const doing = bench.act(request);
    await bench.openText("b: 1", "two");
    asked[0]?.answer(acted("a: 1", "a: 2", "old"));
    assert.equal((await doing).ok, false);
    assert.equal(bench.state.text, "b: 1");
  });

  test("the same act asked twice at once is done once", async () => {
    const { bench, asked, ready } = open("a: 1");
    await ready;
    const both = [bench.act(request), bench.act({ ...request })];
    assert.equal(asked.length, 1);
    asked[0]?.answer(acted("a: 1", "a: 2", "once"));
    await Promise.all(both);
    assert.deepEqual(bench.steps().names, ["once"]);
  });
});

describe("pencil", () => {
  const nothing = {
    plan: null as unknown as PagePlan,
    drawing: null as unknown as PageDrawing,
    comparison: null as never,
  }; // the bench hands them on

  test("an answer for an earlier pencil does not take the place of a later one", async () => {
    const { bench, asked, news, sent, ready } = open("a: 1");
    await ready;
    bench.setWhatIfCharge(0.2);
    const first = sent.at(-1)?.pencil?.id ?? -1;
    const curing = bench.pencilCure(finding, 0);
    asked[0]?.answer(edits("a: 3", "more"));
    await curing;
    news({ is: "pencilled", revision: bench.state.revision, pencil: first, ...nothing });
    bench.ink();
    assert.equal(bench.state.text, "a: 3");
    assert.deepEqual(bench.steps().names, ["cure: more"]);
  });

  test("what was tried on an earlier text is never inked over what was typed since", async () => {
    const { bench, asked, ready } = open("a: 1");
    await ready;
    const curing = bench.pencilCure(finding, 0);
    bench.typed([{ start: 3, end: 4, text: "9" }], "typed");
    asked[0]?.answer(edits("a: 3", "more"));
    assert.equal((await curing).ok, false);
    bench.ink();
    assert.equal(bench.state.text, "a: 9");
  });

  test("a what-if stays over an edit, and shows nothing of the text before", async () => {
    const { bench, news, sent, ready } = open("a: 1");
    await ready;
    bench.setWhatIfCharge(0.2);
    const id = sent.at(-1)?.pencil?.id ?? -1;
    news({ is: "pencilled", revision: bench.state.revision, pencil: id, ...nothing, drawing: {} as PageDrawing }); // handed on
    assert.ok(bench.state.pencil?.drawing);
    bench.typed([{ start: 3, end: 4, text: "9" }], "typed");
    assert.equal(bench.state.pencil?.drawing, null);
    assert.equal(applySplices(bench.state.text, []), "a: 9");
  });
});

test("a search for cures is made once and given up when the last who asked has gone", async () => {
  const { bench, asked, ready } = open("a: 1");
  await ready;
  const [one, two] = [new AbortController(), new AbortController()];
  const first = bench.findCures(finding, one.signal);
  const second = bench.findCures(finding, two.signal);
  assert.equal(asked.length, 1);
  one.abort();
  assert.equal(await first, null);
  assert.equal(asked[0]?.signal?.aborted, false);
  asked[0]?.answer(edits("a: 3", "more"));
  assert.equal((await second)?.is, "edits");
  // What was found is known from then on.
  assert.equal((await bench.findCures(finding))?.is, "edits");
  assert.equal(asked.length, 1);
});
