import { decimalText } from "../quantity/decimal-text.ts";
import { metres, printQuantity, type Amount } from "../quantity/index.ts";

/** Half of a length, in the unit that it was written in where it has one unit, else in metres. */
export function halve(amount: Amount): string {
  if (amount.form === "unknown") return "unknown";
  const [term, second] = amount.form === "range" ? [] : amount.terms;
  const figures = Number(term?.figures);
  if (amount.form === "exact" && term !== undefined && second === undefined && Number.isFinite(figures)) {
    return `${decimalText(figures / 2, { figures: 6 })} ${term.unit}`;
  }
  return printQuantity(metres(amount.high / 2), "length");
}
