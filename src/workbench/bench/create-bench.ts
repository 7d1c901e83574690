import { applySplices, type Splice } from "../../plan/text/splice.ts";
import type { ActRequest } from "../../act/index.ts";
import type { Bench, BenchState, KeyPath, Outcome, Units, ViewId } from "../contract.ts";
import type { Keep } from "./keep.ts";
import { NOTHING_OPEN } from "./nothing-open.ts";
import { DONE, NOT_WORKED_OUT, OTHER_PLAN, READ_ONLY } from "./outcomes.ts";
import { resizedWords } from "./resized-words.ts";
import { tallyWords } from "./tally-words.ts";
import { takeOffer } from "./take-offer.ts";
import type { News, WorkerClient } from "../worker/client.ts";
import type { PageDrawing, PagePlan } from "../worker/protocol.ts";
import { splicesBetween } from "../keep/splices-between.ts";
import { viewQuestions } from "./ask-views.ts";
import { cureSearches } from "./cure-searches.ts";
import { findingAfter } from "./finding-order.ts";

/** What the bench stands on. */
export interface BenchParts {
  /** Opens the workers; what they say on their own goes to the listener. */
  readonly workers: (hear: (news: News) => void) => WorkerClient;
  readonly keep: Keep;
  readonly units: Units;
  /** How much a reader wants to hear of a thing. */
  readonly spokenLength: () => "names" | "brief" | "full";
  readonly fetchExample: (name: string) => Promise<string>;
  /** Told of every change of place, for the address of the page. */
  readonly onPlace: () => void;
}

/** A figure that is later than this is not shown as fresh, ms. */
const LATE_MS = 100;

/** The one state of the page and everything that can be done to it. */
export function createBench({ workers, keep, units, spokenLength, fetchExample, onPlace }: BenchParts): Bench {
  let state: BenchState = { ...NOTHING_OPEN, units };
  const listeners = new Set<() => void>();
  let queued = false;
  let late: ReturnType<typeof setTimeout> | undefined;
  const past: ViewId[] = [];
  let stepSaid: BenchState["said"] = NOTHING_OPEN.said;
  /** Counts what was put in pencil. */
  let pencils = 0;
  /** The worker is gone for good. */
  let lost: string | null = null;
  /** The state of the plan chosen by hand; until then the first one that it names. */
  let stateChosen = false;

  const set = (change: Partial<BenchState>): void => {
    state = { ...state, ...change };
    if (queued) return;
    queued = true;
    queueMicrotask(() => {
      queued = false;
      for (const listener of listeners) listener();
    });
  };
  const say: Bench["say"] = (text, level = "polite") => {
    set({ said: { text, level, count: state.said.count + 1 } });
  };

  const client = workers((news) => {
    switch (news.is) {
      case "shown":
        if (news.plan.revision === state.revision) arrive(news.plan, news.drawing);
        return;
      case "pencilled":
        if (news.revision === state.revision && news.pencil === state.pencil?.id) {
          const { plan, drawing, comparison } = news;
          set({ pencil: { ...state.pencil, plan, drawing, comparison } });
        }
        return;
      case "not pencilled":
        if (news.pencil !== state.pencil?.id) return;
        set({ pencil: null, whatIfCharge: null });
        say(`this cannot be tried here: ${news.says}`);
        return;
      case "broken":
        clearTimeout(late);
        set({ broken: `this text cannot be worked out: ${news.says}`, working: false });
        return;
      case "lost":
        clearTimeout(late);
        lost = `what works the plan out could not be read (${news.says}); your text is kept, load the page again`;
        set({ broken: lost, working: false });
        say(lost, "assertive");
        return;
    }
  });

  function arrive(plan: PagePlan, drawing: PageDrawing): void {
    clearTimeout(late);
    const before = state.plan;
    set({ plan, drawing, working: false, broken: null });
    const errors = plan.diagnostics.filter(({ level }) => level === "error").length;
    const { planRevision: revision, name, tally, judged } = plan;
    if (judged === "yes") keep.compiled({ revision, name, text: state.text, errors, tally });
    // A plan is shown in its first state until another one is chosen; a state that is gone is left.
    const known = plan.states.some(({ id }) => id === state.operatingState);
    const first = plan.states[0]?.id ?? null;
    if (!known && (state.operatingState !== null || !stateChosen) && first !== state.operatingState) {
      set({ operatingState: first });
      send();
    }
    if (before === null || before.revision === plan.revision) return;
    const words = tallyWords(before, plan);
    const resized = resizedWords(before.design, plan.design, state.selection);
    if (words !== "" || resized !== "") say([lastStep(), words, resized].filter((w) => w !== "").join("; "));
  }

  /** Tells the worker how things stand. */
  function send(): void {
    const { revision, text, operatingState, pencil, whatIfCharge } = state;
    clearTimeout(late);
    late = setTimeout(() => {
      set({ working: true });
    }, LATE_MS);
    client.sendPlan({
      is: "plan",
      revision,
      text,
      operatingState,
      spoken: spokenLength(),
      pencil:
        pencil === null
          ? null
          : pencil.is === "what-if" && whatIfCharge !== null
            ? { id: pencil.id, charge: whatIfCharge, about: null }
            : { id: pencil.id, text: pencil.text, about: pencil.about },
    });
  }

  /** The text has become another one: everything is worked out anew. What was in pencil over the old text is rubbed out, a what-if stays. */
  function become(text: string): void {
    const revision = state.revision + 1;
    const old = state.pencil?.is === "what-if" ? state.pencil : null;
    // What it came to is of the old text; until it is worked out anew nothing of it is shown.
    const pencil = old && { ...old, id: ++pencils, revision, text, comparison: null, plan: null, drawing: null };
    set({ text, revision, pencil, ...undoNames() });
    send();
  }

  /** What was done last, so that what came of it is told beside it. */
  const lastStep = (): string => (state.said.count === stepSaid.count ? stepSaid.text : "");

  function undoNames(): Pick<BenchState, "undoName" | "redoName"> {
    const { names, done } = keep.steps();
    return { undoName: names[done - 1] ?? null, redoName: names[done] ?? null };
  }

  /** @returns whether it was taken; nothing that is not kept is shown */
  function record(name: string, splices: readonly Splice[], typed: boolean): boolean {
    const after = applySplices(state.text, splices);
    if (after === state.text) return true;
    const taken = !state.readOnly && keep.record({ name, splices, typed });
    if (taken) become(after);
    else say("not done: another plan is being opened, or another tab has the pen", "assertive");
    return taken;
  }

  /** The same asked twice at once, by a second Enter, is done once. */
  const underWay = new Map<string, Promise<Outcome>>();
  function act(request: ActRequest): Promise<Outcome> {
    const key = JSON.stringify(request);
    const before = underWay.get(key);
    if (before !== undefined) return before;
    const doing = carryOut(request).finally(() => underWay.delete(key));
    underWay.set(key, doing);
    return doing;
  }

  async function carryOut(request: ActRequest): Promise<Outcome> {
    if (state.readOnly) return READ_ONLY;
    const { text, buildId } = state;
    const result = await client.ask({ ask: "act", of: text, request }).catch(failed);
    if (result === null) return NOT_WORKED_OUT;
    if (state.buildId !== buildId) return OTHER_PLAN;
    if (!result.ok) return result;
    if (state.text !== text) return carryOut(request); // a key came between: it is worked out on the text as it stands
    if (!record(result.step, result.splices, false)) return READ_ONLY;
    if (result.select !== null) select(result.select);
    say([result.step, ...result.remarks].join("; "));
    stepSaid = state.said;
    return DONE;
  }

  const failed = (reason: unknown): null => {
    say(reason instanceof Error ? reason.message : "it was not done", "assertive");
    return null;
  };

  function pencilText(is: "cure" | "try", says: string, step: string, text: string, about: KeyPath | null): void {
    const { revision } = state;
    const nothingYet = { comparison: null, plan: null, drawing: null };
    set({ whatIfCharge: null, pencil: { id: ++pencils, is, says, about, step, text, revision, ...nothingYet } });
    say(`in pencil: ${says}`);
    send();
  }

  function select(about: KeyPath | null): void {
    if (about === state.selection) return;
    set({ selection: about });
    onPlace();
  }

  function go(view: ViewId): void {
    if (view === state.view) return;
    past.push(state.view);
    set({ view });
    onPlace();
  }

  function rubOut(): void {
    if (state.pencil === null) return;
    set({ pencil: null, whatIfCharge: null });
    say("pencil rubbed out");
  }

  function openBuild(text: string): void {
    stateChosen = false;
    set({
      ...NOTHING_OPEN,
      units: state.units,
      // What was said was said of another plan.
      said: { text: "", level: "polite", count: state.said.count + 1 },
      open: true,
      view: state.view === "start" ? "one-line" : state.view,
      text,
      revision: state.revision + 1,
      broken: lost,
      ...undoNames(),
      ...keep.head(),
    });
    send();
    onPlace();
  }

  keep.subscribe((change) => {
    if (change.is === "text") become(change.text);
    else if (change.is === "opened") openBuild(change.text);
    else if (change.is === "closed") set({ ...NOTHING_OPEN, units: state.units, revision: state.revision + 1 });
    set({ ...keep.head(), ...undoNames() });
  });

  const searchCures = cureSearches((of, finding, signal) =>
    client.ask({ ask: "cures", of, finding }, signal).catch(failed),
  );

  const bench: Bench = {
    get state() {
      return state;
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    act,
    typed(splices, step) {
      if (!state.readOnly) record(step ?? "typing in the text", splices, step === undefined);
    },
    undo() {
      if (!state.readOnly && state.undoName !== null) {
        say(`undone: ${state.undoName}`);
        keep.undo();
      }
    },
    redo() {
      if (!state.readOnly && state.redoName !== null) {
        say(`done again: ${state.redoName}`);
        keep.redo();
      }
    },
    undoTo(done) {
      if (!state.readOnly) keep.undoTo(done);
    },
    steps: keep.steps,

    async pencilAct(request, says) {
      const { text, buildId } = state;
      const result = await client.ask({ ask: "act", of: text, request }).catch(failed);
      if (result === null) return NOT_WORKED_OUT;
      if (state.buildId !== buildId) return OTHER_PLAN;
      if (!result.ok) return result;
      if (state.text !== text) return bench.pencilAct(request, says);
      pencilText("try", says, result.step, result.text, "about" in request ? request.about : result.select);
      return DONE;
    },
    async pencilCure(finding, index) {
      const { text } = state;
      const search = await bench.findCures(finding);
      if (state.text !== text)
        return { ok: false, message: "the plan was changed meanwhile", hint: "look for cures again" };
      const cure = search === null || search.is === "not searched" ? undefined : search.cures[index];
      if (cure === undefined) return { ok: false, message: "there is no such cure", hint: "" };
      pencilText("cure", cure.says, `cure: ${cure.says}`, cure.text, finding.about);
      return DONE;
    },
    ink() {
      const { pencil, text, revision, readOnly } = state;
      if (pencil === null || pencil.step === null || readOnly || pencil.revision !== revision) return;
      if (!record(pencil.step, splicesBetween(text, pencil.text), false)) return;
      set({ pencil: null, openNote: null });
      say(`done: ${pencil.step}`);
    },
    rubOut,
    setWhatIfCharge(charge) {
      if (charge === null) {
        rubOut();
        return;
      }
      const says = `what if the battery stands at ${Math.round(100 * charge)} %`;
      const { text, revision } = state;
      const old = state.pencil?.is === "what-if" ? state.pencil : { comparison: null, plan: null, drawing: null };
      const { comparison, plan, drawing } = old;
      const own = { id: ++pencils, is: "what-if", says, about: null, step: null } as const;
      set({ whatIfCharge: charge, pencil: { ...own, text, revision, comparison, plan, drawing } });
      send();
    },

    findCures: (finding, signal) => searchCures(state.text, finding, signal),
    explain: (subject, changes, signal) =>
      client.ask({ ask: "why", of: state.text, subject, changes }, signal).catch(failed),
    size: (question) => client.ask({ ask: "size", of: "", question }).catch(failed),
    ...viewQuestions(client, () => state, failed),
    async ask(text) {
      const { selection, operatingState, openNote } = state;
      const context = { selected: selection, state: operatingState, finding: openNote };
      return (await client.ask({ ask: "offers", of: state.text, text, context }).catch(failed)) ?? [];
    },
    take: (offer) => takeOffer(bench, offer),
    complete: (offset) => client.ask({ ask: "complete", of: state.text, offset }).catch(() => null),
    hover: (offset) => client.ask({ ask: "hover", of: state.text, offset }).catch(() => null),
    strip: (circuit) =>
      client.ask({ ask: "strip", of: state.text, circuit, operatingState: state.operatingState }).catch(() => null),
    spoken: (about) => state.drawing?.spoken[about] ?? about,

    go,
    back() {
      const view = past.pop();
      if (view !== undefined) {
        set({ view });
        onPlace();
      }
    },
    select,
    showText(beside) {
      set({ textBeside: beside });
    },
    setState(id) {
      stateChosen = true;
      set({ operatingState: id, whatIfCharge: null, ...(state.pencil?.is === "what-if" ? { pencil: null } : {}) });
      send();
      onPlace();
    },
    openNote(finding) {
      if (state.pencil?.is === "cure") rubOut();
      set({ openNote: finding });
    },
    stepFinding(by) {
      const next = findingAfter(state.plan?.findings ?? [], state.openNote, by);
      if (next === null) return;
      bench.openNote({ rule: next.rule, about: next.about });
      select(next.about.split(".").slice(0, 2).join("."));
    },
    why(subject) {
      set({ whySubject: subject });
      go("why");
    },
    say,
    setUnits(change) {
      set({ units: { ...state.units, ...change } });
    },

    openText: (text, name) => keep.newBuild(text, name),
    openBuild: keep.openBuild,
    async openExample(name) {
      try {
        await keep.newBuild(await fetchExample(name), name);
      } catch {
        say("the example could not be read", "assertive");
      }
    },
    async newPlan(request) {
      const result = await client.ask({ ask: "act", of: "", request }).catch(failed);
      if (result === null) return { ok: false, message: "no plan came of it", hint: "begin with an empty sheet" };
      if (!result.ok) return result;
      await keep.newBuild(result.text, "");
      if (result.select !== null) select(result.select);
      say(result.remarks.join("; "));
      return DONE;
    },
    openFile: keep.openFile,
    openDropped: keep.openDropped,
    saveFile: keep.saveFile,
    saveAs: keep.saveAs,
    takePen: keep.takePen,
  };

  return bench;
}
