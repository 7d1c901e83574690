import type { Finding } from "../../../src/rules/index.ts";

/**
 * How many actions a finding tells of. It says the way in words, each action by the name of what is moved: `switch SW and INV on, plug in at INL`. What goes to a
 * position by itself is no action.
 */
export function actionsTold({ because, state }: Finding): number {
  const way = because + String(state);
  return way.split(/, | and /).filter((part) => !part.includes("by itself")).length;
}
