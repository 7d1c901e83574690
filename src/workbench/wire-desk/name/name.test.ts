import fc from "fast-check";
import { test } from "vitest";
import assert from "node:assert/strict";
import { labelContexts } from "../../../wire/label/label-reading.ts";
import { readLabel } from "../../../wire/label/read-label.ts";
import { ladderSystems, sizeLadder } from "../../../wire/convert/index.ts";
import { labelFromHash, labelFromJson, labelIntoHash } from "../question-link.ts";
import { chosenLabel } from "./chosen-label.ts";
import { convertTargets } from "./convert-targets.ts";
import { rungLabel } from "./rung-label.ts";
import { readKept } from "./screen-scale.ts";

test("a name goes into an address and comes back from it, and leaves the rest of it alone", () => {
  fc.assert(
    fc.property(
      fc.string({ minLength: 1, maxLength: 60 }),
      fc.constantFrom(null, ...labelContexts),
      (text, context) => {
        const hash = labelIntoHash("#wire-desk?build=b1&load=45+W", { text, context });
        assert.deepEqual(labelFromHash(hash), { text, context });
        assert.ok(hash.startsWith("#wire-desk?build=b1&load=45+W&"));
        assert.equal(labelIntoHash(hash, { text: "", context: null }), "#wire-desk?build=b1&load=45+W");
      },
    ),
  );
});

test("what an address or a memory holds of a name may be anybody's: only a text and a known place are taken", () => {
  assert.equal(labelFromHash("#findings?label=12%2F3"), null);
  assert.equal(labelFromHash("#wire-desk?where=boat"), null);
  assert.deepEqual(labelFromHash("#wire-desk?label=12%2F3&where=moon"), { text: "12/3", context: null });
  assert.equal(labelFromHash(`#wire-desk?label=${"9".repeat(1000)}`)?.text.length, 300);
  for (const text of ["", "null", "[]", "{}", '{"label":5}', '"x"']) assert.equal(labelFromJson(text), null, text);
  assert.deepEqual(labelFromJson('{"label":"2/0","where":"boat"}'), { text: "2/0", context: "boat" });
});

test("every rung of the ladder that is shown reads as its own size and no other", () => {
  for (const { side, size } of sizeLadder()) {
    const label = rungLabel(`${side}/${size.name}`);
    if (side === "solid diameter") continue; // it has no side on the page
    assert.ok(label !== null, side);
    const read = readLabel(label);
    assert.equal(read.verdict, "exact", label);
    const own = read.readings[0]?.make.size;
    // Thin Japanese sizes are those of vehicle wire, which are told as plain mm².
    assert.ok(own?.name === size.name && (own.system === size.system || own.areaMm2 === size.areaMm2), label);
  }
});

test("every system can be converted to, by a name in words", () => {
  assert.deepEqual(convertTargets.map(([system]) => system).sort(), [...ladderSystems].sort());
});

test("a reading is chosen by the label that means it alone, else by where it was met", () => {
  const reading = { says: "", pieces: [], facts: [], by: [], traps: [], small: null };
  const label = { text: "12/3", context: null };
  assert.deepEqual(chosenLabel({ ...reading, exactLabel: "12/3 boat", contexts: ["boat"] }, label), {
    text: "12/3 boat",
    context: null,
  });
  assert.deepEqual(chosenLabel({ ...reading, exactLabel: null, contexts: ["cord"] }, label), {
    text: "12/3",
    context: "cord",
  });
  assert.equal(chosenLabel({ ...reading, exactLabel: null, contexts: [] }, label), null);
});

test("a measure of the screen that cannot be one is not taken", () => {
  for (const text of [null, "", "{}", '{"perMm":0.1,"ratio":1}', '{"perMm":400,"ratio":1}', '{"perMm":4,"ratio":0}'])
    assert.equal(readKept(text), null, String(text));
  assert.deepEqual(readKept('{"perMm":3.78,"ratio":2}'), { perMm: 3.78, ratio: 2 });
});
