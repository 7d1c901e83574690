import { shown } from "../plan/index.ts";
import { printAmount, readQuantity } from "../quantity/index.ts";
import { refuse } from "./draft.ts";
import { oneLine } from "./read-value.ts";
import type { NotActed } from "./request.ts";

/** A bank as one sentence says it. */
export interface BatterySentence {
  /** A word of the plan language. */
  readonly chemistry: "LFP" | "AGM" | "gel" | "flooded" | "unknown";
  /** Of the system: 12, 24, 36, 48. */
  readonly nominalV: number;
  /** As it was typed, where it is not the system's own. */
  readonly volts: string | null;
  readonly capacity: string;
  readonly count: number;
}

const CHEMISTRIES: readonly (readonly [RegExp, BatterySentence["chemistry"]])[] = [
  [/^(?:lifepo4|lifepo₄|lfp|lithium|li)$/, "LFP"],
  [/^agm$/, "AGM"],
  [/^gel$/, "gel"],
  [/^(?:flooded|wet|lead|lead-acid|acid|open)$/, "flooded"],
  [/^unknown$/, "unknown"],
];
const FILLERS = /^(?:battery|batteries|bank|a|an|of|with|and|each|in|parallel|house|iron|phosphate)$/;
/** Nominal volts of systems; a battery of up to a tenth more belongs to one: 12.8, 25.6, 51.2 V. */
const SYSTEMS = [12, 24, 36, 48];

/**
 * Reads a battery: its chemistry, volts and capacity in any order, and how many there are.
 *
 * @example
 * readBattery("LiFePO4 12 V 200 Ah") //=> { chemistry: "LFP", nominalV: 12, volts: "12 V", capacity: "200 Ah", count: 1 }
 */
export function readBattery(typed: string): BatterySentence | NotActed {
  const line = oneLine(typed);
  if (typeof line !== "string") return line;
  const times = /^(\d{1,2})\s*[×x]\s*/.exec(line);
  let rest = times === null ? line : line.slice(times[0].length);
  let chemistry: BatterySentence["chemistry"] | null = null;
  let volts: { text: string; value: number } | null = null;
  let capacity: string | null = null;
  while ((rest = rest.replace(/^[\s,;]+/, "")) !== "") {
    if (/^\d/.test(rest)) {
      const read = readQuantity(rest, ["charge", "voltage"], { rest: true });
      const [problem] = read.problems;
      if (!read.ok) return refuse(problem?.message ?? "a figure with its unit was expected", problem?.hint ?? EXAMPLE);
      if (read.amount.form === "unknown") break;
      const text = printAmount(read.amount);
      if (read.amount.dimension === "charge") capacity ??= text;
      else volts ??= { text, value: read.amount.high };
      rest = rest.slice(read.end);
      continue;
    }
    const [word = rest] = /^[^\s,;]+/.exec(rest) ?? [];
    const found = CHEMISTRIES.find(([pattern]) => pattern.test(word.toLowerCase()))?.[1];
    if (found !== undefined) chemistry ??= found;
    else if (!FILLERS.test(word.toLowerCase())) return refuse(`\`${shown(word)}\` was not understood`, EXAMPLE);
    rest = rest.slice(word.length);
  }
  if (capacity === null) return refuse("the capacity is missing", "add amp-hours, as in `200 Ah`");
  if (chemistry === null) return refuse("what is it made of?", "LiFePO4, AGM, gel or flooded");
  const nominalV = volts === null ? 12 : SYSTEMS.find((v) => volts.value >= v && volts.value <= 1.1 * v);
  if (nominalV === undefined) {
    return refuse(
      `\`${volts?.text ?? ""}\` is no usual system`,
      "12, 24, 36 or 48 V; others are written in the text of a plan",
    );
  }
  return {
    chemistry,
    nominalV,
    volts: volts?.text ?? null,
    capacity,
    count: times === null ? 1 : Math.max(1, Number(times[1])),
  };
}

const EXAMPLE = "write it as in `LiFePO4 12 V 200 Ah`";
