import { readFileSync } from "node:fs";
import { parse } from "yaml";

/** A figure that a finding has to carry. */
export interface ExpectedFigure {
  readonly of: "measured" | "limit";
  readonly value: number;
  /** As a finding prints it: `A`, `V`, `m`, `Ω`, `°C`. */
  readonly unit: string;
  /** `2 %`: how far off it may be, of the value. */
  readonly within: string;
}

/** A finding that has to come. */
export interface ExpectedFinding {
  readonly rule: string;
  readonly about: string;
  /** Other things that the same finding may as well be about. */
  readonly or?: readonly string[];
  readonly outcome: "fail" | "cannot tell";
  readonly severity: "must" | "should" | "note";
  readonly figures?: readonly ExpectedFigure[];
}

/** A thing that a rule speaks of, and why. */
export interface Spoken {
  readonly rule: string;
  readonly about: string;
  readonly why: string;
}

/** One fault in a plan that has none otherwise. */
export interface PlantedFault {
  readonly name: string;
  readonly edits: readonly { readonly find: string; readonly replace: string }[];
  readonly must: readonly ExpectedFinding[];
  /** What may be found beside it, where the wording of the rule leaves it open. */
  readonly mayFail?: readonly Spoken[];
  /** Rules that somebody might think of here, and that have nothing to say. */
  readonly mustNot: readonly string[];
  readonly why: string;
  /** Keys that the plan language does not have yet. */
  readonly asks?: readonly string[];
}

/** A healthy plan and the faults planted in it. */
export interface Build {
  readonly base: string;
  readonly plan: string;
  readonly healthy: {
    /** Findings that fail all the same; best none. */
    readonly fails: readonly ExpectedFinding[];
    /** What a naive checker would flag. */
    readonly silent: readonly Spoken[];
  };
  readonly faults: readonly PlantedFault[];
}

const textOf = (file: string): string => readFileSync(new URL(file, import.meta.url), "utf8");

export const builds: readonly Build[] = ["boat", "van", "hut", "vehicle"].map(
  (base) => parse(textOf(`${base}.yaml`)) as Build, // its form has a test of its own
);

/** A difference that was looked into, and who is right. */
export interface Ruling {
  /** Names of builds and faults that it holds for; none: wherever it is met. */
  readonly in?: readonly string[];
  /** Expected and not found, found and not expected, found with another figure or severity, found where a rule should have stayed silent. */
  readonly is: "missing" | "extra" | "figure" | "severity" | "noisy";
  /** Rule, outcome and thing; `*` stands for any run of characters. */
  readonly what: string;
  /** Of a figure: what it comes to by the right sum. It is held to this as it would have been to what was expected. */
  readonly figures?: readonly ExpectedFigure[];
  readonly because: string;
}

export const rulings = (parse(textOf("rulings.yaml")) ?? []) as readonly Ruling[]; // as above

/** What is written down and cannot be looked for yet. */
export const waiting = JSON.parse(textOf("waiting.json")) as {
  readonly rules: readonly string[]; // as above
  readonly keys: readonly string[];
};

/** The plan with its fault. */
export const planted = (build: Build, fault: PlantedFault): string =>
  fault.edits.reduce((text, { find, replace }) => text.replace(find, () => replace), build.plan);
