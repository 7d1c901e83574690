import { findEliminationOrder } from "./minimum-degree.ts";

/**
 * Direct solution of a sparse symmetric system A·x = b as A = L·D·Lᵀ.
 *
 * What depends on the pattern alone (order, elimination tree, places of the entries of L) is worked out once. After
 * that a new set of numbers in the same pattern is factored without any allocation, row by row: row k of L is the
 * solution of a triangular system with the rows before it, and only the columns in which row k has an entry take part.
 *
 *     for each row k:      y  = L⁻¹ · A(0…k−1, k)
 *                          Lki = yi / Di,   Dk = Akk − Σ Lki · yi
 *
 * The *elimination tree* joins each column with the first row below it that it touches. A unit at node j can only ever
 * be felt, on the way down, by j and its ancestors; that is why one current between two nodes and the volts at a few
 * others need a handful of columns and not the whole matrix (`pathSolve`).
 */

const NONE = -1;

/** A factorisation whose pattern is fixed and whose numbers can be set again and again. */
export interface SparseLdlt {
  readonly size: number;
  /** Entries of the diagonal, by row; to be set before `factor`. */
  readonly diagonal: Float64Array;
  /** Entries off the diagonal, by slot (see `slots`); one cell more than there are slots, whose content is ignored. */
  readonly beside: Float64Array;
  /**
   * Per pair of the pattern as it was given: its slot in `beside`; pairs of the same two rows share one, a row with
   * itself has −1.
   */
  readonly slots: Int32Array;
  /** Entries of L off the diagonal: the fill. */
  readonly fill: number;
  /**
   * Factors the present numbers.
   *
   * @returns −1 when all pivots are positive (the matrix is positive definite); else the row at which the first pivot
   * that is not positive came up, and there the factorisation stopped: nothing may be solved with it
   */
  factor(): number;
  /** Another of the same pattern, with numbers of its own, all zero: for two that are asked by turns. */
  another(): SparseLdlt;
  /** Solves A·x = b in place: `b` holds x afterwards. */
  solve(b: Float64Array): void;
  /**
   * Solves A·x = b for a `b` of few entries, and only for few wanted rows of x.
   *
   * @param rows rows of b that are not zero; may repeat, then they add up
   * @param values their values
   * @param wanted rows of x to be known
   * @param into receives x at the wanted rows, in their order
   */
  pathSolve(rows: ArrayLike<number>, values: ArrayLike<number>, wanted: ArrayLike<number>, into: Float64Array): void;
}

/**
 * Prepares the factorisation of symmetric matrices of one pattern.
 *
 * @param size rows, ≥ 0
 * @param from row of each entry off the diagonal; pairs may repeat (they then share a slot) and may join a row with
 * itself (no slot)
 * @param to its column
 * @returns the factorisation, its numbers all zero
 * @accuracy of a diagonally dominant matrix: backward error of a few units in the last place (tested against a dense
 * solver to 1e-11)
 * @source T. A. Davis, Direct Methods for Sparse Linear Systems, 2006, chapter 4 (up-looking factorisation, elimination
 * tree)
 * @example two nodes: [2 −1; −1 2]·x = [1; 0]
 * const ldlt = prepareLdlt(2, Int32Array.of(0), Int32Array.of(1));
 * ldlt.diagonal.fill(2);
 * ldlt.beside[ldlt.slots[0] ?? 0] = -1;
 * ldlt.factor() //=> -1
 * const b = Float64Array.of(1, 0);
 * ldlt.solve(b);
 * Array.from(b) //=> [0.666667, 0.333333]
 */
