import type { Trust } from "../explain/index.ts";
import type { ConstraintId } from "../size/index.ts";

/**
 * Why a figure of a design is what it is. Text, JSON and a page are printed from it and add nothing of their own. Plain data.
 */
export interface Explanation {
  /** What was asked about, as it would be asked again: `W12`, `W12.drop`, `fridge@at anchor`. */
  readonly subject: string;
  /** As a question: `Why is W12 35 mm²?` */
  readonly question: string;
  /** One sentence. */
  readonly answer: string;
  /** What the working comes to; the same figures stand in the schedule. */
  readonly figures: readonly WorkedFigure[];
  /** What each constraint alone would ask for; empty where no size was chosen or judged. */
  readonly ladder: readonly LadderRung[];
  readonly sections: readonly WorkedSection[];
  readonly leansOn: readonly LeansOn[];
  /** What would change the answer; empty where that was not looked for. */
  readonly changes: readonly Change[];
  /** What to mind before leaning on it. */
  readonly cautions: readonly string[];
  /** Further questions that can be asked. */
  readonly further: readonly string[];
}

/** A figure with its unit. */
export interface WorkedFigure {
  /** The name it has in the design: `dropV`. */
  readonly name: string;
  /** A number in the unit beside it, or a word; null: there is none, and the answer says why. */
  readonly value: number | string | null;
  readonly unit: string;
  /** As people read it. */
  readonly text: string;
}

/** One constraint on a size. */
export interface LadderRung {
  readonly id: ConstraintId;
  /** The size that it alone asks for; null: nothing on sale is enough, or nothing is asked. */
  readonly size: string | null;
  /** Area of that size, mm². */
  readonly areaMm2: number | null;
  readonly outcome: "met" | "not met" | "not stated" | "not judged yet" | "cannot tell";
  readonly decides: boolean;
  /** Its figures in one line: `85 A of 185 A`. */
  readonly says: string;
  /** What the next thinner size would do, everything else as it is; empty where that was not looked for. */
  readonly thinner: string;
  /** Document and clause, or the plan. */
  readonly source: string;
  readonly trust: Trust | null;
}

/** A part of the working. */
export interface WorkedSection {
  readonly title: string;
  /** What it is worked out for, in words; may be empty. */
  readonly says: string;
  readonly steps: readonly WorkedStep[];
  /** Every element between a source and a load with what it loses; empty where nothing is lost on a way. */
  readonly way: readonly WayElement[];
}

/** One step of a derivation, the numbers put in. */
export interface WorkedStep {
  /** What it gives, in words. */
  readonly name: string;
  /** As in a book; empty for a value that is taken as it stands. */
  readonly equation: string;
  /** The right side of the equation with its numbers and units; for a table the place in it. */
  readonly working: string;
  /** A number in the unit beside it, or a word. */
  readonly value: number | string;
  readonly unit: string;
  /** As it is printed, with its unit. */
  readonly text: string;
  /** Place in a table it was taken from; null where it was computed or stated. */
  readonly table: TablePlace | null;
  /** Document and clause, or the place in the plan; may be empty. */
  readonly source: string;
  readonly trust: Trust | null;
}

/** A cell of a published table. */
export interface TablePlace {
  readonly id: string;
  readonly row: string;
  readonly column: string;
  /** What was looked for, where the table's own rule led to another row; else the row. */
  readonly sought: string;
}

/** One element that a current passes on the way to a load or back. */
export interface WayElement {
  /** `W12+`, `SW1`, `W12+ device`. */
  readonly element: string;
  readonly what: "wire" | "joints" | "device" | "contact" | "source";
  readonly pole: "out" | "back";
  /** Through it in this case, A. */
  readonly amps: number;
  /** In this case, Ω. */
  readonly ohms: number;
  /** Lost in it, V. */
  readonly volts: number;
}

/** Something the answer rests on. */
export interface LeansOn {
  readonly kind: "plan" | "assumption" | "table" | "missing";
  readonly says: string;
  /** Place in the plan; null where there is none. */
  readonly line: number | null;
  readonly column: number | null;
  /** Key to write in the plan to say otherwise; empty where there is none. */
  readonly pin: string;
  readonly trust: Trust | null;
}

/** A fact, the value from which on the answer is another one, and that answer. */
export interface Change {
  /** `8.7 m or longer`. */
  readonly when: string;
  /** What the answer is then: `50 mm²`. */
  readonly then: string;
  /** Which fact, as a key path in the plan. */
  readonly fact: string;
  /** The first value with the other answer, in the unit beside it. */
  readonly value: number;
  /** The last value with the answer as it is, in the unit beside it. */
  readonly until: number;
  readonly unit: string;
}
