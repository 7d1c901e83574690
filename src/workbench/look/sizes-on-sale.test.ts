import { expect, test } from "vitest";
import { stockedSizes } from "../../wire/index.ts";
import { sizesOnSale } from "./sizes-on-sale.ts";

test.each(["AWG", "mm²"] as const)("the sizes on sale in %s are those that are chosen from", (system) => {
  expect(sizesOnSale[system]).toEqual(stockedSizes(system).map(({ label, areaMm2 }) => [label, areaMm2]));
});
