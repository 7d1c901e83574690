import { printCitation, type Datum, type FormulaStep, type Step } from "../explain/index.ts";
import { ADIABATIC } from "../ampacity/thermal/adiabatic.ts";
import { metals } from "../wire/index.ts";
import type { WorkedStep } from "./explanation.ts";
import { withUnit } from "./print-number.ts";

/** Constants that stand in equations by their symbol and are chosen by the metal. */
const OF_METAL: Readonly<Record<string, readonly ["alpha20" | "alpha75" | "rho20", string]>> = {
  α20: ["alpha20", ""],
  α75: ["alpha75", ""],
  ρ20: ["rho20", "Ω·mm²/m"],
};

/** A symbol, a function or a bare number of an equation; a square stands behind it. */
const WORD = /\p{L}[\p{L}\p{Nd}]*/gu;

/**
 * A recorded step with its numbers put into the right side of its equation, so that a reader can do the sum again.
 *
 * @param name what it gives, where the formula's own name says too little
 */
export function putIn(step: Step, name?: string): WorkedStep {
  const { gives, unit, source } = step;
  const value = typeof gives === "number" ? gives : String(gives);
  const common = {
    value,
    unit,
    text: print(gives, unit),
    source: printCitation(source),
    trust: source.trust,
  };
  if (step.kind === "look-up") {
    const { table, row, column, sought } = step;
    return {
      name: name ?? "from the table",
      equation: "",
      working: `${table}: row ${row}${sought === row ? "" : ` for ${sought}`}, column ${column}`,
      table: { id: table, row, column, sought },
      ...common,
    };
  }
  return {
    name: name ?? step.formula.replaceAll("-", " "),
    equation: step.equation,
    working: rightSide(step),
    table: null,
    ...common,
  };
}

const print = (value: Datum, unit: string): string =>
  typeof value === "number" ? withUnit(value, unit) : value === null ? "none" : String(value);

/** `Iz = It · kh · kb` with its numbers: `210 A · 0.85 · 0.7`. What stands behind a comma is a remark. */
function rightSide({ equation, given, symbols }: FormulaStep): string {
  const right = withoutRemark(equation.slice(equation.search(/[=≥≤]/) + 1).trim());
  const printed = new Map<string, string>();
  for (const [key, value] of Object.entries(given)) {
    const meaning = symbols[key];
    if (meaning === undefined) continue;
    printed.set(meaning.symbol ?? key, print(value, meaning.unit));
  }
  const metal = given["metal"];
  if (metal === "copper" || metal === "aluminium") {
    for (const [symbol, [constant, unit]] of Object.entries(OF_METAL)) {
      if (!printed.has(symbol)) printed.set(symbol, withUnit(metals[metal][constant], unit));
    }
    const { k, beta } = ADIABATIC[metal];
    if (!printed.has("β")) printed.set("β", withUnit(beta, "°C")).set("K", withUnit(k, "A·√s/mm²"));
  }
  // Symbols of several words first, so that none of their words is taken for a symbol of its own.
  const phrases = [...printed.keys()].filter((symbol) => symbol.includes(" "));
  let text = right;
  phrases.forEach((phrase, i) => (text = text.replaceAll(phrase, `\u0000${i}\u0000`)));
  return text
    .replace(WORD, (word, at: number, all: string) => {
      const value = printed.get(word);
      // What is squared is the number with its unit.
      return value === undefined ? word : all[at + word.length] === "²" ? `(${value})` : value;
    })
    .replace(/\u0000(\d+)\u0000/g, (_, i: string) => printed.get(phrases[Number(i)] ?? "") ?? "");
}

function withoutRemark(text: string): string {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const sign = text[i];
    if (sign === "(") depth++;
    else if (sign === ")") depth--;
    else if (sign === "," && depth === 0) return text.slice(0, i);
  }
  return text;
}
