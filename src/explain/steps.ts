import type { Citation } from "./citation.ts";

/** What a step can hold: one number or word. */
export type Datum = number | string | boolean | null;

/** A symbol of an equation, as a reader meets it. */
export interface SymbolMeaning {
  /** As it stands in the equation, e.g. `"R20"`; the parameter's own name where left out. */
  readonly symbol?: string;
  /** Empty for words and bare numbers. */
  readonly unit: string;
  readonly meaning: string;
}

/** A formula that was worked. */
export interface FormulaStep {
  readonly kind: "formula";
  readonly formula: string;
  readonly equation: string;
  readonly given: Readonly<Record<string, Datum>>;
  readonly symbols: Readonly<Record<string, SymbolMeaning>>;
  readonly gives: Datum;
  readonly unit: string;
  readonly source: Citation;
}

/** A value that was taken from a published table. */
export interface LookUpStep {
  readonly kind: "look-up";
  readonly table: string;
  /** Label of the row that was used. */
  readonly row: string;
  readonly column: string;
  /** What was looked for, where the table's own rule led to another row; else the row's label. */
  readonly sought: string;
  readonly gives: Datum;
  readonly unit: string;
  readonly source: Citation;
}

/** One step of a derivation; plain data. */
export type Step = FormulaStep | LookUpStep;

/** The list being written, or null. Formulas are pure and synchronous, so one variable is enough. */
let active: Step[] | null = null;

/** Whether anybody listens; ask before building a step. */
export const isRecording = (): boolean => active !== null;

/** Adds a step to the derivation being recorded; does nothing when none is. */
export function recordStep(step: Step): void {
  active?.push(step);
}

/**
 * Runs a computation and keeps the steps it took, in the order in which they were finished: what a formula leans on stands before it.
 * A recorder inside another one gets its own steps, and the outer one gets them too.
 *
 * @param work synchronous; what it throws passes through
 * @example
 * const double = formula({ id: "double", equation: "y = 2 · x", source: cite("textbooks", "", "derived"), symbols: { x: { unit: "A", meaning: "a current" } }, unit: "A" }, ({ x }) => 2 * x)
 * recordSteps(() => double({ x: 3 })).value //=> 6
 * recordSteps(() => double({ x: 3 })).steps.length //=> 1
 */
export function recordSteps<T>(work: () => T): { readonly value: T; readonly steps: readonly Step[] } {
  const outer = active;
  const steps: Step[] = [];
  active = steps;
  try {
    return { value: work(), steps };
  } finally {
    active = outer;
    outer?.push(...steps);
  }
}
