import type { LabelFact, WireReading } from "../../wire/label/label-reading.ts";

/** A stretch of a label, and the facts that it told; one that told nothing has none. */
export interface LabelPiece {
  readonly text: string;
  readonly facts: readonly LabelFact[];
}

/**
 * Cuts a label where what it tells begins and ends, so that each piece tells the same facts from its first character to its last.
 *
 * @param from stretches by fact, as a reading has them; what lies outside the text is left out
 * @returns pieces that make up the text again
 * @example
 * cutLabel("3G2.5", { cores: [[0, 2]], size: [[2, 5]] }) //=> [{ text: "3G", facts: ["cores"] }, { text: "2.5", facts: ["size"] }]
 */
export function cutLabel(text: string, from: WireReading["from"]): readonly LabelPiece[] {
  // A fact of our own list each time: the keys of a record are told as texts only.
  const facts = Object.keys(from) as LabelFact[];
  const inside = (at: number): boolean => at > 0 && at < text.length;
  const cuts = [...new Set([0, ...facts.flatMap((fact) => (from[fact] ?? []).flat()).filter(inside), text.length])];
  cuts.sort((a, b) => a - b);
  return cuts.slice(1).map((end, i) => {
    const start = cuts[i] ?? 0;
    const told = facts.filter((fact) => (from[fact] ?? []).some(([a, b]) => a <= start && end <= b));
    return { text: text.slice(start, end), facts: told };
  });
}
