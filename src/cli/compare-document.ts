import type { RuleSetComparison } from "../act/compare-rule-sets.ts";
import { version } from "./version.ts";

/** `wireworthy compare --json`: a design judged under another rule set. */
export interface CompareDocument extends Omit<RuleSetComparison, "ok"> {
  readonly format: "wireworthy-compare-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  /** As it was named; `-` for standard input. */
  readonly file: string;
}

export function compareDocument(file: string, comparison: RuleSetComparison): CompareDocument {
  const { now, then, cautions, circuits, raises, clears, tally, copper } = comparison;
  return {
    format: "wireworthy-compare-1",
    wireworthy: version,
    file,
    now,
    then,
    cautions,
    circuits,
    raises,
    clears,
    tally,
    copper,
  };
}
