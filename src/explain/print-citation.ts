import type { Citation } from "./citation.ts";

/** The short name of a document: its title up to the first comma, and the edition where there is one. */
function shortName({ document, edition }: Citation): string {
  const name = document.split(",")[0] ?? document;
  return edition === "" ? name : `${name}:${edition}`;
}

/**
 * A citation in one line, for a margin or a message; the trust is printed elsewhere, once a column or note.
 *
 * @example
 * printCitation(cite("iec-60228-2004", "Table 3", "read")) //=> "IEC 60228:2004 Table 3"
 */
export const printCitation = (citation: Citation): string =>
  citation.clause === "" ? shortName(citation) : `${shortName(citation)} ${citation.clause}`;
