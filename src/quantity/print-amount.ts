import type { Amount, Term } from "./amount.ts";

/** The mark between whole and part. */
export type DecimalMark = "." | ",";

/**
 * What was written, in its canonical spelling and its own units: the text that belongs into a plan.
 *
 * Ignores how it was typed: `16'4"` and `16 feet 4 in.` both print `16 ft 4 in`. The minus is a hyphen, as on a keyboard.
 *
 * @param options.decimal the point unless said; with a comma, three decimals (`1,200 m`) would be asked back if read again
 * @returns with a decimal point, `readQuantity` gives an equal amount for it
 * @example
 * const amount = { form: "about", dimension: "charge", low: 486e3, high: 594e3, terms: [{ figures: "150", unit: "Ah" }] };
 * printAmount(amount) //=> "about 150 Ah"
 */
export function printAmount(amount: Amount, options: { readonly decimal?: DecimalMark } = {}): string {
  const text = canonical(amount);
  return options.decimal === "," ? text.replaceAll(".", ",") : text;
}

function canonical(amount: Amount): string {
  switch (amount.form) {
    case "exact":
      return printTerms(amount.terms);
    case "about":
      return `about ${printTerms(amount.terms)}`;
    case "range": {
      const [from] = amount.from;
      const [to] = amount.to;
      const isShort = amount.from.length === 1 && amount.to.length === 1 && from?.unit === to?.unit;
      return `${isShort ? (from?.figures ?? "") : printTerms(amount.from)}…${printTerms(amount.to)}`;
    }
    case "tolerance":
      return `${printTerms(amount.terms)} ± ${printTerms(amount.spread)}`;
    case "unknown":
      return "unknown";
  }
}

/** Numbers with their units: `16 ft 4 in`. */
export const printTerms = (terms: readonly Term[]): string =>
  terms.map(({ figures, unit }) => (unit === "" ? figures : `${figures} ${unit}`)).join(" ");
