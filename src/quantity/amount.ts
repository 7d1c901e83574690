import type { Level, Span } from "../diagnostic.ts";
import type { Dimension, Si } from "./dimension.ts";
import type { UnitOf } from "./units.ts";

/** One number and its unit as written, with a decimal point whatever was typed: `{ figures: "3.40", unit: "m" }`. */
export interface Term<U extends string = string> {
  /** Digits kept as they were, so that 3.40 stays 3.40; a fraction keeps its bar: `5 1/2`. */
  readonly figures: string;
  /** The printed spelling of the unit; empty for a bare number. */
  readonly unit: U;
}

/** What was written and what it means, for one dimension. `low` and `high` are in the unit inside, both ends possible. */
interface Known<D extends Dimension> {
  readonly dimension: D;
  readonly low: Si<D>;
  readonly high: Si<D>;
}

/** More than one term where units follow each other: 16 ft 4 in. */
type Terms<D extends Dimension> = readonly Term<UnitOf<D>>[];

type AmountOf<D extends Dimension> =
  | (Known<D> & { readonly form: "exact"; readonly terms: Terms<D> })
  | (Known<D> & { readonly form: "about"; readonly terms: Terms<D> })
  | (Known<D> & { readonly form: "range"; readonly from: Terms<D>; readonly to: Terms<D> })
  | (Known<D> & {
      readonly form: "tolerance";
      readonly terms: Terms<D>;
      /** In a unit of the dimension, or in % of the number. */
      readonly spread: readonly Term<UnitOf<D> | "%">[];
    })
  | { readonly form: "unknown"; readonly dimension: D };

/**
 * A quantity of a plan: what the person wrote, kept, and what it means. Of the five forms only `unknown` has no `low` and
 * `high`; an exact amount has both equal. Plain data.
 */
export type Amount<D extends Dimension = Dimension> = D extends Dimension ? AmountOf<D> : never;

export type ProblemId =
  | "empty"
  | "not-a-number"
  | "not-whole"
  | "exponent"
  | "too-many-digits"
  | "separator-ambiguous"
  | "fraction-ambiguous"
  | "unit-missing"
  | "unit-unknown"
  | "unit-wrong"
  | "area-or-diameter"
  | "two-numbers"
  | "mixed-forms"
  | "relative-temperature"
  | "out-of-range"
  | "trailing-text"
  | "hidden-character"
  | "decimal-comma"
  | "range-reversed";

/** One thing to say about a text. `error`: it could not be read; `hint`: it was read, and could be written better. */
export interface Problem {
  readonly id: ProblemId;
  readonly level: Extract<Level, "error" | "hint">;
  /** Offsets inside the text that was given. */
  readonly at: Span;
  /** What is, what was expected: one sentence, lower case, no full stop. */
  readonly message: string;
  /** One next step. */
  readonly hint?: string;
  /** The facts behind the words. */
  readonly data: Readonly<Record<string, string | number>>;
}

export type Reading<D extends Dimension = Dimension> =
  | {
      readonly ok: true;
      readonly amount: Amount<D>;
      /** Where the quantity ends in the text; what follows is blank, unless `rest` was allowed. */
      readonly end: number;
      /** Hints only. */
      readonly problems: readonly Problem[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };
