import { applySplices, type Splice } from "../../plan/text/splice.ts";
import type { ActRequest } from "../../act/index.ts";
import type { Bench, BenchState, FindingKey, KeyPath, Outcome, Units, ViewId } from "../contract.ts";
import type { Keep } from "./keep.ts";
import { NOTHING_OPEN } from "./nothing-open.ts";
import { tallyWords } from "./tally-words.ts";
import { takeOffer } from "./take-offer.ts";
import type { News, WorkerClient } from "../worker/client.ts";
import type { PageDrawing, PagePlan } from "../worker/protocol.ts";
import { splicesBetween } from "../keep/merge-lines.ts";
import { byGravity } from "./finding-order.ts";

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

const NOTHING: Outcome = { ok: false, message: "the plan is read only here", hint: "work here instead" };
const DONE: Outcome = { ok: true };
/** A figure that is later than this is not shown as fresh, ms. */
const LATE_MS = 100;

/** The one state of the page and everything that can be done to it. */
export function createBench({ workers, keep, units, spokenLength, fetchExample, onPlace }: BenchParts): Bench {
  let state: BenchState = { ...NOTHING_OPEN, units };
  const listeners = new Set<() => void>();
  let queued = false;
  let late: ReturnType<typeof setTimeout> | undefined;
  const past: ViewId[] = [];
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
        if (news.revision === state.revision && state.pencil !== null) {
          const { text, plan, drawing, comparison } = news;
          set({ pencil: { ...state.pencil, text, plan, drawing, comparison } });
        }
        return;
      case "broken":
        clearTimeout(late);
        set({ broken: `this text cannot be worked out: ${news.says}`, working: false });
        return;
    }
  });

  function arrive(plan: PagePlan, drawing: PageDrawing): void {
    clearTimeout(late);
    const before = state.plan;
    set({ plan, drawing, working: false, broken: null });
    const errors = plan.diagnostics.filter(({ level }) => level === "error").length;
    keep.compiled({ revision: plan.planRevision, name: plan.name, text: state.text, errors, tally: plan.tally });
    // A plan is shown in its first state until another one is chosen; a state that is gone is left.
    const known = plan.states.some(({ id }) => id === state.operatingState);
    const first = plan.states[0]?.id ?? null;
    if (!known && (state.operatingState !== null || !stateChosen) && first !== state.operatingState) {
      set({ operatingState: first });
      send();
    }
    const words = before === null || before.revision === plan.revision ? "" : tallyWords(before.tally, plan.tally);
    if (words !== "") say(words);
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
            ? { charge: whatIfCharge, about: null }
            : { text: pencil.text, about: pencil.about },
    });
  }

  /** The text has become another one: everything is worked out anew. What was in pencil over the old text is rubbed out, a what-if stays. */
  function become(text: string): void {
    const keepsPencil = state.pencil?.is === "what-if";
    set({ text, revision: state.revision + 1, ...(keepsPencil ? {} : { pencil: null }), ...undoNames() });
    send();
  }

  function undoNames(): Pick<BenchState, "undoName" | "redoName"> {
    const { names, done } = keep.steps();
    return { undoName: names[done - 1] ?? null, redoName: names[done] ?? null };
  }

  function record(name: string, splices: readonly Splice[], typed: boolean): void {
    const after = applySplices(state.text, splices);
    if (after === state.text) return;
    keep.record({ name, splices, typed });
    become(after);
  }

  async function act(request: ActRequest): Promise<Outcome> {
    if (state.readOnly) return NOTHING;
    const { text } = state;
    const result = await client.ask({ ask: "act", of: text, request }).catch(failed);
    if (result === null)
      return { ok: false, message: "it was not done: the plan could not be worked out", hint: "mend the text first" };
    if (!result.ok) return result;
    if (state.text !== text) return act(request); // a key came between: it is worked out on the text as it stands
    record(result.step, result.splices, false);
    if (result.select !== null) select(result.select);
    say([result.step, ...result.remarks].join("; "));
    return DONE;
  }

  const failed = (reason: unknown): null => {
    say(reason instanceof Error ? reason.message : "it was not done", "assertive");
    return null;
  };

  async function pencilText(
    is: "cure" | "try",
    says: string,
    step: string,
    text: string,
    about: KeyPath | null,
  ): Promise<void> {
    await Promise.resolve();
    set({
      whatIfCharge: null,
      pencil: { is, says, about, step, text, revision: state.revision, comparison: null, plan: null, drawing: null },
    });
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
      said: state.said,
      open: true,
      view: state.view === "start" ? "one-line" : state.view,
      text,
      revision: state.revision + 1,
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

  const order = (): readonly FindingKey[] => byGravity(state.plan?.findings ?? []);

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
      const { text } = state;
      const result = await client.ask({ ask: "act", of: text, request }).catch(failed);
      if (result === null) return NOTHING;
      if (!result.ok) return result;
      await pencilText("try", says, result.step, result.text, "about" in request ? request.about : result.select);
      return DONE;
    },
    async pencilCure(finding, index) {
      const search = await bench.findCures(finding);
      const cure = search === null || search.is === "not searched" ? undefined : search.cures[index];
      if (cure === undefined) return { ok: false, message: "there is no such cure", hint: "" };
      await pencilText("cure", cure.says, `cure: ${cure.says}`, cure.text, finding.about);
      return DONE;
    },
    ink() {
      const { pencil, text, readOnly } = state;
      if (pencil === null || pencil.step === null || readOnly) return;
      record(pencil.step, splicesBetween(text, pencil.text), false);
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
      const old = state.pencil?.is === "what-if" ? state.pencil : null;
      set({
        whatIfCharge: charge,
        pencil: {
          is: "what-if",
          says,
          about: null,
          step: null,
          text: state.text,
          revision: state.revision,
          comparison: old?.comparison ?? null,
          plan: old?.plan ?? null,
          drawing: old?.drawing ?? null,
        },
      });
      send();
    },

    findCures: (() => {
      /** Of this text. */
      const known = new Map<string, ReturnType<Bench["findCures"]>>();
      let of = "";
      return (finding, signal) => {
        if (of !== state.text) {
          known.clear();
          of = state.text;
        }
        const key = `${finding.rule} ${finding.about}`;
        const before = known.get(key);
        if (before !== undefined) return before;
        const asked = client.ask({ ask: "cures", of, finding }, signal).catch(failed);
        known.set(key, asked);
        void asked.then((search) => {
          if (search === null) known.delete(key);
        });
        return asked;
      };
    })(),
    explain: (subject, changes, signal) =>
      client.ask({ ask: "why", of: state.text, subject, changes }, signal).catch(failed),
    size: (question) => client.ask({ ask: "size", of: "", question }).catch(failed),
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
      const all = order();
      if (all.length === 0) return;
      const at = all.findIndex((f) => f.rule === state.openNote?.rule && f.about === state.openNote.about);
      const next = all[at < 0 ? (by > 0 ? 0 : all.length - 1) : (at + by + all.length) % all.length];
      if (next === undefined) return;
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
