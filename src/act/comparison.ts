import type { FindingName } from "../cure/index.ts";
import type { JudgementTally } from "../rules/index.ts";
import type { KeyPath } from "./request.ts";

export type RowId =
  | "size"
  | "device"
  | "length"
  | "amps"
  | "start-amps"
  | "ampacity"
  | "drop"
  | "least-volts"
  | "start-volts"
  | "temperature"
  | "copper"
  | "must"
  | "should"
  | "note"
  | "cannot-tell";

/** One figure before and after, and as it is printed. */
export interface ComparedRow {
  readonly id: RowId;
  /** As it stands at the left of a table: `start volts`. */
  readonly label: string;
  /** The thing that it is of; `plan`: of the whole build. */
  readonly about: KeyPath;
  readonly now: string;
  readonly then: string;
  /** In the unit of the row's figures: A, V, m, mm², mm²·m, °C, a share, a number of findings. Null: not known, or no number. */
  readonly nowValue: number | null;
  readonly thenValue: number | null;
  readonly changed: boolean;
}

/** Two stands of a plan, told apart. Plain data. */
export interface Comparison {
  /** Of the thing that was asked about, changed or not; then of the whole build. */
  readonly rows: readonly ComparedRow[];
  /** Other circuits that come out otherwise. */
  readonly others: readonly ComparedRow[];
  readonly clears: readonly FindingName[];
  readonly raises: readonly FindingName[];
  /** `clears 1, raises none`. */
  readonly says: string;
  readonly nowTally: JudgementTally;
  readonly thenTally: JudgementTally;
}
