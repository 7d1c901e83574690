import type { AskOffer } from "../../act/index.ts";

/** What an offer does for whoever takes it. */
export type OfferGroup = "find" | "do" | "ask";

/** Offers of one kind, with their place in the list as the arrows walk it. */
export interface Grouped {
  readonly group: OfferGroup;
  readonly offers: readonly { readonly offer: AskOffer; readonly index: number }[];
}

/** Find goes somewhere, do changes something, ask answers. */
export function groupOf({ kind }: AskOffer): OfferGroup {
  switch (kind) {
    case "go":
    case "view":
      return "find";
    case "why":
    case "curves":
    case "question":
    case "name":
      return "ask";
    case "act":
    case "needs":
    case "what-if":
    case "page":
    case "told":
      return "do";
  }
}

/** Offers by group; a group stands where its best offer stood, and inside it the order is kept. */
export function groupOffers(offers: readonly AskOffer[]): readonly Grouped[] {
  const groups = [...new Set(offers.map(groupOf))];
  let index = 0;
  return groups.map((group) => ({
    group,
    offers: offers.flatMap((offer) => (groupOf(offer) === group ? [{ offer, index: index++ }] : [])),
  }));
}

/** How many there are, as it is read aloud. */
export const offersSay = (count: number): string =>
  count === 0 ? "nothing found" : count === 1 ? "1 offer" : `${count} offers`;
