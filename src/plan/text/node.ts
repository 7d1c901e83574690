import type { Span } from "../../diagnostic.ts";

/**
 * One piece of text: a name, a value, an item of a list.
 *
 * The text is what stands in the source and is never converted (`0000` stays four noughts). Quotes and escapes are
 * undone and the lines of a longer text folded, as the language says; nothing else is touched.
 */
export interface ScalarNode {
  readonly kind: "scalar";
  /** A lone `?` reads as `unknown`; all else is verbatim. */
  readonly text: string;
  /** In quotes, or a text block behind `|` or `>`: meant as words, never as a word of the language. */
  readonly quoted: boolean;
  readonly span: Span;
}

/** A name and what stands after its colon. */
export interface MapEntry {
  readonly key: ScalarNode;
  /** null: nothing stands after the colon, or what stands there could not be read (then a message says so). */
  readonly value: Node | null;
  /** From the name to the end of the value, or to the colon where there is none. */
  readonly span: Span;
}

/** Names with values, in the order of the text. A name that stands twice is kept twice, and reported. */
export interface MapNode {
  readonly kind: "map";
  /** Written in `{ }`, as against one name a line. */
  readonly flow: boolean;
  readonly entries: readonly MapEntry[];
  readonly span: Span;
}

export interface ListNode {
  readonly kind: "list";
  /** Written in `[ ]`, as against one `- ` a line. */
  readonly flow: boolean;
  readonly items: readonly Node[];
  readonly span: Span;
}

/**
 * What a plan is made of, as plain read-only data.
 *
 * Spans count from the start of the block that the node was read in, so a block that only moved keeps its very nodes:
 * as long as the text of a block is unchanged, its nodes are the same objects, and what is worked out from them can be
 * kept by identity.
 */
export type Node = ScalarNode | MapNode | ListNode;

/** An entry of a section and where its block starts. */
export interface PlacedEntry {
  /** Offset in the plan from which all spans inside the entry count. */
  readonly base: number;
  readonly entry: MapEntry;
}

/**
 * A name at the left edge and all that belongs to it.
 *
 * A section with nothing on its own line and one name a line below (`circuits:`) is cut into blocks, one an entry.
 */
export interface Section {
  /** Offset in the plan from which the spans of `key` and `value` count. */
  readonly base: number;
  readonly key: ScalarNode;
  /** What stands in one piece: a text, a list, a map in `{ }`. null: nothing stands there, or it was cut into blocks. */
  readonly value: Node | null;
  /** The entries of a map, whether cut into blocks or in one piece. */
  readonly entries: readonly PlacedEntry[];
}

export interface PlanDocument {
  readonly text: string;
  readonly sections: readonly Section[];
}
