import type { Span } from "../diagnostic.ts";
import type { Citation, Trust } from "../explain/index.ts";
import type { Subject } from "./build.ts";
import type { Figure, FigureUnit } from "./figure.ts";
import type { Needed, Severity } from "./finding.ts";

/** What a rule measured, against what. */
export interface Measured {
  readonly measured?: number | undefined;
  readonly limit?: number | undefined;
  readonly unit?: FigureUnit;
  /** How far inside the limit, as a share of it; negative beyond. See `below` and `above`. */
  readonly margin?: number | undefined;
  /** State or case it was measured in. */
  readonly state?: string | null | undefined;
}

/** What is said with a fail or with what cannot be told. */
export interface Said extends Measured {
  /** More words for the message's braces. */
  readonly words?: Readonly<Record<string, string | Figure>>;
  /** Where this one is graver or milder than the rule says. */
  readonly severity?: Severity;
  /** Where another clause than the rule's first decides. */
  readonly source?: Citation | null;
  /** Of the weakest number it leans on, beside the clause's own. */
  readonly trust?: Trust | null;
  /** Where all that moves stands in that state, by its id. */
  readonly positions?: Readonly<Record<string, string>>;
  /** More places in the text, or a better one than that of the thing itself. */
  readonly at?: readonly Span[];
}

/** How a rule tells what it found. One outcome for each thing; of several states the worst is kept. */
export interface Report<Message extends string = string> {
  pass(about: Subject, measured?: Measured): void;
  fail(about: Subject, message: Message, said?: Said): void;
  notApplicable(about: Subject, reason: string): void;
  /** @param needs the facts that are missing; at least one */
  cannotTell(about: Subject, needs: readonly Needed[], said?: Said): void;
}

/** Margin of a value that may not exceed a limit. */
export const below = (measured: number, limit: number): number =>
  limit > 0 ? 1 - measured / limit : measured > limit ? -1 : 0;

/** Margin of a value that may not fall below a limit. */
export const above = (measured: number, limit: number): number => (limit > 0 ? measured / limit - 1 : 0);

/** A missing fact and where it belongs. */
export const needed = (fact: string, about: Subject | string): Needed => ({
  fact,
  about: typeof about === "string" ? about : about.path,
});
