import fc from "fast-check";
import { test } from "vitest";
import assert from "node:assert/strict";
import { readAddress, writeAddress } from "./address.ts";

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
