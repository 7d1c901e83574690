import type { Bench, BenchState, FindingKey, Outcome } from "../../src/workbench/contract.ts";
import type { CureSearch } from "../../src/cure/index.ts";
import type { Explained } from "../../src/why/index.ts";
import type { PagePlan } from "../../src/workbench/worker/protocol.ts";

/** What the page of a test can ask of the program outside it, and what it keeps of what was done. */
export interface Outside {
  readonly explain: (subject: string, changes: boolean) => Promise<Explained>;
  readonly findCures: (finding: FindingKey) => Promise<CureSearch>;
  readonly strip: (circuit: string) => Promise<{ svg: string; width: number; height: number } | null>;
}

export interface FakeBench {
  readonly bench: Bench;
  /** Every call that does something, by its name with what was given. */
  readonly calls: readonly (readonly unknown[])[];
  readonly set: (change: Partial<BenchState>) => void;
  /** What the next acts come to. */
  outcome: Outcome;
}

/** A bench that does nothing but keep its state and write down what it was asked. */
export function makeFakeBench(plan: PagePlan | null, text: string, outside: Outside): FakeBench {
  const listeners = new Set<() => void>();
  const calls: (readonly unknown[])[] = [];
  let state: BenchState = {
    open: true,
    text,
    revision: 1,
    plan,
    drawing: null,
    working: false,
    broken: null,
    view: "schedules",
    textBeside: false,
    selection: null,
    operatingState: null,
    whatIfCharge: null,
    openNote: null,
    pencil: null,
    whySubject: null,
    undoName: null,
    redoName: null,
    kept: { says: "Kept in this browser only", level: "calm" },
    readOnly: false,
    units: { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." },
    said: { text: "", level: "polite", count: 0 },
    fileName: null,
    buildId: null,
  };
  const set = (change: Partial<BenchState>): void => {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  };
  const note =
    (name: string, then: (...given: never[]) => void = () => undefined) =>
    (...given: readonly unknown[]): void => {
      calls.push([name, ...given]);
      then(...(given as never[])); // the caller's own arguments
    };
  const fake: { outcome: Outcome } = { outcome: { ok: true } };
  const answer =
    (name: string) =>
    (...given: readonly unknown[]): Promise<Outcome> => {
      calls.push([name, ...given]);
      return Promise.resolve(fake.outcome);
    };
  const bench: Bench = {
    get state() {
      return state;
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    act: answer("act"),
    typed: note("typed"),
    undo: note("undo"),
    redo: note("redo"),
    undoTo: note("undoTo"),
    steps: () => ({ names: [], done: 0 }),
    pencilAct: answer("pencilAct"),
    pencilCure: answer("pencilCure"),
    ink: note("ink"),
    rubOut: note("rubOut", () => {
      set({ pencil: null });
    }),
    setWhatIfCharge: note("setWhatIfCharge"),
    findCures: (finding) => outside.findCures(finding),
    explain: (subject, changes) => outside.explain(subject, changes),
    size: () => Promise.resolve(null),
    wire: () => Promise.resolve(null),
    wireSheet: () => Promise.resolve(null),
    wireLesson: () => Promise.resolve(null),
    faults: () => Promise.resolve(null),
    circuitFaults: () => Promise.resolve(null),
    stateMovers: () => Promise.resolve(null),
    stateAt: () => Promise.resolve(null),
    stateDrawing: () => Promise.resolve(null),
    allStates: () => Promise.resolve(null),
    curvesSheet: () => Promise.resolve(null),
    ask: () => Promise.resolve([]),
    take: answer("take"),
    complete: () => Promise.resolve(null),
    hover: () => Promise.resolve(null),
    spoken: (about) => about,
    strip: (circuit) => outside.strip(circuit),
    go: note("go", (view: BenchState["view"]) => {
      set({ view });
    }),
    back: note("back"),
    select: note("select", (selection: string | null) => {
      set({ selection });
    }),
    showText: note("showText", (textBeside: boolean) => {
      set({ textBeside });
    }),
    setState: note("setState"),
    openNote: note("openNote", (openNote: FindingKey | null) => {
      set({ openNote });
    }),
    stepFinding: note("stepFinding"),
    why: note("why", (whySubject: string) => {
      set({ whySubject });
    }),
    say: note("say"),
    setUnits: note("setUnits"),
    openText: () => Promise.resolve(),
    openBuild: () => Promise.resolve(false),
    openExample: () => Promise.resolve(),
    newPlan: answer("newPlan"),
    openFile: answer("openFile"),
    openDropped: answer("openDropped"),
    saveFile: answer("saveFile"),
    saveAs: answer("saveAs"),
    takePen: () => Promise.resolve(),
  };
  return Object.assign(fake, { bench, calls, set });
}
