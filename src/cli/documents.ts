import type { Compiled } from "../compile.ts";
import type { CureSearch, DecidingAssumptions } from "../cure/index.ts";
import type { Diagnostic, Level, Span } from "../diagnostic.ts";
import type { ToldStates } from "../draw/states/index.ts";
import { lineStartsOf, positionAt } from "../plan/text/index.ts";
import type { Answer } from "../size/answer.ts";
import type { Finding, Judgement, JudgementTally } from "../rules/index.ts";
import type { Design } from "../size/index.ts";
import type { Assumption, MissingFact } from "../system/index.ts";
import type { Explanation } from "../why/index.ts";
import type { CompareDocument } from "./compare-document.ts";
import type { ConvertDocument } from "./convert-document.ts";
import { coordinationOnPaper, type CoordinationOnPaper } from "./coordination-on-paper.ts";
import { faultsOnPaper, type FaultsOnPaper } from "./faults-on-paper.ts";
import { heatOnPaper, type HeatOnPaper } from "./heat-on-paper.ts";
import type { PositionOnPaper } from "./positions-on-paper.ts";
import type { ReadDocument } from "./read-document.ts";
import type { SubstituteDocument } from "./substitute-document.ts";
import { version } from "./version.ts";

/** A stretch of the plan's text. */
export interface Place {
  /** Line it starts on, from 1. */
  readonly line: number;
  /** Character of that line it starts at, from 1. */
  readonly column: number;
  /** Where it starts in the whole text, in UTF-16 units from 0. */
  readonly start: number;
  /** Where it ends in the whole text, in UTF-16 units from 0; not part of it any more. */
  readonly end: number;
}

/** One message about a plan, with its places counted out. */
export interface PlacedDiagnostic {
  /** `<stage>/<what is wrong>`; never reused. */
  readonly id: string;
  readonly level: Level;
  /** Key path of the thing it is about, such as `circuits.W13.length`. */
  readonly about: string;
  /** What is, what was expected: one sentence. */
  readonly message: string;
  /** One next step; null where there is none. */
  readonly hint: string | null;
  /** Where in the text; the first is the one that is marked. Empty: it is about something absent. */
  readonly at: readonly Place[];
  /** The facts behind the words. */
  readonly data: Readonly<Record<string, string | number | boolean | readonly string[]>>;
}

/** A finding with its places counted out. */
export type PlacedFinding = Omit<Finding, "at"> & {
  /** Where in the text; the first is the one that is marked. */
  readonly at: readonly Place[];
};

/** What the rules say, with places counted out. */
export type PlacedJudgement = Omit<Judgement, "findings"> & {
  /** Fails and what cannot be told: musts first, then in the order of the rules and of the plan. */
  readonly findings: readonly PlacedFinding[];
};

/** How many messages of each level. */
export type Tally = Readonly<Record<"errors" | "warnings" | "hints" | "notes", number>>;

/** What is said about one plan. */
export interface CheckedPlan {
  /** As it was named; `-` for standard input. */
  readonly file: string;
  readonly name: string;
  readonly tally: Tally;
  readonly diagnostics: readonly PlacedDiagnostic[];
  readonly judgement: PlacedJudgement;
  /** Defaults that were used. */
  readonly assumptions: readonly Assumption[];
  /** Facts without which something cannot be told. */
  readonly missing: readonly MissingFact[];
  /** Cures of each fail, in the order of the findings; null: not asked for. */
  readonly cures: readonly FoundCures[] | null;
  /** Assumptions that decide something; null: not asked for. */
  readonly deciding: PlacedDeciding | null;
}

/** What may cure a finding. */
export interface FoundCures {
  readonly rule: string;
  /** Key path of the thing that the finding is about. */
  readonly about: string;
  readonly search: CureSearch;
}

/** What came of moving the defaults, with places counted out. */
export type PlacedDeciding = Omit<DecidingAssumptions, "findings"> & { readonly findings: readonly PlacedFinding[] };

