/** What the page and its workers say to each other. Plain data; the latest plan wins, answers carry the number of their question. */
import type { ActRequest, ActResult, AskContext, AskOffer, Comparison, FreePlace } from "../../act/index.ts";
import type { CureSearch } from "../../cure/index.ts";
import type { LessonPageStep, ShownDrawing, WireCard, WireQuestion, WireSheetWish } from "../../act/wire-card/index.ts";
import type { Diagnostic, Span } from "../../diagnostic.ts";
import type { BenchDrawing } from "../../draw/bench/index.ts";
import type { Finding, JudgementTally } from "../../rules/index.ts";
import type { Design } from "../../size/index.ts";
import type { QuestionText } from "../../size/question-text.ts";
import type { Explained } from "../../why/index.ts";
import type { FindingKey, KeyPath, Sized } from "../asked.ts";
import type { FaultAnswerOf, FaultAsked } from "./fault-answers.ts";
import type { PositionAnswerOf, PositionAsked } from "./position-answers.ts";
import type { StateAnswer } from "./state-answer.ts";

/** A thing of the plan that can be selected. */
export interface PageThing {
  readonly about: KeyPath;
  readonly id: string;
  /** What people call it. */
  readonly name: string;
  readonly what: "part" | "circuit" | "system" | "state";
  /** Kind of a part; ends of a circuit. */
  readonly says: string;
  /** Its key in the text. */
  readonly at: Span;
  /** Of a part or circuit: the operating states in which it is on. */
  readonly on: readonly string[];
}

/** A state of the plan, with its answer in a few figures. */
export interface PageState extends StateAnswer {
  readonly id: string;
  readonly name: string;
}

/** What a compiled plan comes to, as far as the page shows it. */
export interface PagePlan {
  readonly revision: number;
  readonly name: string;
  /** Revision that the plan states. */
  readonly planRevision: string;
  /** Rule sets by system, as the plan names them. */
  readonly rules: readonly string[];
  readonly stockSizes: "mm²" | "AWG" | "SAE";
  readonly things: readonly PageThing[];
  /** Circuits that have no place in the build, because an end of theirs is no part: `PNL:3 → USB`. */
  readonly openEnds: readonly { readonly about: KeyPath; readonly says: string }[];
  readonly states: readonly PageState[];
  readonly design: Design;
  /** Whether the rules have been heard; the first picture does not wait for them, and they may not be to be had. */
  readonly judged: "yes" | "not yet" | "rules not read";
  /** Empty until it is judged. */
  readonly findings: readonly Finding[];
  readonly tally: JudgementTally;
  readonly diagnostics: readonly Diagnostic[];
  /** Where a load can be added, and in words: `way 13 of DC panel`. */
  readonly freePlaces: readonly (FreePlace & { readonly says: string })[];
  /** ms in the worker. */
  readonly took: { readonly compileMs: number; readonly drawMs: number };
}

/** The drawing of the bench. */
export interface PageDrawing {
  readonly revision: number;
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  readonly places: BenchDrawing["places"];
  readonly marks: BenchDrawing["marks"];
  /** What there is no place for, in words. */
  readonly notDrawn: readonly string[];
  /** Ways along the copper from each thing. */
  readonly travel: Readonly<
    Record<
      KeyPath,
      {
        readonly next: readonly KeyPath[];
        readonly back: readonly KeyPath[];
        readonly up: KeyPath | null;
        readonly down: KeyPath | null;
      }
    >
  >;
  readonly home: KeyPath | null;
  /** What a reader hears first. */
  readonly says: string;
  readonly spoken: Readonly<Record<KeyPath, string>>;
  /** The same at full length: two drawings are compared by it. */
  readonly told: Readonly<Record<KeyPath, string>>;
}

export interface Completions {
  /** What is replaced. */
  readonly from: number;
  readonly to: number;
  readonly options: readonly { readonly label: string; readonly detail: string; readonly insert: string }[];
}

