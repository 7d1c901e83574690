/**
 * The compiler behind the page. It is told the plan after every key and answers with what it came to and with its drawing; the latest plan wins,
 * and between two stages it looks whether there is a later one. Questions are answered in the order in which they come.
 */
import { computeInSteps, type Settling } from "../../compute.ts";
import type { Compiled } from "../../judge.ts";
import { createPlanMemory, type PlanMemory } from "../../plan/index.ts";
import { runToEnd } from "../../size/index.ts";
import type { Standing } from "./standing.ts";
import { drawPage, drawView } from "./draw-page.ts";
import { makePagePlan } from "./page-plan.ts";
import { localDay } from "../local-day.ts";
import type { FromWorker, PageDrawing, PagePlan, PlanMessage, PlanQuestion, ToWorker } from "./protocol.ts";

/** What a worker is given by the browser, as far as it is used here. */
interface Scope {
  readonly postMessage: (message: FromWorker) => void;
  readonly addEventListener: (type: "message", listener: (event: MessageEvent<ToWorker>) => void) => void;
}
const scope = globalThis as unknown as Scope; // the types at hand are those of a page

const memory = createPlanMemory();
const pencilMemory = createPlanMemory();
let wanted: PlanMessage | null = null;
/** The last one that was shown. */
let last: PlanMessage | null = null;
let stand: Standing | null = null;
const cancelled = new Set<number>();
const answering = new Set<number>();

/** The rules weigh as much as all else together: they are fetched beside the first picture, which does not wait for them. */
let judge: ((settling: Settling, options: { readonly today: string }) => Compiled) | null = null;
let rulesLost = false;
/** What bonds are sized by comes with them: until then they are as thick as strength asks. */
let leads: Pick<typeof import("../../judge.ts"), "hasLeads" | "sizeLeads"> | null = null;
const judging = import("../../judge.ts").then(
  ({ judge: byRules, hasLeads, sizeLeads }) => {
    judge = byRules;
    leads = { hasLeads, sizeLeads };
    showAgain();
  },
  () => {
    rulesLost = true;
    showAgain();
  },
);

const NOTHING_JUDGED: Compiled["judgement"] = {
  findings: [],
  passes: [],
  notApplicable: [],
  tally: {
    must: 0,
    should: 0,
    note: 0,
    waived: 0,
    cannotTellMust: 0,
    cannotTell: 0,
    pass: 0,
    thin: 0,
    notApplicable: 0,
  },
};

/** What a plan came to, judged as soon as the rules are there. */
function standingOf(text: string, settling: Settling, kept: PlanMemory, started: number): Standing {
  const compiled = judge === null ? { ...settling, judgement: NOTHING_JUDGED } : judge(settling, { today: localDay() });
  const judged = judge !== null ? "yes" : rulesLost ? "rules not read" : "not yet";
  return { text, compiled, judged, memory: kept, tookMs: performance.now() - started };
}

/** What was drawn before the rules were there, judged; or that they cannot be had. */
function showAgain(): void {
  if (stand !== null && leads?.hasLeads(stand.compiled.system) === true) stand = null;
  else if (stand?.judged === "not yet")
    stand = standingOf(stand.text, stand.compiled, stand.memory, performance.now() - stand.tookMs);
  wanted ??= last;
  void run();
}

/** Lets messages in that have come meanwhile. */
const channel = new MessageChannel();
const resumes: (() => void)[] = [];
channel.port1.onmessage = () => {
  resumes.shift()?.();
};
const breathe = (): Promise<void> =>
  new Promise((resolve) => {
    resumes.push(resolve);
    channel.port2.postMessage(null);
  });

/** The plan of a text; of the last text without compiling anew. */
function standOf(text: string, kept: PlanMemory = memory): Standing {
  if (stand?.text === text) return stand;
  const started = performance.now();
  const fresh = standingOf(text, runToEnd(computeInSteps(text, kept, leads?.sizeLeads)), kept, started);
  if (kept === memory) stand = fresh;
  return fresh;
}

/** So many plans in a row may be dropped for a later one; then one is worked out whole, so that fast typing still sees something. */
const MOST_DROPPED = 2;
/** Between two looks for a later plan, ms. */
const LOOK_MS = 10;
let dropped = 0;

/** The plan of a message, with looks for a later one in between; null: there is one. */
async function standFor(message: PlanMessage): Promise<Standing | null> {
  const { text } = message;
  if (stand?.text === text) return stand;
  const started = performance.now();
  let looked = started;
  const sizedWith = leads;
  const steps = computeInSteps(text, memory, sizedWith?.sizeLeads);
  for (;;) {
    const step = steps.next();
    if (step.done === true) {
      // What sizes bonds may have come on the way: a drawing without their sizes would stand until the next key.
      if (leads !== sizedWith && leads?.hasLeads(step.value.system) === true) return standFor(message);
      dropped = 0;
      stand = standingOf(text, step.value, memory, started);
      return stand;
    }
    if (performance.now() - looked < LOOK_MS) continue;
    await breathe();
    looked = performance.now();
    if (wanted !== message && dropped < MOST_DROPPED) {
      dropped++;
      return null;
    }
  }
}

