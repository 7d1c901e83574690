import type { Citation } from "./citation.ts";
import { isRecording, recordStep, type Datum, type SymbolMeaning } from "./steps.ts";

/** What a reader needs in order to check a formula by hand. */
export interface FormulaMeta<Given> {
  /** Kebab-case, the name of the formula in explanations. */
  readonly id: string;
  /** As it would stand in a book, with the symbols below. */
  readonly equation: string;
  readonly source: Citation;
  /** One entry for each parameter. */
  readonly symbols: { readonly [Name in keyof Given]-?: SymbolMeaning };
  /** Unit of the result. */
  readonly unit: string;
}

/** A function that carries its own equation and source. */
export interface Formula<Given, Result> {
  (given: Given): Result;
  readonly meta: FormulaMeta<Given>;
}

/**
 * Ties a function to its equation and source, so that an explanation can print the step with the numbers put in.
 * While nothing is recorded a call costs one test more than the bare function.
 *
 * @param compute takes one object of numbers and words, gives one number or word, and has no side effect
 * @example
 * const drop = formula({ id: "ohms-law", equation: "U = R · I", source: cite("circuit-laws", "", "derived"), symbols: { r: { unit: "Ω", meaning: "resistance" }, i: { unit: "A", meaning: "current" } }, unit: "V" }, ({ r, i }) => r * i)
 * drop({ r: 2, i: 3 }) //=> 6
 * drop.meta.equation //=> "U = R · I"
 */
export function formula<Given extends { readonly [Name in keyof Given]: Datum | undefined }, Result extends Datum>(
  meta: FormulaMeta<Given>,
  compute: (given: Given) => Result,
): Formula<Given, Result> {
  const recorded = (given: Given): Result => {
    const gives = compute(given);
    if (isRecording()) {
      recordStep({
        kind: "formula",
        formula: meta.id,
        equation: meta.equation,
        given: plain(given),
        symbols: meta.symbols,
        gives,
        unit: meta.unit,
        source: meta.source,
      });
    }
    return gives;
  };
  return Object.assign(recorded, { meta });
}

/** A copy without the undefined entries, which JSON would drop. */
function plain(given: object): Record<string, Datum> {
  const copy: Record<string, Datum> = {};
  const entries = Object.entries(given) as [string, Datum | undefined][]; // the constraint on `formula` admits nothing else
  for (const [name, value] of entries) {
    if (value !== undefined) copy[name] = value;
  }
  return copy;
}
