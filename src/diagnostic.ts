/** Half-open range of UTF-16 offsets into the plan text. */
export type Span = readonly [start: number, end: number];

/** error: part of the plan could not be read · warning: read, but probably not meant · hint: read, could be written better · note: worth knowing */
export type Level = "error" | "warning" | "hint" | "note";

/**
 * One message about a plan, as data. Its words live in one place per stage; printing turns offsets into line and column.
 * A stage reports all it can find in one pass and never throws on what a person wrote.
 */
export interface Diagnostic {
  /** `<stage>/<what is wrong>`, never reused. */
  readonly id: string;
  readonly level: Level;
  /** Where in the text; the first span carries the mark. Empty when the message is about what is absent. */
  readonly at: readonly Span[];
  /** Key path of the thing it is about, e.g. `circuits.W13.length`. */
  readonly about: string;
  /** What is, what was expected. One sentence, lower case, no full stop. */
  readonly message: string;
  /** One next step, when there is one. */
  readonly hint?: string;
  /** The facts behind the words, for programs. */
  readonly data?: Readonly<Record<string, string | number | boolean | readonly string[]>>;
}

/** What every stage returns: a value, and what it has to say about it. */
export interface Told<T> {
  readonly value: T;
  readonly diagnostics: readonly Diagnostic[];
}
