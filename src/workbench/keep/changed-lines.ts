/** Lines `start` … `end` of the first text gave way to lines `from` … `to` of the second. */
export interface ChangedLines {
  readonly start: number;
  readonly end: number;
  readonly from: number;
  readonly to: number;
}

/** Beyond so many differing lines the middle is taken as changed whole: the search would cost more than it tells. */
const MOST_EDITS = 500;

/** The lines of a text, each with its line end, so that they can be put together again as they were. */
export function linesOf(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

/** What differs between two lists of lines, in order, the parts that are equal on either side left out. */
export function changesOf(a: readonly string[], b: readonly string[]): ChangedLines[] {
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const [middleA, middleB] = [a.slice(head, a.length - tail), b.slice(head, b.length - tail)];
  if (middleA.length === 0 && middleB.length === 0) return [];
  const changes: ChangedLines[] = [];
  let [x, y] = [0, 0];
  const close = (toX: number, toY: number): void => {
    if (toX > x || toY > y) changes.push({ start: head + x, end: head + toX, from: head + y, to: head + toY });
  };
  for (const [atX, atY] of pairsOf(middleA, middleB)) {
    close(atX, atY);
    [x, y] = [atX + 1, atY + 1];
  }
  close(middleA.length, middleB.length);
  return changes;
}

/**
 * A longest common subsequence as pairs of indices, found by the shortest list of edits (E. W. Myers, "An O(ND) difference algorithm and its
 * variations", Algorithmica 1, 1986).
 *
 * The search looks at paths of d edits for d = 0, 1, 2 …; on each diagonal k = x − y only the furthest x counts. What was furthest
 * before each d is kept, to walk back from the end.
 */
function pairsOf(a: readonly string[], b: readonly string[]): [number, number][] {
  const most = Math.min(a.length + b.length, MOST_EDITS);
  const furthest = new Map<number, number>([[1, 0]]);
  const before: Map<number, number>[] = [];
  for (let d = 0; d <= most; d++) {
    before.push(new Map(furthest));
    for (let k = -d; k <= d; k += 2) {
      let x = startOn(furthest, k, d);
      while (x < a.length && x - k < b.length && a[x] === b[x - k]) x++;
      furthest.set(k, x);
      if (x >= a.length && x - k >= b.length) return walkBack(before, a.length, b.length);
    }
  }
  return [];
}

/** Whether a path of d edits enters diagonal k from the one above, by a line put in, rather than from the one below, by a line taken out. */
function comesDown(furthest: ReadonlyMap<number, number>, k: number, d: number): boolean {
  return k === -d || (k !== d && (furthest.get(k - 1) ?? -1) < (furthest.get(k + 1) ?? -1));
}

function startOn(furthest: ReadonlyMap<number, number>, k: number, d: number): number {
  return comesDown(furthest, k, d) ? (furthest.get(k + 1) ?? 0) : (furthest.get(k - 1) ?? 0) + 1;
}

function walkBack(before: readonly ReadonlyMap<number, number>[], endX: number, endY: number): [number, number][] {
  const pairs: [number, number][] = [];
  let [x, y] = [endX, endY];
  for (let d = before.length - 1; d >= 0; d--) {
    const furthest = before[d] ?? new Map<number, number>();
    const k = x - y;
    const start = startOn(furthest, k, d);
    while (x > start) pairs.push([--x, --y]);
    [x, y] = comesDown(furthest, k, d) ? [x, y - 1] : [x - 1, y];
  }
  return pairs.reverse();
}
