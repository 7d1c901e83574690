import type { Edit } from "../plan/text/index.ts";
import type { CureMove, Finding } from "../rules/index.ts";

/** What is done to one thing of the plan, or comes of it. */
export interface Change {
  /** Key path: `circuits.W18`. */
  readonly about: string;
  /** As people call it: `W18`. */
  readonly name: string;
  /** As it stands: `BP → bilge pump, 2.5 mm²`. */
  readonly now: string;
  /** As it would stand. */
  readonly then: string;
}

/** A finding by its identity, and how grave it is. */
export type FindingName = Pick<Finding, "rule" | "about" | "outcome" | "severity" | "title">;

/** A change of the plan after which a finding is gone. */
export interface Cure {
  /** What is done, in the order of the edits. */
  readonly moves: readonly CureMove[];
  /** The same in words. */
  readonly says: string;
  readonly edits: readonly Edit[];
  /** The plan when it is done. */
  readonly text: string;
  /** What the edits change. */
  readonly changes: readonly Change[];
  /** What is then chosen otherwise for circuits that no edit touches. */
  readonly moved: readonly Change[];
  /** Findings that go, the one it is for among them. */
  readonly clears: readonly FindingName[];
  /** Findings that come. */
  readonly raises: readonly FindingName[];
  /** It changes what is pinned or as found beside the thing that the finding is about. */
  readonly touchesPinned: boolean;
  /** Lines of the plan that change. */
  readonly lines: number;
  /** Copper that comes or goes, mm²·m. */
  readonly addedMm2M: number;
}

/** What came of looking for cures. */
export type CureSearch =
  | {
      readonly is: "not searched";
      /** Why there is nothing to look for. */
      readonly why: string;
    }
  | {
      readonly is: "none" | "edits";
      /** The best first: fewest new fails, fewest lines, least copper. Empty where there is none. */
      readonly cures: readonly Cure[];
      /** Plans that were compiled. */
      readonly tried: number;
      /** Everything that was to be tried was; false: the search was stopped, or came to its bound. */
      readonly complete: boolean;
      /** Why there is none; empty where there is one. */
      readonly why: string;
    };