/** `wireworthy cure --json`: changes of a plan that make a finding go. */
export interface CureDocument {
  readonly format: "wireworthy-cure-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  /** The plan that was looked at. */
  readonly plan: {
    /** As it was named; `-` for standard input. */
    readonly file: string;
    readonly name: string;
    readonly revision: string;
  };
  readonly finding: PlacedFinding;
  readonly search: CureSearch;
  /** File that a cured plan was written to; null: none was. */
  readonly written: string | null;
}

/** `wireworthy check --json`. */
export interface CheckDocument {
  readonly format: "wireworthy-check-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  readonly plans: readonly CheckedPlan[];
}

/** `wireworthy schedule --json`, and `design.json` of `wireworthy build`. */
export interface DesignDocument {
  readonly format: "wireworthy-design-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  /** The plan that it was computed from. */
  readonly plan: {
    /** As it was named; `-` for standard input. */
    readonly file: string;
    readonly name: string;
    readonly revision: string;
  };
  readonly tally: Tally;
  readonly diagnostics: readonly PlacedDiagnostic[];
  readonly design: Design;
  readonly judgement: PlacedJudgement;
  /** What short circuits draw, what opens, and what conductors and devices bear. */
  readonly faults?: FaultsOnPaper;
  /** Which of several devices opens, and what goes dark. */
  readonly coordination?: CoordinationOnPaper;
  /** Temperature of conductors, and the tables beside the model. */
  readonly heat?: readonly HeatOnPaper[];
}

/** `wireworthy faults --json`: prospective currents and what they meet. */
export interface FaultsDocument extends FaultsOnPaper {
  readonly format: "wireworthy-faults-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  readonly plan: PlanOnPaper;
}

/** `wireworthy selectivity --json`: which of several devices opens, and what goes dark. */
export interface SelectivityDocument extends CoordinationOnPaper {
  readonly format: "wireworthy-selectivity-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  readonly plan: PlanOnPaper;
}

/** `wireworthy states --json`: every state of the alternating side, or one position of it. */
export interface StatesDocument extends ToldStates {
  readonly format: "wireworthy-states-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  readonly plan: PlanOnPaper;
  /** Null: no position was asked for. */
  readonly position: PositionOnPaper | null;
}

/** The plan that a document was computed from. */
export interface PlanOnPaper {
  /** As it was named; `-` for standard input. */
  readonly file: string;
  readonly name: string;
  readonly revision: string;
}

/** `wireworthy why --json`: why a figure of a plan is what it is. */
export interface WhyDocument {
  readonly format: "wireworthy-why-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  /** The plan that it was computed from. */
  readonly plan: {
    /** As it was named; `-` for standard input. */
    readonly file: string;
    readonly name: string;
    readonly revision: string;
  };
  readonly explanation: Explanation;
}

/** `wireworthy build --json`: what was written. */
export interface BuildDocument {
  readonly format: "wireworthy-build-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  /** Folder that the files are in. */
  readonly folder: string;
  readonly files: readonly {
    /** Its name in the folder. */
    readonly name: string;
    /** Length of the file, bytes. */
    readonly bytes: number;
    /** What it holds. */
    readonly holds: string;
  }[];
  readonly tally: Tally;
  readonly judged: JudgementTally;
}

/** `wireworthy size --json`: the wire for one circuit. */
export interface SizeDocument extends Answer {
  readonly format: "wireworthy-size-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
}

export function tallyOf(diagnostics: readonly Pick<Diagnostic, "level">[]): Tally {
  const count = (level: Level): number => diagnostics.filter((d) => d.level === level).length;
  return { errors: count("error"), warnings: count("warning"), hints: count("hint"), notes: count("note") };
}

export function placeDiagnostics(text: string, diagnostics: readonly Diagnostic[]): PlacedDiagnostic[] {
  const placeOf = placesIn(text);
  return diagnostics.map(({ id, level, at, about, message, hint, data }) => ({
    id,
    level,
    about,
    message,
    hint: hint ?? null,
    at: at.map(placeOf),
    data: data ?? {},
  }));
}

/** Counts out places of a text. */
function placesIn(text: string): (span: Span) => Place {
  const starts = lineStartsOf(text);
  return ([start, end]) => {
    const { line, column } = positionAt(text, start, starts);
    return { line, column, start, end };
  };
}