export interface Hover {
  readonly at: Span;
  /** Lines: what it is, what it came to. */
  readonly lines: readonly string[];
  /** What can be asked in Why; null: nothing. */
  readonly subject: string | null;
}

/** The thing whose figures are compared before and after; null: only those of the whole build. */
interface PencilAbout {
  /** Which pencil it is; the answer carries it. */
  readonly id: number;
  readonly about: KeyPath | null;
}

/** The plan as it stands, and what to draw of it. */
export interface PlanMessage {
  readonly is: "plan";
  readonly revision: number;
  readonly text: string;
  readonly operatingState: string | null;
  /** How much a reader hears of a thing. */
  readonly spoken: "names" | "brief" | "full";
  /** Pencil over it; `charge` is worked into the text by the worker. */
  readonly pencil: (({ readonly text: string } | { readonly charge: number }) & PencilAbout) | null;
}

/** A question; `of` is the text it is about. */
export type Question =
  | FaultAsked
  | PositionAsked
  | { readonly of: string; readonly ask: "act"; readonly request: ActRequest }
  | { readonly of: string; readonly ask: "cures"; readonly finding: FindingKey }
  | { readonly of: string; readonly ask: "why"; readonly subject: string; readonly changes: boolean }
  | { readonly of: string; readonly ask: "size"; readonly question: QuestionText }
  | {
      readonly of: string;
      readonly ask: "offers";
      readonly text: string;
      readonly context: AskContext;
    }
  /** A name on the wire desk; of no plan. */
  | { readonly of: string; readonly ask: "wire"; readonly question: WireQuestion }
  /** A sheet of wire sizes to print. */
  | { readonly of: string; readonly ask: "wire-sheet"; readonly wish: WireSheetWish }
  /** The taught path of how wire is named. */
  | { readonly of: string; readonly ask: "wire-lesson" }
  | { readonly of: string; readonly ask: "complete"; readonly offset: number }
  | { readonly of: string; readonly ask: "hover"; readonly offset: number }
  | { readonly of: string; readonly ask: "strip"; readonly circuit: string; readonly operatingState: string | null };

/** Questions of wire alone, and those of a plan; those of faults and of positions have parts of their own. */
export type WireAsked = Extract<Question, { readonly ask: "wire" | "wire-sheet" | "wire-lesson" }>;
export type PlanQuestion = Exclude<Question, WireAsked | FaultAsked | PositionAsked>;

export interface AnswerOf extends FaultAnswerOf, PositionAnswerOf {
  readonly act: ActResult;
  readonly cures: CureSearch;
  readonly why: Explained;
  readonly size: Sized;
  readonly offers: readonly AskOffer[];
  readonly wire: WireCard;
  readonly "wire-sheet": readonly ShownDrawing[];
  readonly "wire-lesson": readonly LessonPageStep[];
  readonly complete: Completions | null;
  readonly hover: Hover | null;
  readonly strip: { readonly svg: string; readonly width: number; readonly height: number } | null;
}

export type ToWorker =
  | PlanMessage
  | { readonly is: "ask"; readonly id: number; readonly question: Question }
  | { readonly is: "cancel"; readonly id: number };

export type FromWorker =
  | { readonly is: "ready" }
  /** What the plan came to and its drawing, of one revision. */
  | { readonly is: "shown"; readonly plan: PagePlan; readonly drawing: PageDrawing }
  | {
      readonly is: "pencilled";
      readonly revision: number;
      readonly pencil: number;
      readonly plan: PagePlan;
      readonly drawing: PageDrawing;
      readonly comparison: Comparison;
    }
  | { readonly is: "answer"; readonly id: number; readonly value: AnswerOf[keyof AnswerOf] }
  | { readonly is: "failed"; readonly id: number; readonly says: string }
  /** What was to be tried cannot be. */
  | { readonly is: "not pencilled"; readonly pencil: number; readonly says: string }
  /** The worker itself could not be read, or fell over. */
  | { readonly is: "lost"; readonly says: string }
  /** A defect of the program on this text. */
  | { readonly is: "broken"; readonly revision: number; readonly says: string };
