import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { prepareLdlt, type SparseLdlt } from "./sparse-ldlt.ts";

/** Dense Gaussian elimination with row exchange: nothing in common with the code under test. */
function solveDense(matrix: readonly (readonly number[])[], b: readonly number[]): number[] {
  const n = b.length;
  const a = matrix.map((row, i) => [...row, b[i] ?? 0]);
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k; i < n; i++) if (Math.abs(a[i]?.[k] ?? 0) > Math.abs(a[best]?.[k] ?? 0)) best = i;
    const top = a[best] ?? [];
    a[best] = a[k] ?? [];
    a[k] = top;
    for (let i = 0; i < n; i++) {
      const row = a[i];
      if (i === k || row === undefined) continue;
      const factor = (row[k] ?? 0) / (top[k] ?? 0);
      for (let j = k; j <= n; j++) row[j] = (row[j] ?? 0) - factor * (top[j] ?? 0);
    }
  }
  return a.map((row, i) => (row[n] ?? 0) / (row[i] ?? 0));
}

interface Sample {
  readonly n: number;
  readonly pairs: readonly { readonly a: number; readonly b: number; readonly g: number }[];
  readonly leak: readonly number[];
}

const sample: fc.Arbitrary<Sample> = fc.integer({ min: 1, max: 25 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    pairs: fc.array(
      fc.record({ a: fc.nat(n - 1), b: fc.nat(n - 1), g: fc.double({ min: 0.1, max: 1000, noNaN: true }) }),
      { maxLength: 3 * n },
    ),
    leak: fc.array(fc.double({ min: 0.1, max: 10, noNaN: true }), { minLength: n, maxLength: n }),
  }),
);

function fill({ n, pairs, leak }: Sample): { ldlt: SparseLdlt; dense: number[][] } {
  const ldlt = prepareLdlt(
    n,
    Int32Array.from(pairs, (p) => p.a),
    Int32Array.from(pairs, (p) => p.b),
  );
  const dense = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const add = (i: number, j: number, g: number) => {
    const row = dense[i];
    if (row) row[j] = (row[j] ?? 0) + g;
  };
  leak.forEach((g, i) => {
    ldlt.diagonal[i] = g;
    add(i, i, g);
  });
  pairs.forEach(({ a, b, g }, e) => {
    const slot = ldlt.slots[e] ?? -1;
    assert.equal(slot < 0, a === b);
    if (a === b) return;
    ldlt.diagonal[a] = (ldlt.diagonal[a] ?? 0) + g;
    ldlt.diagonal[b] = (ldlt.diagonal[b] ?? 0) + g;
    ldlt.beside[slot] = (ldlt.beside[slot] ?? 0) - g;
    add(a, a, g);
    add(b, b, g);
    add(a, b, -g);
    add(b, a, -g);
  });
  return { ldlt, dense };
}

// Both eliminate in double precision; the condition of these matrices is at most some 1e5.
const NEAR = 1e-9;

test("solves as a dense solver does", () => {
  fc.assert(
    fc.property(sample, (s) => {
      const { ldlt, dense } = fill(s);
      assert.equal(ldlt.factor(), -1);
      const b = Float64Array.from({ length: s.n }, (_, i) => Math.sin(i + 1));
      const expected = solveDense(dense, Array.from(b));
      ldlt.solve(b);
      expected.forEach((x, i) => {
        assert.ok(Math.abs((b[i] ?? 0) - x) <= NEAR * (1 + Math.abs(x)));
      });
    }),
  );
});

test("a path solution is the same as the whole solution at the rows asked for, and leaves nothing behind", () => {
  fc.assert(
    fc.property(sample, fc.array(fc.nat(24)), fc.array(fc.nat(24)), (s, from, to) => {
      const { ldlt } = fill(s);
      ldlt.factor();
      const rows = from.map((r) => r % s.n);
      const wanted = to.map((r) => r % s.n);
      const values = rows.map((_, k) => k + 1);
      for (let twice = 0; twice < 2; twice++) {
        const whole = new Float64Array(s.n);
        rows.forEach((r, k) => (whole[r] = (whole[r] ?? 0) + (values[k] ?? 0)));
        ldlt.solve(whole);
        const into = new Float64Array(wanted.length);
        ldlt.pathSolve(rows, values, wanted, into);
        // The same sums in the same order: equal to the last place or nearly so.
        wanted.forEach((w, k) => {
          assert.ok(Math.abs((into[k] ?? 0) - (whole[w] ?? 0)) <= 1e-13 * (1 + Math.abs(whole[w] ?? 0)));
        });
      }
    }),
  );
});

test("new numbers in the same pattern need no new preparation", () => {
  const ldlt = prepareLdlt(3, Int32Array.of(0, 1), Int32Array.of(1, 2));
  for (const g of [1, 5, 0.25]) {
    ldlt.diagonal.set([2 * g, 2 * g, g]);
    ldlt.beside.fill(-g);
    assert.equal(ldlt.factor(), -1);
    const b = Float64Array.of(0, 0, 1);
    ldlt.solve(b);
    // Three resistors 1/g in a row from ground, one ampere at the end.
    [1, 2, 3].forEach((k, i) => {
      assert.ok(Math.abs((b[i] ?? 0) - k / g) < 1e-12 * (k / g));
    });
  }
});

test("says at which row a matrix is not positive definite, and recovers with the next numbers", () => {
  const ldlt = prepareLdlt(3, Int32Array.of(0), Int32Array.of(1));
  ldlt.diagonal.set([1, 1, 4]);
  ldlt.beside[0] = -2;
  assert.ok([0, 1].includes(ldlt.factor()));
  ldlt.diagonal.set([1, 1, 0]);
  ldlt.beside[0] = 0;
  assert.equal(ldlt.factor(), 2);
  ldlt.diagonal.set([1, 1, NaN]);
  assert.equal(ldlt.factor(), 2);
  ldlt.diagonal.set([5, 5, 1]);
  ldlt.beside[0] = -2;
  assert.equal(ldlt.factor(), -1);
});

test("a tree has one entry of L a branch", () => {
  const n = 1000;
  const from = Int32Array.from({ length: n - 1 }, (_, i) => i + 1);
  const to = from.map((i) => Math.floor(i / 3));
  assert.equal(prepareLdlt(n, from, to).fill, n - 1);
});
