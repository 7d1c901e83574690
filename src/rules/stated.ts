import { isUnknown, type Fact, type Measure } from "../plan/index.ts";
import { given, type Value } from "../system/index.ts";
import type { PartView } from "./build.ts";

/** What a plan says under a key; undefined: it says nothing. */
export type Stated<T> = T | "unknown" | undefined;

type Facts = Readonly<Record<string, Fact<unknown> | undefined>>;

/** The facts of a part by the keys of its kind. Keys that its kind does not have are never stated. */
export const factsOf = ({ plan }: PartView): Facts => plan?.kindFacts ?? {};

/** The facts of a record among those of a part; of a record that nobody knows, those that are asked for are unknown. */
export function recordOfFacts(facts: Facts, record: string, keys: readonly string[]): Facts {
  const fact = facts[record];
  if (isUnknown(fact)) return Object.fromEntries(keys.map((key) => [key, fact]));
  return (fact?.value ?? {}) as Facts; // records are read key by key into facts
}

/** A yes or no. */
export function saysYes(facts: Facts, key: string): Stated<boolean> {
  const value = facts[key]?.value;
  return value === "unknown" || typeof value === "boolean" ? value : undefined;
}

/** A figure with its unit, in the unit inside. */
export function saysFigure(facts: Facts, key: string): Stated<Value> {
  const value = facts[key]?.value;
  if (value === "unknown") return value;
  return isMeasure(value) ? given(value) : undefined;
}

/** A whole number. */
export function saysCount(facts: Facts, key: string): Stated<number> {
  const value = facts[key]?.value;
  return value === "unknown" || typeof value === "number" ? value : undefined;
}

/** One of a few words. */
export function saysWord<const W extends string>(facts: Facts, key: string, words: readonly W[]): Stated<W> {
  const value = facts[key]?.value;
  return value === "unknown" ? value : words.find((w) => w === value);
}

const isMeasure = (value: unknown): value is Measure =>
  typeof value === "object" && value !== null && "low" in value && "high" in value && "text" in value;
