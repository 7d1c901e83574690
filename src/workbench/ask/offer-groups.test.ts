import { test } from "vitest";
import assert from "node:assert/strict";
import type { AskOffer } from "../../act/index.ts";
import { groupOffers, offersSay } from "./offer-groups.ts";

const offers: readonly AskOffer[] = [
  { kind: "why", about: "circuits.W13", says: "why W13", more: "" },
  { kind: "go", about: "circuits.W13", says: "W13", more: "" },
  { kind: "page", command: "undo", says: "undo", more: "" },
  { kind: "go", about: "parts.fridge", says: "fridge", more: "" },
  { kind: "question", question: { load: "45 W" }, says: "which wire", more: "" },
];

test("offers stand by group, the group of the best first, and are counted through", () => {
  const groups = groupOffers(offers);
  assert.deepEqual(
    groups.map(({ group, offers }) => [group, ...offers.map(({ offer, index }) => `${index} ${offer.says}`)]),
    [
      ["ask", "0 why W13", "1 which wire"],
      ["find", "2 W13", "3 fridge"],
      ["do", "4 undo"],
    ],
  );
  assert.deepEqual(groupOffers([]), []);
});

test("their number is said in words", () => {
  assert.deepEqual([0, 1, 2].map(offersSay), ["nothing found", "1 offer", "2 offers"]);
});
