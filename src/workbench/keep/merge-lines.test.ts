import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { applySplices } from "../../plan/text/splice.ts";
import { changesOf, linesOf } from "./changed-lines.ts";
import { mergeLines } from "./merge-lines.ts";
import { splicesBetween } from "./splices-between.ts";

/** Few different lines, so that they meet often. */
const line = fc.constantFrom("a\n", "b\n", "c\n", "\n");
const text = fc
  .tuple(fc.array(line, { maxLength: 12 }), fc.constantFrom("", "end"))
  .map(([lines, end]) => lines.join("") + end);

test("the splices between two texts make one of the other", () => {
  fc.assert(
    fc.property(text, text, (before, after) => {
      const splices = splicesBetween(before, after);
      assert.equal(applySplices(before, splices), after);
      for (const [i, { start, end }] of splices.entries()) {
        assert.ok(start < end || splices[i]?.text !== "", "none for nothing");
        assert.ok(start <= end && start >= (splices[i - 1]?.end ?? 0), "in order, none overlapping");
      }
    }),
    { numRuns: 2000 },
  );
});

/** Length of a longest common subsequence by the table of all prefixes: another way than the one in the code. */
function longestCommon(a: readonly string[], b: readonly string[]): number {
  let row = b.map(() => 0).concat(0);
  for (const one of a) {
    const next = [0];
    for (const [k, other] of b.entries()) {
      next.push(one === other ? (row[k] ?? 0) + 1 : Math.max(row[k + 1] ?? 0, next[k] ?? 0));
    }
    row = next;
  }
  return row.at(-1) ?? 0;
}

test("no line is moved that need not be", () => {
  const lines = fc.array(line, { maxLength: 14 });
  fc.assert(
    fc.property(lines, lines, (a, b) => {
      const put = changesOf(a, b).map(({ from, to }) => to - from);
      assert.equal(
        put.reduce((sum, one) => sum + one, 0),
        b.length - longestCommon(a, b),
      );
    }),
    { numRuns: 2000 },
  );
});

test("changes that are apart both come through, whoever made which", () => {
  const change = fc.array(fc.constantFrom("x\n", "y\n"), { maxLength: 3 });
  const plain = fc.uniqueArray(fc.nat(999), { minLength: 5, maxLength: 20 }).map((list) => list.map((n) => `${n}\n`));
  fc.assert(
    fc.property(plain, change, change, fc.nat(), fc.nat(), (base, first, second, cut, gap) => {
      // One changes line `at`, the other a line at least two further on: an unchanged one stands between.
      const at = cut % (base.length - 2);
      const next = at + 2 + (gap % (base.length - at - 2));
      const lay = (one: readonly string[], two: readonly string[]): string =>
        [...base.slice(0, at), ...one, ...base.slice(at + 1, next), ...two, ...base.slice(next + 1)].join("");
      const [here, there] = [[base[at] ?? ""], [base[next] ?? ""]];
      const [mine, theirs, both] = [lay(first, there), lay(here, second), lay(first, second)];
      assert.equal(mergeLines(base.join(""), mine, theirs), both);
      assert.equal(mergeLines(base.join(""), theirs, mine), both);
    }),
    { numRuns: 1000 },
  );
});

test("who changed nothing gets what the other made, and the same change twice is one", () => {
  fc.assert(
    fc.property(text, text, (base, other) => {
      assert.equal(mergeLines(base, base, other), other);
      assert.equal(mergeLines(base, other, base), other);
      assert.equal(mergeLines(base, other, other), other);
    }),
  );
});

test("it makes no difference who is asked first", () => {
  fc.assert(
    fc.property(text, text, text, (base, mine, theirs) => {
      assert.equal(mergeLines(base, mine, theirs), mergeLines(base, theirs, mine));
    }),
    { numRuns: 2000 },
  );
});

test.each([
  ["the same line", "a\nb\nc\n", "a\nx\nc\n", "a\ny\nc\n"],
  ["neighbouring lines", "a\nb\n", "x\nb\n", "a\ny\n"],
  ["taken out and changed", "a\nb\nc\n", "a\nc\n", "a\ny\nc\n"],
  ["put in at one place", "a\nb\n", "a\nx\nb\n", "a\ny\nb\n"],
  ["the end without a line end", "a", "a\nx", "a\ny"],
])("changes that meet are not decided here: %s", (_, base, mine, theirs) => {
  assert.equal(mergeLines(base, mine, theirs), null);
});

test("texts that have little in common are soon told apart", () => {
  const many = (word: string): string => Array.from({ length: 5000 }, (_, i) => `${word} ${i}\n`).join("");
  const [before, after] = [`same\n${many("a")}same\n`, `same\n${many("b")}same\n`];
  assert.equal(changesOf(linesOf(before), linesOf(after)).length, 1);
  assert.equal(applySplices(before, splicesBetween(before, after)), after);
});
