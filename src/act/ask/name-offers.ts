import { shown } from "../../plan/index.ts";
import { readLabel } from "../../wire/label/read-label.ts";
import type { AskOffer } from "./ask-offer.ts";

/** Words that ask for the meaning of a name, whatever it is. */
const ASKING = /^(?:what\s+(?:does|is)|what's|read|decode)\s+(\S.*?)(?:\s+mean)?\s*\?*$/i;

/**
 * A label of wire as a question for the wire desk.
 *
 * @returns empty: it is no label, and nobody asked for its meaning
 * @example
 * nameOffers("what does 3G2.5 mean?")[0].label //=> "3G2.5"
 * nameOffers("fridge") //=> []
 */
export function nameOffers(typed: string): readonly (AskOffer & { readonly kind: "name" })[] {
  const asked = ASKING.exec(typed)?.[1];
  const label = asked ?? typed;
  const read = readLabel(label);
  if (read.verdict === "rejected" && asked === undefined) return [];
  const more =
    read.verdict === "exact"
      ? read.readings[0].says
      : read.verdict === "ambiguous"
        ? `ask: which of ${read.readings.length}?`
        : (read.problems[0]?.message ?? "");
  return [{ kind: "name", label, says: `what does \`${shown(label)}\` mean?`, more }];
}
