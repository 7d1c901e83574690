import type { Measure } from "../fact.ts";
import { shown } from "./record.ts";
import type { ValueRule } from "./rule.ts";
import { quantity } from "./values.ts";

/** Residual currents that devices are made for: 4 to 6 mA by UL 943 are the least, and 3 A is the most that installations use. */
const MADE = { least: 0.004, most: 3 } as const;

interface Problem {
  readonly message: string;
  readonly hint: string;
}

/**
 * Why a residual current is none that a device opens at; null: it may be one.
 *
 * @param text as it was written
 */
export function residualProblem({ low, high }: Pick<Measure, "low" | "high">, text: string): Problem | null {
  if (low >= MADE.least && high <= MADE.most) return null;
  return {
    message: `no residual device opens at \`${shown(text)}\`: they are made for leakage of 4 mA to 3 A`,
    hint: "write `30 mA`, which guards people, or what is printed on it as IΔn; its load current stands under `rated`",
  };
}

/** Leakage that a residual device opens at. */
export function residualCurrent(): ValueRule<Measure> {
  const rule = quantity("current", { min: 0 });
  return {
    ...rule,
    read(node, reading) {
      const fact = rule.read(node, reading);
      if (fact === undefined || fact.value === "unknown") return fact;
      const problem = residualProblem(fact.value, fact.value.text);
      if (problem === null) return fact;
      reading.say({ id: "plan/out-of-range", level: "error", at: fact.span, ...problem });
      return undefined;
    },
  };
}
