import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { applySplices, composeSplices, invertSplices, type Splice } from "./splice.ts";

/** Splices in order that fit a text of this length. */
const splicesFor = (length: number): fc.Arbitrary<Splice[]> =>
  fc.array(fc.tuple(fc.nat(length), fc.string({ maxLength: 5 })), { maxLength: 6 }).map((cuts) => {
    const at = cuts.map(([offset]) => offset).sort((a, b) => a - b);
    return cuts.flatMap(([, text], i) =>
      i % 2 === 0 ? [{ start: at[i] ?? 0, end: at[i + 1] ?? at[i] ?? 0, text }] : [],
    );
  });

const twoChanges = fc
  .string({ maxLength: 30 })
  .chain((text) =>
    splicesFor(text.length).chain((first) =>
      splicesFor(applySplices(text, first).length).map((second) => ({ text, first, second })),
    ),
  );

test("two changes made as one give the same text, and every change can be undone", () => {
  fc.assert(
    fc.property(twoChanges, ({ text, first, second }) => {
      const after = applySplices(text, first);
      const last = applySplices(after, second);
      const both = composeSplices(text.length, first, second);
      assert.equal(applySplices(text, both), last);
      assert.equal(applySplices(last, invertSplices(text, both)), text);
      for (const [i, { start, end }] of both.entries()) {
        assert.ok(start <= end && start >= (both[i - 1]?.end ?? 0), "in order, none overlapping");
      }
    }),
    { numRuns: 2000 },
  );
});
