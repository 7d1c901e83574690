import type { Case, Settled } from "../../size/index.ts";

/** A converter that gives its rating, whatever its input. */
const AT_ITS_RATING = 2;

/** The condition in which everything charges at once, each source at its rating: with the engine, on shore and from the sun. */
export function chargingCases({ model, weigher }: Settled): readonly Case[] {
  const { feeds, converters } = model.grid;
  const base = weigher.cases[weigher.base];
  if (base === undefined) return [];
  return [
    {
      ...base,
      kind: "rating",
      name: "all that charges at once",
      feedOn: new Uint8Array(feeds.length).fill(1),
      converter: Uint8Array.from(converters, ({ element }) => (element.runsWith === "load" ? 0 : AT_ITS_RATING)),
    },
  ];
}
