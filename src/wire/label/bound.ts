import type { Part } from "./part.ts";

const BEFORE =
  /(?:^|[ ,;:(])(?:(?:less|more|smaller|larger|bigger|greater|thinner|thicker|other|heavier|lighter) than|at (?:least|most)|up to|max(?:imum)?\.?|min(?:imum)?\.?|[≥≤<>]=?)(?: of)? ?(?:size )?$/;
const BEHIND =
  /^,? ?(?:(?:max|min)(?:imum)?(?:\.|(?!\.))|(?:or|and) (?:less|more|up|above|below|under|over|smaller|larger|bigger|greater|thinner|thicker|heavier))(?![a-z])(?! ?[\d≥≤<>]| order| bend| temp| load| volt| current)/;
const SOME = /than|least|most|max|min|up|[≥≤<>]|or |and /;

const isSize = ({ options }: Part): boolean =>
  options.some(({ facts }) => facts.size !== undefined || facts.strands !== undefined);

/** A size with a sign before it, or one that others may be above or below; null: none in the label. */
export function boundIn(
  parts: readonly Part[],
  low: string,
): { readonly part: Part; readonly is: "sign" | "bound" } | null {
  const maySign = /[-+]/.test(low);
  const mayBound = SOME.test(low);
  if (!maySign && !mayBound) return null;
  for (const part of parts) {
    if (!isSize(part)) continue;
    if (maySign && /(?:^|[ ,;(])[-+]$/.test(low.slice(Math.max(0, part.start - 2), part.start)))
      return { part, is: "sign" };
    if (mayBound && (BEFORE.test(low.slice(0, part.start)) || BEHIND.test(low.slice(part.end))))
      return { part, is: "bound" };
  }
  return null;
}