let running = false;

async function run(): Promise<void> {
  if (running) return;
  running = true;
  await breathe();
  for (let message = wanted; message !== null; message = wanted) {
    try {
      await show(message);
    } catch (defect) {
      scope.postMessage({ is: "broken", revision: message.revision, says: wordsOf(defect) });
    }
    if (wanted === message) wanted = null;
  }
  running = false;
}

async function show(message: PlanMessage): Promise<void> {
  const { revision, operatingState, pencil, spoken } = message;
  const isLate = (): boolean => wanted !== message;
  const now = await standFor(message);
  if (now === null) return;
  const [plan, drawing] = draw(now, revision, operatingState, spoken);
  scope.postMessage({ is: "shown", plan, drawing });
  last = message;
  if (pencil === null) return;
  await judging;
  await breathe();
  if (isLate()) return;
  const { chargedTo, compareStands, letGo } = await import("./pencil.ts");
  const tried =
    "text" in pencil ? { ok: true as const, text: pencil.text } : chargedTo(now, operatingState, pencil.charge);
  if (!tried.ok) {
    scope.postMessage({ is: "not pencilled", pencil: pencil.id, says: tried.message });
    return;
  }
  const tryStand = standOf(tried.text, pencilMemory);
  const then = "charge" in pencil ? letGo(tryStand, now) : tryStand;
  const [planThen, drawingThen] = draw(then, revision, operatingState, spoken);
  scope.postMessage({
    is: "pencilled",
    revision,
    pencil: pencil.id,
    plan: planThen,
    drawing: drawingThen,
    comparison: compareStands(now.compiled, then.compiled, pencil.about ?? undefined),
  });
}

function draw(
  standing: Standing,
  revision: number,
  operatingState: string | null,
  spoken: PlanMessage["spoken"],
): [PagePlan, PageDrawing] {
  const started = performance.now();
  const drawing = drawPage(standing.compiled, revision, operatingState, spoken);
  const took = { compileMs: standing.tookMs, drawMs: performance.now() - started };
  return [makePagePlan(standing.compiled, revision, took, standing.judged), drawing];
}

const wordsOf = (defect: unknown): string => (defect instanceof Error ? defect.message : String(defect));

async function answer(id: number, question: (ToWorker & { readonly is: "ask" })["question"]): Promise<void> {
  answering.add(id);
  try {
    if (question.ask === "wire" || question.ask === "wire-sheet" || question.ask === "wire-lesson") {
      const { answerWire } = await import("./answer-wire.ts");
      // A later name that came while the parts were fetched has let this one go.
      if (!cancelled.has(id)) scope.postMessage({ is: "answer", id, value: answerWire(question) });
    } else if (question.ask === "faults" || question.ask === "circuit-faults" || question.ask === "curves-sheet") {
      const [{ answerFaults }] = await Promise.all([import("./answer-faults.ts"), judging]);
      if (!cancelled.has(id))
        scope.postMessage({ is: "answer", id, value: answerFaults(standOf(question.of).compiled, question) });
    } else if (
      question.ask === "state-movers" ||
      question.ask === "state-at" ||
      question.ask === "state-drawing" ||
      question.ask === "all-states"
    ) {
      const { answerPositions } = await import("./answer-positions.ts");
      if (!cancelled.has(id))
        scope.postMessage({
          is: "answer",
          id,
          value: answerPositions(standOf(question.of).compiled, question, drawView),
        });
    } else await answerInSteps(id, question);
  } catch (defect) {
    scope.postMessage({ is: "failed", id, says: wordsOf(defect) });
  }
  answering.delete(id);
  cancelled.delete(id);
}

async function answerInSteps(id: number, question: PlanQuestion): Promise<void> {
  const { answerQuestion } = await import("./answer-question.ts");
  await judging;
  const steps = answerQuestion(standOf, question, () => cancelled.has(id));
  for (;;) {
    const step = steps.next();
    if (step.done === true) {
      if (!cancelled.has(id)) scope.postMessage({ is: "answer", id, value: step.value });
      return;
    }
    await breathe();
    if (cancelled.has(id)) return;
  }
}

scope.addEventListener("message", ({ data }) => {
  switch (data.is) {
    case "plan":
      wanted = data;
      void run();
      return;
    case "ask":
      void answer(data.id, data.question);
      return;
    case "cancel":
      if (answering.has(data.id)) cancelled.add(data.id);
      return;
  }
});
scope.postMessage({ is: "ready" });
// What answers questions is not needed for the first picture; it is fetched behind it.
setTimeout(() => {
  import("./answer-question.ts").catch(() => undefined);
  import("./pencil.ts").catch(() => undefined);
  import("./answer-wire.ts").catch(() => undefined);
  import("./answer-faults.ts").catch(() => undefined);
  import("./answer-positions.ts").catch(() => undefined);
}, 1000);
