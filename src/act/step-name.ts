import { visible } from "../plan/text/index.ts";

const LONGEST = 40;

/** A text of the plan as it stands in the name of a step: cut where it is long, unseen signs made visible. */
export const brief = (text: string): string => visible(text, LONGEST);

/**
 * How a step that changes a figure is called; a unit that both share is said once.
 *
 * @example
 * stepName("W13", "length", "5.2 m", "6.1 m") //=> "W13 length 5.2 → 6.1 m"
 * stepName("W13", "", "1.5 mm²", "2.5 mm²") //=> "W13 1.5 → 2.5 mm²"
 * stepName("W13", "length", null, "11 ft") //=> "W13 length 11 ft"
 * stepName("W13", "length", "11 ft", null) //=> "W13 length taken away"
 */
export function stepName(thing: string, field: string, now: string | null, then: string | null): string {
  const head = [brief(thing), field].filter((w) => w !== "").join(" ");
  if (then === null) return `${head} taken away`;
  if (now === null) return `${head} ${brief(then)}`;
  const unit = /^[\d.,]+( \S+)$/.exec(then)?.[1];
  const shared = unit !== undefined && now.endsWith(unit) && /^[\d.,]+$/.test(now.slice(0, -unit.length));
  return `${head} ${brief(shared ? now.slice(0, -unit.length) : now)} → ${brief(then)}`;
}
