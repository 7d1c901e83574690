import type { Span } from "../diagnostic.ts";

/**
 * What the person wrote under one key: its value, and where it stands. Spans are relative to the block that the fact
 * stands in, so that a block whose text did not change keeps its facts as they are; `base` of the part or circuit leads to
 * the place in the whole text.
 *
 * `unknown` is a value of its own: no default may ever replace it.
 */
export interface Fact<T> {
  readonly value: T | "unknown";
  readonly span: Span;
  /** Why what is written here cannot be taken, where that makes it `unknown`; in words. */
  readonly unread?: string;
}

/** A quantity as the plan gives it: SI, both ends equal when one figure is written. */
export interface Measure {
  readonly low: number;
  readonly high: number;
  /** As it was written, for messages and lists. */
  readonly text: string;
}

/** What was written, or undefined where nothing was or it is `unknown`. */
export function known<T>(fact: Fact<T> | undefined): T | undefined {
  return fact === undefined || fact.value === "unknown" ? undefined : fact.value;
}

export function isUnknown(fact: Fact<unknown> | undefined): boolean {
  return fact?.value === "unknown";
}

/** The place in the whole text of something inside a block. */
export const placed = (base: number, span: Span): Span => [base + span[0], base + span[1]];
