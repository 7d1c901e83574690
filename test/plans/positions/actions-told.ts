import type { Finding } from "../../../src/rules/index.ts";

const LEAD = "the way there: ";

/**
 * How many actions a finding tells of; null: it tells no way. It says the way in words, each action by the name of what is moved: `switch SW and INV on, plug in at
 * INL`. What goes to a position by itself is no action.
 */
export function actionsTold({ because }: Finding): number | null {
  const at = because.indexOf(LEAD);
  if (at < 0) return null;
  const parts = because.slice(at + LEAD.length).split(/, | and /);
  return parts.filter((part) => !part.includes("by itself")).length;
}