export function prepareLdlt(size: number, from: Int32Array, to: Int32Array): SparseLdlt {
  const n = size;
  const order = findEliminationOrder(n, from, to);
  const rank = new Int32Array(n);
  for (let k = 0; k < n; k++) rank[order[k] ?? 0] = k;

  // Upper half of A by column, in elimination order: entry p of column k stands in row `above[p]`.
  const columnStart = new Int32Array(n + 1);
  const pairCount = from.length;
  for (let e = 0; e < pairCount; e++) {
    const a = rank[from[e] ?? 0] ?? 0;
    const b = rank[to[e] ?? 0] ?? 0;
    if (a !== b) columnStart[Math.max(a, b) + 1] = (columnStart[Math.max(a, b) + 1] ?? 0) + 1;
  }
  for (let k = 0; k < n; k++) columnStart[k + 1] = (columnStart[k + 1] ?? 0) + (columnStart[k] ?? 0);
  const byColumn = new Int32Array(columnStart[n] ?? 0);
  const cursor = columnStart.slice(0, n);
  for (let e = 0; e < pairCount; e++) {
    const a = rank[from[e] ?? 0] ?? 0;
    const b = rank[to[e] ?? 0] ?? 0;
    if (a === b) continue;
    const column = Math.max(a, b);
    const at = cursor[column] ?? 0;
    byColumn[at] = e;
    cursor[column] = at + 1;
  }
  const slots = new Int32Array(pairCount).fill(NONE);
  const above = new Int32Array(byColumn.length);
  const aboveStart = new Int32Array(n + 1);
  const slotInColumn = new Int32Array(n);
  const seenIn = new Int32Array(n).fill(NONE);
  let slotCount = 0;
  for (let k = 0; k < n; k++) {
    aboveStart[k] = slotCount;
    for (let p = columnStart[k] ?? 0; p < (columnStart[k + 1] ?? 0); p++) {
      const e = byColumn[p] ?? 0;
      const row = Math.min(rank[from[e] ?? 0] ?? 0, rank[to[e] ?? 0] ?? 0);
      if (seenIn[row] !== k) {
        seenIn[row] = k;
        slotInColumn[row] = slotCount;
        above[slotCount++] = row;
      }
      slots[e] = slotInColumn[row] ?? NONE;
    }
  }
  aboveStart[n] = slotCount;

  // Elimination tree and the pattern of each row of L, each row in an order in which a column comes before its ancestors.
  const parent = new Int32Array(n).fill(NONE);
  const mark = new Int32Array(n).fill(NONE);
  const columnCount = new Int32Array(n);
  const rowStart = new Int32Array(n + 1);
  const path = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    mark[k] = k;
    let count = 0;
    for (let p = aboveStart[k] ?? 0; p < (aboveStart[k + 1] ?? 0); p++) {
      let i = above[p] ?? 0;
      while (mark[i] !== k) {
        if (parent[i] === NONE) parent[i] = k;
        columnCount[i] = (columnCount[i] ?? 0) + 1;
        count++;
        mark[i] = k;
        i = parent[i] ?? k;
      }
    }
    rowStart[k + 1] = (rowStart[k] ?? 0) + count;
  }
  const fill = rowStart[n] ?? 0;
  const start = new Int32Array(n + 1);
  for (let k = 0; k < n; k++) start[k + 1] = (start[k] ?? 0) + (columnCount[k] ?? 0);
  const rowPattern = new Int32Array(fill);
  const rowPlace = new Int32Array(fill); // where in its column the entry of this row stands
  const lowerRow = new Int32Array(fill);
  const filled = start.slice(0, n);
  mark.fill(NONE);
  for (let k = 0; k < n; k++) {
    mark[k] = k;
    let top = rowStart[k + 1] ?? 0;
    for (let p = aboveStart[k] ?? 0; p < (aboveStart[k + 1] ?? 0); p++) {
      let length = 0;
      for (let i = above[p] ?? 0; mark[i] !== k; i = parent[i] ?? k) {
        path[length++] = i;
        mark[i] = k;
      }
      // A later path goes before the earlier ones: its nodes may be descendants of those, never ancestors.
      while (length > 0) rowPattern[--top] = path[--length] ?? 0;
    }
    for (let q = rowStart[k] ?? 0; q < (rowStart[k + 1] ?? 0); q++) {
      const i = rowPattern[q] ?? 0;
      const place = filled[i] ?? 0;
      rowPlace[q] = place;
      lowerRow[place] = k;
      filled[i] = place + 1;
    }
  }

  // For `pathSolve`: the columns on the way, descendants before ancestors.
  const way = new Int32Array(n);
  const onWay = new Uint8Array(n);
  const climb = (row: number, top: number): number => {
    let length = 0;
    for (let i = rank[row] ?? NONE; i !== NONE && onWay[i] === 0; i = parent[i] ?? NONE) {
      path[length++] = i;
      onWay[i] = 1;
    }
    while (length > 0) way[--top] = path[--length] ?? 0;
    return top;
  };

  const withNumbers = (): SparseLdlt => {
    const diagonal = new Float64Array(n);
    const beside = new Float64Array(slotCount + 1);
    const lower = new Float64Array(fill);
    const pivot = new Float64Array(n);
    const inverse = new Float64Array(n);
    const y = new Float64Array(n);

    const factor = (): number => {
      for (let k = 0; k < n; k++) {
        let d = diagonal[order[k] ?? 0] ?? 0;
        for (let p = aboveStart[k] ?? 0, end = aboveStart[k + 1] ?? 0; p < end; p++) y[above[p] ?? 0] = beside[p] ?? 0;
        for (let q = rowStart[k] ?? 0, last = rowStart[k + 1] ?? 0; q < last; q++) {
          const i = rowPattern[q] ?? 0;
          const yi = y[i] ?? 0;
          const end = rowPlace[q] ?? 0;
          y[i] = 0;
          for (let p = start[i] ?? 0; p < end; p++) {
            const r = lowerRow[p] ?? 0;
            y[r] = (y[r] ?? 0) - (lower[p] ?? 0) * yi;
          }
          const l = yi * (inverse[i] ?? 0);
          d -= l * yi;
          lower[end] = l;
        }
        if (!(d > 0)) return order[k] ?? 0;
        pivot[k] = d;
        inverse[k] = 1 / d;
      }
      return NONE;
    };

    const solve = (b: Float64Array): void => {
      for (let k = 0; k < n; k++) y[k] = b[order[k] ?? 0] ?? 0;
      for (let k = 0; k < n; k++) {
        const yk = y[k] ?? 0;
        if (yk === 0) continue;
        for (let p = start[k] ?? 0, end = start[k + 1] ?? 0; p < end; p++) {
          const r = lowerRow[p] ?? 0;
          y[r] = (y[r] ?? 0) - (lower[p] ?? 0) * yk;
        }
      }
      for (let k = n - 1; k >= 0; k--) {
        let x = (y[k] ?? 0) / (pivot[k] ?? 1);
        for (let p = start[k] ?? 0, end = start[k + 1] ?? 0; p < end; p++) {
          x -= (lower[p] ?? 0) * (y[lowerRow[p] ?? 0] ?? 0);
        }
        y[k] = x;
        b[order[k] ?? 0] = x;
      }
      y.fill(0);
    };

    const pathSolve: SparseLdlt["pathSolve"] = (rows, values, wanted, into) => {
      let top = n;
      for (let r = 0; r < rows.length; r++) top = climb(rows[r] ?? 0, top);
      const firstTouched = top;
      for (let w = 0; w < wanted.length; w++) top = climb(wanted[w] ?? 0, top);
      for (let r = 0; r < rows.length; r++) {
        const k = rank[rows[r] ?? 0] ?? 0;
        y[k] = (y[k] ?? 0) + (values[r] ?? 0);
      }
      for (let w = firstTouched; w < n; w++) {
        const k = way[w] ?? 0;
        const yk = y[k] ?? 0;
        if (yk === 0) continue;
        for (let p = start[k] ?? 0, end = start[k + 1] ?? 0; p < end; p++) {
          const r = lowerRow[p] ?? 0;
          y[r] = (y[r] ?? 0) - (lower[p] ?? 0) * yk;
        }
      }
      for (let w = n - 1; w >= top; w--) {
        const k = way[w] ?? 0;
        let x = (y[k] ?? 0) / (pivot[k] ?? 1);
        for (let p = start[k] ?? 0, end = start[k + 1] ?? 0; p < end; p++) {
          x -= (lower[p] ?? 0) * (y[lowerRow[p] ?? 0] ?? 0);
        }
        y[k] = x;
      }
      for (let w = 0; w < wanted.length; w++) into[w] = y[rank[wanted[w] ?? 0] ?? 0] ?? 0;
      for (let w = top; w < n; w++) {
        const k = way[w] ?? 0;
        y[k] = 0;
        onWay[k] = 0;
      }
    };

    return { size: n, diagonal, beside, slots, fill, factor, another: withNumbers, solve, pathSolve };
  };
  return withNumbers();
}
