/**
 * READ THIS FIRST. What the page knows and what can be done on it. Every view is a function of `BenchState` that calls `Bench`; none keeps a
 * second truth. The plan's text is the only thing that is edited; everything else is computed from it in a worker.
 */
import type { ActRequest, AskOffer, Comparison } from "../act/index.ts";
import type { LessonPageStep, ShownDrawing, WireCard, WireQuestion, WireSheetWish } from "../act/wire-card/index.ts";
import type { CureSearch } from "../cure/index.ts";
import type { Splice } from "../plan/text/splice.ts";
import type { Explained } from "../why/index.ts";
import type { QuestionText } from "../size/question-text.ts";
import type { FindingKey, KeyPath, Sized } from "./asked.ts";
import type { CircuitFaultsAnswer, FaultsAnswer } from "./worker/fault-answers.ts";
import type { StateAsked, StateAtAnswer, StateDrawing, StateMovers, StatesAnswer } from "./worker/position-answers.ts";
import type { PageDrawing, PagePlan, Completions, Hover } from "./worker/protocol.ts";

export type { FindingKey, KeyPath, Sized };

/** Views in the order of the stack. */
export type ViewId =
  "start" | "one-line" | "states" | "schedules" | "faults" | "findings" | "why" | "text" | "wire-desk";

/** Something tried and not applied: drawn, told and priced in pencil until it is inked or rubbed out. */
export interface Pencil {
  /** Which one it is: an answer for an earlier one is dropped. */
  readonly id: number;
  readonly is: "cure" | "what-if" | "try";
  /** `cure: W13 2.5 mm²`. */
  readonly says: string;
  /** What it is for; null: the whole build. */
  readonly about: KeyPath | null;
  /** Name of the step if it is inked; null: it cannot be, as a what-if. */
  readonly step: string | null;
  /** The plan with it. */
  readonly text: string;
  /** Revision of the text that it starts from. */
  readonly revision: number;
  /** What was compared, once the worker is through. */
  readonly comparison: Comparison | null;
  readonly plan: PagePlan | null;
  readonly drawing: PageDrawing | null;
}

/** Where the work is kept, as the head says it. */
export interface KeptLine {
  /** `Saved in sloop.yaml, 14:02`. */
  readonly says: string;
  readonly level: "calm" | "warn" | "fail";
}

/** How figures are printed; the plan keeps what was typed. */
export interface Units {
  readonly lengths: "m" | "ft";
  readonly sizes: "mm²" | "AWG" | "both";
  readonly temperatures: "°C" | "°F";
  readonly decimal: "." | ",";
}

export interface BenchState {
  /** False on Start: no plan is open. */
  readonly open: boolean;
  readonly text: string;
  /** Counts every change of the text. */
  readonly revision: number;
  /** What the last compiled text came to; its `revision` may lag behind. Null until the first is through. */
  readonly plan: PagePlan | null;
  readonly drawing: PageDrawing | null;
  /** The answer is late by more than 100 ms: figures shown are of an earlier text. */
  readonly working: boolean;
  /** The worker broke on this text: what, in words. The last good drawing stays. */
  readonly broken: string | null;
  readonly view: ViewId;
  /** The text stands beside the sheet. */
  readonly textBeside: boolean;
  readonly selection: KeyPath | null;
  /** Operating state of the figures; null: none, contacts at rest. */
  readonly operatingState: string | null;
  /** Charge of the bank that is tried, 0 … 1; null: as the state says. */
  readonly whatIfCharge: number | null;
  /** The one note that is open. */
  readonly openNote: FindingKey | null;
  readonly pencil: Pencil | null;
  /** What is asked about in Why, as it would be typed: `W12`, `fridge@at anchor`. */
  readonly whySubject: string | null;
  readonly undoName: string | null;
  readonly redoName: string | null;
  readonly kept: KeptLine;
  /** Another tab has the pen. */
  readonly readOnly: boolean;
  readonly units: Units;
  /** The last thing that was said: shown at the plan line and spoken. */
  readonly said: { readonly text: string; readonly level: "polite" | "assertive"; readonly count: number };
  readonly fileName: string | null;
  /** Under which it is kept in this browser; null: no plan is open. */
  readonly buildId: string | null;
}

export type Outcome = { readonly ok: true } | { readonly ok: false; readonly message: string; readonly hint: string };

export interface Bench {
  readonly state: BenchState;
  readonly subscribe: (listener: () => void) => () => void;

