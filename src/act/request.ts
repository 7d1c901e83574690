import type { Edit, Splice } from "../plan/text/index.ts";
import type { Finding } from "../rules/index.ts";
import type { QuestionText } from "../size/question-text.ts";
import type { NewPlanAnswers } from "./new-plan-answers.ts";

/**
 * A thing of the plan by section and name, as findings name it: `circuits.W13`, `parts.fridge`, `states.at anchor`, `systems.DC`, `plan`,
 * `climate`, `stock`. Of a panel one way may be named: `parts.PNL:3`.
 */
export type KeyPath = string;

/** What a person does on the page, as data. */
export type ActRequest =
  /**
   * A figure or word typed where it is drawn. Fields: any key of the plan language that stands under such a thing, and beside them `load`
   * (amps or watts, whichever key holds them), `size` (of a circuit: its `wire`), `device` (rating, family and place of its first device; of
   * several `device 2`), `designation` (renames). An empty text takes the value away, so that the tool chooses or assumes again.
   */
  | { readonly do: "set-figure"; readonly about: KeyPath; readonly field: string; readonly text: string }
  /** Writes the chosen size or device down, or the one that was typed; from then on it is judged and never changed. */
  | { readonly do: "pin"; readonly about: KeyPath; readonly what?: "wire" | "device"; readonly text?: string }
  | { readonly do: "unpin"; readonly about: KeyPath; readonly what?: "wire" | "device" }
  /** A load on a circuit of its own at a panel or bar, or behind the end of a circuit. `on`: states in which it runs. */
  | { readonly do: "add-load"; readonly at: KeyPath; readonly text: string; readonly on?: readonly string[] }
  /** `text`: `fuse`, `breaker 10 A`, `fuse 30 A class T`, `switch`, `switch 100 A`. `distance` from the supply side; else right at it. */
  | { readonly do: "insert-device"; readonly circuit: KeyPath; readonly distance?: string; readonly text: string }
  | { readonly do: "remove"; readonly about: KeyPath }
  /** Another designation, and in every place that speaks of it. What people call it is the field `name`. */
  | { readonly do: "rename"; readonly about: KeyPath; readonly to: string }
  /** Feeds a circuit from another part: `parts.BP`, or a way, `parts.PNL:4`; of a panel without a way the next free one. */
  | { readonly do: "feed"; readonly circuit: KeyPath; readonly from: KeyPath }
  /** Another way of the same panel; with the circuit that stands there the two change places. */
  | { readonly do: "move-way"; readonly circuit: KeyPath; readonly way: string }
  /** A load on or off in a state, or a switch, plug or relay in a position: `on`, `off`, `shore`. */
  | { readonly do: "switch"; readonly about: KeyPath; readonly state: string; readonly to: string }
  /** The other way round, for whoever does not know the words: a load on or off, a switch or plug in its next position. */
  | { readonly do: "flip"; readonly about: KeyPath; readonly state: string }
  | {
      readonly do: "set-state-figure";
      readonly state: string;
      readonly figure: "battery" | "engine" | "shore" | "sun";
      /** `20 %`; `on`, `off`; `in`, `out`. Empty: the state says nothing of it. */
      readonly text: string;
    }
  /** Another moment: with nothing on, or like another one. */
  | { readonly do: "add-state"; readonly name: string; readonly like?: string }
  | {
      readonly do: "waive";
      readonly finding: Pick<Finding, "rule" | "about">;
      readonly reason: string;
      readonly by?: string;
      /** ISO dates. */
      readonly date?: string;
      readonly until?: string;
    }
  | { readonly do: "unwaive"; readonly finding: Pick<Finding, "rule" | "about"> }
  /** A cure, or any other edits that were worked out elsewhere. */
  | { readonly do: "apply-edits"; readonly edits: readonly Edit[]; readonly step: string; readonly select?: KeyPath }
  /** A question of the wire desk becomes a load at a panel or bar. */
  | {
      readonly do: "put-question-in-plan";
      readonly question: QuestionText;
      readonly at: KeyPath;
      readonly name?: string;
      /** Pins the size that was the answer. */
      readonly wire?: string;
    }
  /** A whole plan from a few plain answers; the text that stands gives way to it. */
  | { readonly do: "new-plan"; readonly answers: NewPlanAnswers };

/** What came of an act: one edit of the text with a name for the list of steps, or a question back. */
export type ActResult = Acted | NotActed;

export interface Acted {
  readonly ok: true;
  /** From the old text to the new, in its order. */
  readonly splices: readonly Splice[];
  readonly text: string;
  /** For the list of steps: `W13 1.5 mm² → 2.5 mm²`. */
  readonly step: string;
  /** What is worth being looked at then; null: nothing in particular. */
  readonly select: KeyPath | null;
  /** What a person should know of how it was done, and what reading the plan again has to say that it had not before; no findings of rules. */
  readonly remarks: readonly string[];
}

export interface NotActed {
  readonly ok: false;
  /** What is, what was expected. */
  readonly message: string;
  /** One next step. */
  readonly hint: string;
  /** Stretch of the typed text that it is about, where there is one. */
  readonly at?: readonly [number, number];
}
