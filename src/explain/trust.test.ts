import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { isVerified, printTrust, trustWords, weakestTrust } from "./index.ts";

const words = fc.constantFrom(...trustWords);

test("the weakest of several is one of them, in whatever order they come", () => {
  fc.assert(
    fc.property(fc.array(words, { minLength: 1 }), fc.func(fc.integer()), (trusts, order) => {
      const weakest = weakestTrust(...trusts);
      assert.ok(trusts.includes(weakest));
      const shuffled = [...trusts].sort((a, b) => order(a) - order(b));
      assert.equal(weakestTrust(...shuffled), weakest);
      assert.equal(weakestTrust(...trusts, "missing"), "missing");
    }),
  );
});

test("a number made of an unverified one is never verified", () => {
  fc.assert(
    fc.property(fc.array(words), words, (trusts, other) => {
      if (!isVerified(other)) assert.ok(!isVerified(weakestTrust(...trusts, other)));
    }),
  );
});

test("practice and memory together print as unverified", () => {
  assert.equal(printTrust(weakestTrust("practice", "memory")), "unverified");
});

test("arithmetic on nothing is derived", () => {
  assert.equal(weakestTrust(), "derived");
});
