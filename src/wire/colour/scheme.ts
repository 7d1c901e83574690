import { cite, type Citation } from "../../explain/citation.ts";
import { isDocumentId } from "../../explain/documents.ts";
import { isTrust } from "../../explain/trust.ts";
import { colourSchemes, type ColourSchemesRow } from "../../reference/colour-schemes.ts";
import type { PrintedColour } from "../make/wire-make.ts";
import { looksLike } from "./looks-like.ts";
import { isWireFunction, isWireSystem, type WireFunction, type WireSystem } from "./wire-function.ts";

/** What one scheme says of one function. */
export interface ColourMeaning {
  /** Id of the scheme: `abyc-dc`, `iec-2017`. */
  readonly scheme: string;
  /** `ABYC E-11, DC under 50 V`. */
  readonly standard: string;
  /** `2017 and later`; empty where it has none. */
  readonly edition: string;
  readonly system: WireSystem;
  readonly function: WireFunction;
  /** The usual one first; a tracer `*` stands for any. */
  readonly colours: readonly PrintedColour[];
  /** A remark; empty where there is none. */
  readonly note: string;
  readonly source: Citation;
}

/** A colour scheme: one standard in one edition, for all its systems. */
export interface ColourScheme {
  readonly id: string;
  readonly standard: string;
  readonly edition: string;
  readonly meanings: readonly ColourMeaning[];
}

function colourOf(text: string): PrintedColour {
  const [base = "", ...tracers] = text.split("/");
  return [base, ...tracers];
}

function meaningOf(row: ColourSchemesRow): ColourMeaning {
  const { document, trust, system } = row;
  if (!isDocumentId(document) || !isTrust(trust) || !isWireSystem(system) || !isWireFunction(row.function))
    throw new Error(`colour_schemes: ${row.scheme} ${row.function} has a word that no list has`);
  return {
    scheme: row.scheme,
    standard: row.standard,
    edition: row.edition ?? "",
    system,
    function: row.function,
    colours: row.colours.split(" ").map(colourOf),
    note: row.note ?? "",
    source: cite(document, row.clause, trust),
  };
}

let all: readonly ColourScheme[] | null = null;

/**
 * Every colour scheme, in the order of the table: boats, buildings, vehicles, trailers.
 *
 * @source reference/wire/colour_schemes.csv, with the document of each row
 * @example
 * allSchemes().map(({ id }) => id).slice(0, 4) //=> ["abyc-dc", "abyc-dc-old", "abyc-ac", "nec"]
 */
export function allSchemes(): readonly ColourScheme[] {
  if (all !== null) return all;
  const schemes = new Map<string, ColourMeaning[]>();
  for (const row of colourSchemes.rows) {
    const meaning = meaningOf(row);
    const known = schemes.get(meaning.scheme);
    if (known === undefined) schemes.set(meaning.scheme, [meaning]);
    else known.push(meaning);
  }
  return (all = Array.from(schemes, ([id, meanings]) => {
    const { standard = "", edition = "" } = meanings[0] ?? {};
    return { id, standard, edition, meanings };
  }));
}

/** The scheme with an id; null where there is none. */
export const schemeNamed = (id: string): ColourScheme | null => allSchemes().find((scheme) => scheme.id === id) ?? null;

/**
 * The colours that a scheme gives to a function, the usual one first.
 *
 * @param scheme id, as {@link allSchemes} lists them
 * @param system where the scheme has the function in several
 * @returns empty where the scheme says nothing of it
 * @example
 * schemeColours("abyc-dc", "DC negative") //=> [["YE"], ["BK"]]
 * schemeColours("iec-2017", "DC negative") //=> [["WH"]]
 * schemeColours("sae-j560", "neutral") //=> []
 */
export function schemeColours(scheme: string, wanted: WireFunction, system?: WireSystem): readonly PrintedColour[] {
  const meanings = schemeNamed(scheme)?.meanings ?? [];
  return meanings
    .filter((meaning) => meaning.function === wanted && (system === undefined || meaning.system === system))
    .flatMap(({ colours }) => colours);
}

/**
 * Everything that a colour may mean, scheme by scheme. A colour alone never tells which of them holds.
 *
 * A plain blue, green or grey is taken for its light and dark shades as well, since a label may not say the shade.
 *
 * @example
 * meaningsOf(["BN"]).filter(({ scheme }) => scheme === "german-cars").map((m) => m.function) //=> ["DC negative"]
 * meaningsOf(["TQ"]) //=> []
 */
export function meaningsOf(colour: PrintedColour): readonly ColourMeaning[] {
  return allSchemes().flatMap(({ meanings }) =>
    meanings.filter(({ colours }) => colours.some((other) => looksLike(colour, other))),
  );
}
