import { readQuantity, type Dimension } from "../../quantity/index.ts";
import type { Blank } from "./question-form.ts";

/** What is written in a blank. */
const dimensionOf: Readonly<Partial<Record<Blank, readonly Dimension[]>>> = {
  load: ["current", "power"],
  start: ["current", "power"],
  startTime: ["time"],
  volts: ["voltage"],
  length: ["length"],
  ambient: ["temperature"],
  insulation: ["temperature"],
  startsAbove: ["voltage"],
  leastVolts: ["voltage"],
  sourceVolts: ["voltage"],
  drop: ["ratio"],
  bundle: ["count"],
};

/** Units that are offered where one is missing, the usual first. */
const unitsOf: Readonly<Partial<Record<Dimension, readonly string[]>>> = {
  current: ["A", "W"],
  voltage: ["V"],
  length: ["m", "ft"],
  temperature: ["°C", "°F"],
  ratio: ["%"],
  time: ["s"],
};

/**
 * What a doubtful figure may have meant, as texts to choose from. Nothing is guessed: all that are lawful are offered.
 *
 * @returns empty: there is no doubt, or no end of it
 * @example
 * readingsOf("length", "1,000 m") //=> ["1.000 m", "1000 m"]
 * readingsOf("length", "3.2") //=> ["3.2 m", "3.2 ft"]
 */
export function readingsOf(blank: Blank, text: string): readonly string[] {
  const dimensions = dimensionOf[blank];
  if (dimensions === undefined) return [];
  const read = readQuantity(text, dimensions);
  const [problem] = read.problems;
  if (read.ok || problem === undefined) return [];
  const { id, at, data } = problem;
  if (id === "separator-ambiguous") {
    return [data["decimal"], data["grouped"]].map(
      (figure) => text.slice(0, at[0]) + String(figure) + text.slice(at[1]),
    );
  }
  if (id !== "unit-missing") return [];
  const bare = text.trim();
  return (unitsOf[dimensions[0] ?? "count"] ?? [])
    .map((unit) => `${bare} ${unit}`)
    .filter((whole) => readQuantity(whole, dimensions).ok);
}
