import { findEliminationOrder } from "../minimum-degree.ts";

/** A factorisation of complex symmetric matrices of one pattern. */
export interface ComplexLdlt {
  /** Entries of the diagonal, by row; to be set before `factor`. */
  readonly diagonal: Parts;
  /** Entries off the diagonal, by slot; one cell more than there are slots, whose content is ignored. */
  readonly beside: Parts;
  /** Per pair as it was given: its slot; pairs of the same two rows share one, a row with itself has that of the last, ignored, cell. */
  readonly slots: Int32Array;
  /** @returns whether all pivots are other than nought; else nothing may be solved */
  factor(): boolean;
  /** Solves A·x = b in place. */
  solve(b: Parts): void;
}

/** Complex numbers, real and imaginary parts apart. */
export interface Parts {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const makeParts = (count: number): Parts => ({ re: new Float64Array(count), im: new Float64Array(count) });

/**
 * Prepares the factorisation A = L·D·Lᵀ of complex symmetric (not Hermitian) matrices of one pattern: admittances of a passive network.
 *
 * Without pivoting: where the real part of A is positive definite, as resistance in every branch makes it, so is that of every pivot. Eliminates in the order
 * that keeps the real matrices of the house sparse.
 *
 * @param from row of each entry off the diagonal; pairs may repeat
 * @param to its column
 * @accuracy of networks with resistance: a few units in the last place (tested against a dense solver to 1e-11)
 * @source T. A. Davis, Direct Methods for Sparse Linear Systems, 2006, chapter 4; growth without pivoting is bounded, A. George, K. Ikramov, 2002
 * @example (1 + j)·x = 2: x = 1 − j
 * const ldlt = prepareComplexLdlt(1, Int32Array.of(), Int32Array.of());
 * ldlt.diagonal.re[0] = 1; ldlt.diagonal.im[0] = 1;
 * ldlt.factor() //=> true
 * const b = { re: Float64Array.of(2), im: Float64Array.of(0) };
 * ldlt.solve(b);
 * [b.re[0], b.im[0]] //=> [1, -1]
 */
export function prepareComplexLdlt(size: number, from: Int32Array, to: Int32Array): ComplexLdlt {
  const n = size;
  const order = findEliminationOrder(n, from, to);
  const rank = new Int32Array(n);
  for (let k = 0; k < n; k++) rank[order[k] ?? 0] = k;

  // Rows below the diagonal of each column of L. What stands below its first row passes on to the column of that row: the fill.
  const below: number[][] = Array.from({ length: n }, () => []);
  const ends = (e: number): readonly [low: number, high: number] => {
    const a = rank[from[e] ?? 0] ?? 0;
    const b = rank[to[e] ?? 0] ?? 0;
    return a < b ? [a, b] : [b, a];
  };
  for (let e = 0; e < from.length; e++) {
    const [low, high] = ends(e);
    if (low !== high) below[low]?.push(high);
  }
  const start = new Int32Array(n + 1);
  for (let k = 0; k < n; k++) {
    const column = [...new Set(below[k])].sort((a, b) => a - b);
    below[k] = column;
    const [first] = column;
    if (first !== undefined) for (let i = 1; i < column.length; i++) below[first]?.push(column[i] ?? 0);
    start[k + 1] = (start[k] ?? 0) + column.length;
  }
  const rows = Int32Array.from(below.flat());
  const fill = rows.length;
  const slots = Int32Array.from(from, (_, e) => {
    const [low, high] = ends(e);
    return low === high ? fill : (start[low] ?? 0) + (below[low]?.indexOf(high) ?? 0);
  });

  const diagonal = makeParts(n);
  const beside = makeParts(fill + 1);
  const lower = makeParts(fill);
  const inverse = makeParts(n);
  const work = makeParts(n);

  const factor = (): boolean => {
    const { re: lr, im: li } = lower;
    const { re: dr, im: di } = work;
    lr.set(beside.re.subarray(0, fill));
    li.set(beside.im.subarray(0, fill));
    for (let k = 0; k < n; k++) {
      dr[k] = diagonal.re[order[k] ?? 0] ?? 0;
      di[k] = diagonal.im[order[k] ?? 0] ?? 0;
    }
    for (let k = 0; k < n; k++) {
      const pr = dr[k] ?? 0;
      const pi = di[k] ?? 0;
      const square = pr * pr + pi * pi;
      if (!(square > 0) || square === Infinity) return false;
      const ir = pr / square;
      const ii = -pi / square;
      inverse.re[k] = ir;
      inverse.im[k] = ii;
      const end = start[k + 1] ?? 0;
      for (let p = start[k] ?? 0; p < end; p++) {
        const row = rows[p] ?? 0;
        const ar = lr[p] ?? 0;
        const ai = li[p] ?? 0;
        const mr = ar * ir - ai * ii;
        const mi = ar * ii + ai * ir;
        dr[row] = (dr[row] ?? 0) - (mr * ar - mi * ai);
        di[row] = (di[row] ?? 0) - (mr * ai + mi * ar);
        // Both lists are sorted, and the column of `row` holds every further row of this one.
        let t = start[row] ?? 0;
        for (let q = p + 1; q < end; q++) {
          while (rows[t] !== rows[q]) t++;
          const br = lr[q] ?? 0;
          const bi = li[q] ?? 0;
          lr[t] = (lr[t] ?? 0) - (mr * br - mi * bi);
          li[t] = (li[t] ?? 0) - (mr * bi + mi * br);
        }
      }
      for (let p = start[k] ?? 0; p < end; p++) {
        const ar = lr[p] ?? 0;
        const ai = li[p] ?? 0;
        lr[p] = ar * ir - ai * ii;
        li[p] = ar * ii + ai * ir;
      }
    }
    return true;
  };

  const solve = (b: Parts): void => {
    const { re: lr, im: li } = lower;
    const { re: xr, im: xi } = work;
    for (let k = 0; k < n; k++) {
      xr[k] = b.re[order[k] ?? 0] ?? 0;
      xi[k] = b.im[order[k] ?? 0] ?? 0;
    }
    for (let k = 0; k < n; k++) {
      const kr = xr[k] ?? 0;
      const ki = xi[k] ?? 0;
      if (kr === 0 && ki === 0) continue;
      for (let p = start[k] ?? 0, end = start[k + 1] ?? 0; p < end; p++) {
        const row = rows[p] ?? 0;
        xr[row] = (xr[row] ?? 0) - ((lr[p] ?? 0) * kr - (li[p] ?? 0) * ki);
        xi[row] = (xi[row] ?? 0) - ((lr[p] ?? 0) * ki + (li[p] ?? 0) * kr);
      }
    }
    for (let k = n - 1; k >= 0; k--) {
      const yr = xr[k] ?? 0;
      const yi = xi[k] ?? 0;
      const ir = inverse.re[k] ?? 0;
      const ii = inverse.im[k] ?? 0;
      let sr = yr * ir - yi * ii;
      let si = yr * ii + yi * ir;
      for (let p = start[k] ?? 0, end = start[k + 1] ?? 0; p < end; p++) {
        const row = rows[p] ?? 0;
        sr -= (lr[p] ?? 0) * (xr[row] ?? 0) - (li[p] ?? 0) * (xi[row] ?? 0);
        si -= (lr[p] ?? 0) * (xi[row] ?? 0) + (li[p] ?? 0) * (xr[row] ?? 0);
      }
      xr[k] = sr;
      xi[k] = si;
      b.re[order[k] ?? 0] = sr;
      b.im[order[k] ?? 0] = si;
    }
  };
  return { diagonal, beside, slots, factor, solve };
}