function placeFindings(text: string, findings: readonly Finding[]): PlacedFinding[] {
  const placeOf = placesIn(text);
  return findings.map((f) => ({ ...f, at: f.at.map(placeOf) }));
}

function placeJudgement(text: string, judgement: Judgement): PlacedJudgement {
  return { ...judgement, findings: placeFindings(text, judgement.findings) };
}

/** @param asked what was looked for beside the judgement */
export function checkedPlan(
  file: string,
  { plan, design, diagnostics, judgement }: Compiled,
  asked: { readonly cures: readonly FoundCures[] | null; readonly deciding: DecidingAssumptions | null },
): CheckedPlan {
  const { cures, deciding } = asked;
  return {
    file,
    name: plan.name,
    tally: tallyOf(diagnostics),
    diagnostics: placeDiagnostics(plan.text, diagnostics),
    judgement: placeJudgement(plan.text, judgement),
    assumptions: design.assumptions,
    missing: design.missing,
    cures,
    deciding: deciding === null ? null : { ...deciding, findings: placeFindings(plan.text, deciding.findings) },
  };
}

export const cureDocument = (
  file: string,
  { plan }: Compiled,
  finding: Finding,
  search: CureSearch,
  written: string | null,
): CureDocument => ({
  format: "wireworthy-cure-1",
  wireworthy: version,
  plan: { file, name: plan.name, revision: plan.revision },
  finding: { ...finding, at: finding.at.map(placesIn(plan.text)) },
  search,
  written,
});

export function designDocument(file: string, compiled: Compiled): DesignDocument {
  const { plan, design, diagnostics, judgement } = compiled;
  return {
    format: "wireworthy-design-1",
    wireworthy: version,
    plan: { file, name: plan.name, revision: plan.revision },
    tally: tallyOf(diagnostics),
    diagnostics: placeDiagnostics(plan.text, diagnostics),
    design,
    judgement: placeJudgement(plan.text, judgement),
    faults: faultsOnPaper(compiled),
    coordination: coordinationOnPaper(compiled),
    heat: heatOnPaper(compiled),
  };
}

/** @param faults of the whole build, or of what is asked about */
export const faultsDocument = (file: string, { plan }: Compiled, faults: FaultsOnPaper): FaultsDocument => ({
  format: "wireworthy-faults-1",
  wireworthy: version,
  plan: { file, name: plan.name, revision: plan.revision },
  ...faults,
});

export const selectivityDocument = (
  file: string,
  { plan }: Compiled,
  coordination: CoordinationOnPaper,
): SelectivityDocument => ({
  format: "wireworthy-selectivity-1",
  wireworthy: version,
  plan: { file, name: plan.name, revision: plan.revision },
  ...coordination,
});

export const statesDocument = (
  file: string,
  { plan }: Compiled,
  told: ToldStates,
  position: PositionOnPaper | null,
): StatesDocument => ({
  format: "wireworthy-states-1",
  wireworthy: version,
  plan: { file, name: plan.name, revision: plan.revision },
  ...told,
  position,
});

export const whyDocument = (file: string, { plan }: Pick<Compiled, "plan">, explanation: Explanation): WhyDocument => ({
  format: "wireworthy-why-1",
  wireworthy: version,
  plan: { file, name: plan.name, revision: plan.revision },
  explanation,
});

/** Characters that are lawful in JSON and yet steer a terminal or turn the direction of writing. */
const UNSEEN = /[\u007f-\u009f\u2028-\u202e\u2060-\u206f\ufeff]/g;

/** A document as text, one blank indent a level, safe to look at. */
export function printJson(
  document:
    | CheckDocument
    | CureDocument
    | DesignDocument
    | WhyDocument
    | BuildDocument
    | SizeDocument
    | ConvertDocument
    | SubstituteDocument
    | FaultsDocument
    | SelectivityDocument
    | StatesDocument
    | CompareDocument,
): string {
  return `${seen(JSON.stringify(document, null, 1))}\n`;
}

/** A document on one line: lists of labels are answered line by line. */
export const printJsonLine = (document: ReadDocument): string => `${seen(JSON.stringify(document))}\n`;

const seen = (json: string): string =>
  json.replace(UNSEEN, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
