import { recordSteps, type Step } from "../explain/index.ts";
import type { Trust } from "../explain/index.ts";
import type { WorkedFigure, WorkedStep } from "./explanation.ts";
import { withUnit } from "./print-number.ts";
import { putIn } from "./put-in.ts";

/** Runs one of the pure functions of the house again and keeps its steps with the numbers put in. */
export function work<T>(run: () => T, name?: string): { readonly value: T; readonly steps: readonly WorkedStep[] } {
  const { value, steps } = recordSteps(run);
  // The last step is the one that was asked for; those before it are what it leans on.
  return { value, steps: dropTwins(steps).map((step, i, all) => putIn(step, i === all.length - 1 ? name : undefined)) };
}

/** Loops over stretches ask for the same cell again and again. */
function dropTwins(steps: readonly Step[]): readonly Step[] {
  const seen = new Set<string>();
  return steps.filter((step) => {
    const key = JSON.stringify(step);
    return seen.size < seen.add(key).size;
  });
}

/** A value that is taken as it stands: from the plan, or as somebody states it. */
export function taken(
  name: string,
  value: number,
  unit: string,
  source: string,
  trust: Trust | null = null,
): WorkedStep {
  const text = withUnit(value, unit);
  return { name, equation: "", working: text, value, unit, text, table: null, source, trust };
}

/** A sum of parts with their own names. */
export function summed(
  name: string,
  parts: readonly { readonly value: number; readonly says: string }[],
  unit: string,
  symbol: string,
): WorkedStep {
  const value = parts.reduce((sum, part) => sum + part.value, 0);
  if (parts.length === 0) return taken(name, 0, unit, "there is nothing to add");
  const working = parts
    .map(
      (part, i) =>
        (i === 0 ? "" : part.value < 0 ? " − " : " + ") + withUnit(i === 0 ? part.value : Math.abs(part.value), unit),
    )
    .join("");
  return {
    name,
    equation: `${symbol} = ${parts.map(({ says }) => says).join(" + ")}`,
    working,
    value,
    unit,
    text: withUnit(value, unit),
    table: null,
    source: "",
    trust: null,
  };
}

/** The larger or smaller of some values. */
export function picked(
  name: string,
  which: "max" | "min",
  parts: readonly { readonly value: number; readonly says: string }[],
  unit: string,
): WorkedStep {
  const value = Math[which](...parts.map((p) => p.value));
  return {
    name,
    equation: `${which}(${parts.map(({ says }) => says).join(", ")})`,
    working: `${which}(${parts.map((p) => withUnit(p.value, unit)).join(", ")})`,
    value,
    unit,
    text: withUnit(value, unit),
    table: null,
    source: "",
    trust: null,
  };
}

export const figure = (
  name: string,
  value: number | string | null,
  unit: string,
  text: (x: number) => string = (x) => withUnit(x, unit, 3),
): WorkedFigure => ({ name, value, unit, text: typeof value === "number" ? text(value) : (value ?? "–") });
