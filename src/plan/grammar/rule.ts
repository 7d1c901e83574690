import type { Diagnostic, Span } from "../../diagnostic.ts";
import type { Dimension } from "../../quantity/index.ts";
import type { Fact } from "../fact.ts";
import type { Node } from "../text/index.ts";

/** What is said while a value is read. */
export type Said = Pick<Diagnostic, "id" | "data">;

/** Collects what reading one block has to say. Places are relative to the block. */
export interface Reading {
  /** Key path of what is being read, e.g. `parts.fridge`. */
  readonly about: string;
  readonly say: (diagnostic: Omit<Diagnostic, "at" | "about"> & { at: Span; about?: string }) => void;
}

/**
 * How the value under one key is read, described to a person, and published to other programs. One rule serves the reader, the
 * reference page and the JSON Schema, so the three cannot drift apart.
 */
export interface ValueRule<T> {
  /** undefined after a message: the value could not be read and counts as not written. */
  readonly read: (node: Node, reading: Reading) => Fact<T> | undefined;
  /** Completes "expected …". */
  readonly says: string;
  readonly schema: JsonSchema;
  /** Absent: nothing can be offered to somebody who writes it. */
  readonly takes?: Takes;
}

/** What may be written as a value, for whoever helps with the writing. Where there is a choice, both are given. */
export interface Takes {
  /** Names of things of the plan: `a part`, `a zone`. */
  readonly names?: readonly string[];
  readonly words?: readonly string[];
  readonly dimensions?: readonly Dimension[];
  /** A form with a grammar of its own. */
  readonly form?: "path" | "device" | "wire size" | "wire label" | "cable label" | "colour";
  /** Of each item of a list. */
  readonly item?: Takes;
  /** A map with these keys. */
  readonly record?: KeyRules;
  /** A map whose keys are names. */
  readonly map?: { readonly of: string; readonly value: Takes };
}

export type JsonSchema = Readonly<Record<string, unknown>>;

/** One key that may stand in a record. */
export interface KeyRule<T> {
  readonly value: ValueRule<T>;
  /** One sentence for the reference page. */
  readonly doc: string;
  /** True while no study reads it: the person is told so once. */
  readonly idle?: true;
  /** What a value says of other keys of the same record: a label tells metal and strands as well. What stands under its own key counts before it. */
  tells?(value: T): readonly FactTold[];
  /** What is written here and cannot be read is `unknown`, for this reason, and not absent: nothing may be chosen in its place. */
  unread?(said: Said): string;
}

/** A value of another key, as a label tells it. */
export interface FactTold {
  readonly key: string;
  readonly value: unknown;
  /** In words, for where another value is written: `105 °C`. */
  readonly says: string;
  /** Whether what is written there says the same. */
  readonly agrees: (written: unknown) => boolean;
}

export type KeyRules = Readonly<Record<string, KeyRule<unknown>>>;

/** The facts that a set of keys can give. */
export type FactsOf<R extends KeyRules> = {
  readonly [K in keyof R]?: R[K] extends KeyRule<infer T> ? Fact<T> : never;
};

/** Facts read by rules that are not known where they are passed on. */
export type AnyFacts = Readonly<Record<string, Fact<unknown>>>;