  // Changing the plan. Every call is one step of the undo list.
  /** Does what a person asked on the drawing, in a table or in the ask field. */
  readonly act: (request: ActRequest) => Promise<Outcome>;
  /** The text editor's own change; typing in one place becomes one step. With a name it is a step of its own. */
  readonly typed: (splices: readonly Splice[], step?: string) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly undoTo: (done: number) => void;
  /** Names of all steps, and how many are done. */
  readonly steps: () => { readonly names: readonly string[]; readonly done: number };

  // Pencil.
  /** Shows a change in pencil without making it. */
  readonly pencilAct: (request: ActRequest, says: string) => Promise<Outcome>;
  readonly pencilCure: (finding: FindingKey, index: number) => Promise<Outcome>;
  readonly ink: () => void;
  readonly rubOut: () => void;
  readonly setWhatIfCharge: (charge: number | null) => void;

  // Asking. All of these can be dropped: a later answer to the same kind of question wins.
  readonly findCures: (finding: FindingKey, signal?: AbortSignal) => Promise<CureSearch | null>;
  /** First without what would change it, quickly; with `changes` about a second. */
  readonly explain: (subject: string, changes: boolean, signal?: AbortSignal) => Promise<Explained | null>;
  readonly size: (question: QuestionText) => Promise<Sized | null>;
  /** What a name of a wire means, and all that is known of the wire. */
  readonly wire: (question: WireQuestion, signal?: AbortSignal) => Promise<WireCard | null>;
  readonly wireSheet: (wish: WireSheetWish) => Promise<readonly ShownDrawing[] | null>;
  readonly wireLesson: () => Promise<readonly LessonPageStep[] | null>;
  /** Faults, devices in series, feeders, banks and heat of the plan as it stands. */
  readonly faults: (signal?: AbortSignal) => Promise<FaultsAnswer | null>;
  readonly circuitFaults: (circuit: string, signal?: AbortSignal) => Promise<CircuitFaultsAnswer | null>;
  /** When the devices of a circuit open, on a sheet of paper. */
  readonly curvesSheet: (circuit: string) => Promise<ShownDrawing | null>;
  /** What can be set on the alternating side: plugs, sources, switches. Null: nothing alternates. */
  readonly stateMovers: (signal?: AbortSignal) => Promise<StateMovers | null>;
  /** What holds where everything stands as it is asked for, and after one move more. */
  readonly stateAt: (asked: StateAsked, signal?: AbortSignal) => Promise<StateAtAnswer | null>;
  /** The one-line with what is live then. */
  readonly stateDrawing: (asked: StateAsked, signal?: AbortSignal) => Promise<StateDrawing | null>;
  /** Every state that differs, with the shortest way to it. */
  readonly allStates: (signal?: AbortSignal) => Promise<StatesAnswer | null>;
  readonly ask: (text: string) => Promise<readonly AskOffer[]>;
  readonly take: (offer: AskOffer) => Promise<Outcome>;
  readonly complete: (offset: number) => Promise<Completions | null>;
  readonly hover: (offset: number) => Promise<Hover | null>;
  /** What a reader hears of a thing. */
  readonly spoken: (about: KeyPath) => string;
  /** Close-up of a circuit, top down. */
  readonly strip: (
    circuit: string,
  ) => Promise<{ readonly svg: string; readonly width: number; readonly height: number } | null>;

  // Moving about.
  readonly go: (view: ViewId) => void;
  readonly back: () => void;
  readonly select: (about: KeyPath | null) => void;
  readonly showText: (beside: boolean) => void;
  readonly setState: (id: string | null) => void;
  readonly openNote: (finding: FindingKey | null) => void;
  /** To the next or the one before, in order of gravity. */
  readonly stepFinding: (by: 1 | -1) => void;
  readonly why: (subject: string) => void;
  readonly say: (text: string, level?: "polite" | "assertive") => void;
  readonly setUnits: (units: Partial<Units>) => void;

  // Files and builds.
  /** A plan that this browser keeps. False: it is not there any more. */
  readonly openBuild: (id: string) => Promise<boolean>;
  readonly openText: (text: string, name: string) => Promise<void>;
  readonly openExample: (name: "sloop" | "van" | "hut" | "sloop-audit" | "sloop-us") => Promise<void>;
  readonly newPlan: (request: ActRequest & { readonly do: "new-plan" }) => Promise<Outcome>;
  readonly openFile: () => Promise<Outcome>;
  /** A file that was dropped on the page. */
  readonly openDropped: (file: File) => Promise<Outcome>;
  readonly saveFile: () => Promise<Outcome>;
  readonly saveAs: () => Promise<Outcome>;
  readonly takePen: () => Promise<void>;
}
