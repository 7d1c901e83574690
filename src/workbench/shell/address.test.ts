import fc from "fast-check";
import { test } from "vitest";
import assert from "node:assert/strict";
import { moveAddress, readAddress, writeAddress } from "./address.ts";

const text = fc.oneof(fc.constant(null), fc.string({ minLength: 1 }));

test("what an address holds is read back from it, whatever a plan calls its things", () => {
  fc.assert(
    fc.property(text, text, text, (build, selection, operatingState) => {
      const address = { build, view: "findings" as const, selection, operatingState };
      assert.deepEqual(readAddress(writeAddress(address)), address);
    }),
  );
});

test("an address that was made up opens nothing", () => {
  assert.deepEqual(readAddress("#<script>?at"), { build: null, view: null, selection: "", operatingState: null });
});

test("what a view has put in the address stays while it is shown, and goes with it", () => {
  const place = { build: "b1", selection: "circuits.W13", operatingState: null };
  const moved = moveAddress("#wire-desk?build=b0&label=12%2F3&where=cord&state=old", { ...place, view: "wire-desk" });
  assert.equal(moved, "#wire-desk?build=b1&at=circuits.W13&label=12%2F3&where=cord");
  assert.deepEqual(readAddress(moved), { ...place, view: "wire-desk" });
  assert.equal(moveAddress(moved, { ...place, view: "findings" }), "#findings?build=b1&at=circuits.W13");
});
