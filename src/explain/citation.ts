import { documents, type DocumentId } from "./documents.ts";
import type { Trust } from "./trust.ts";

/** Where a number or a rule comes from, ready to print. Plain data. */
export interface Citation {
  readonly id: DocumentId;
  /** Title of the document. */
  readonly document: string;
  /** Edition; empty when unknown or when the document has none. */
  readonly edition: string;
  /** Clause, table or paragraph; empty for the document as a whole. */
  readonly clause: string;
  readonly trust: Trust;
}

/**
 * Names the document and clause behind a number.
 *
 * @param id a document of `documents.ts`
 * @param clause as the document numbers it, e.g. `"Table 3"`
 * @param trust how the figure itself was obtained; a clause known only by quotation is `article` or `memory`
 * @example
 * cite("33-cfr-183", "183.425 Table 5", "read").document //=> "33 CFR part 183 subpart I, electrical systems of boats"
 */
export function cite(id: DocumentId, clause: string, trust: Trust): Citation {
  const { title, edition } = documents[id];
  return { id, document: title, edition, clause, trust };
}
