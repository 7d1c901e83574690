import type { Fact, Measure } from "../plan/index.ts";

/** given: the person wrote it · default: assumed and listed · derived: follows from other facts · unknown: the person said so, nothing may replace it */
export type Origin = "given" | "default" | "derived" | "unknown";

/**
 * A number that a study may use: both ends of what it can be, in SI, and where it came from. An unknown value still carries the widest
 * bounds that are lawful, so that a study can go on and mark what rests on them.
 */
export interface Value {
  readonly low: number;
  readonly high: number;
  readonly origin: Origin;
}

export const given = (measure: Measure): Value => ({ low: measure.low, high: measure.high, origin: "given" });
export const exactly = (x: number, origin: Origin): Value => ({ low: x, high: x, origin });

/** A fact as a value; absent where nothing was written. */
export function givenOrUnknown(fact: Fact<Measure> | undefined): Value | "unknown" | undefined {
  return fact === undefined ? undefined : fact.value === "unknown" ? "unknown" : given(fact.value);
}

/** An object of those of its values that are there, as an optional property may not be undefined. */
export const present = <T extends object>(all: { readonly [K in keyof T]: T[K] | undefined }): Partial<T> =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as Partial<T>; // what is undefined was left out
