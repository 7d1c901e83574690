import type { Diagnostic, Span } from "../../diagnostic.ts";
import type { Fact } from "../fact.ts";
import type { Node } from "../text/index.ts";

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
}

export type JsonSchema = Readonly<Record<string, unknown>>;

/** One key that may stand in a record. */
export interface KeyRule<T> {
  readonly value: ValueRule<T>;
  /** One sentence for the reference page. */
  readonly doc: string;
  /** True while no study reads it: the person is told so once. */
  readonly idle?: true;
}

export type KeyRules = Readonly<Record<string, KeyRule<unknown>>>;

/** The facts that a set of keys can give. */
export type FactsOf<R extends KeyRules> = {
  readonly [K in keyof R]?: R[K] extends KeyRule<infer T> ? Fact<T> : never;
};

/** Facts read by rules that are not known where they are passed on. */
export type AnyFacts = Readonly<Record<string, Fact<unknown>>>;
