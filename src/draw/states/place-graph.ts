import type { StateGraph } from "./state-graph.ts";

/** A line across: a source up to its joint, a link, or a joint to what it feeds. */
export interface Segment {
  readonly kind: "source" | "link" | "takers";
  /** Index in the list of its kind. */
  readonly of: number;
  /** Columns of its ends: −1 is the sources, the last the takers. */
  readonly from: number;
  readonly to: number;
  readonly joints: readonly number[];
}

/** Rows of all segments; joints reach from the highest to the lowest of theirs. */
export interface PlacedGraph {
  readonly segments: readonly Segment[];
  /** Row of each, from 0. */
  readonly rows: readonly number[];
  readonly rowCount: number;
  /** Columns of joints. */
  readonly columns: number;
}

const [LENGTH, CROSSING, CLASH, ROW] = [1, 3, 40, 2];

/**
 * Gives each line of a graph a row, so that no two lie on each other and few cross. From the same graph the same rows.
 *
 * @accuracy a search by single moves and exchanges: good, not the best
 */
export function placeGraph({ joints, links, sources, takers }: StateGraph): PlacedGraph {
  const columns = Math.max(0, ...joints.map(({ rank }) => rank)) + 1;
  const rank = (j: number): number => joints[j]?.rank ?? 0;
  const segments: Segment[] = [
    ...sources.flatMap(({ joint }, of): Segment[] =>
      joint < 0 ? [] : [{ kind: "source", of, from: -1, to: rank(joint), joints: [joint] }],
    ),
    ...links.map(({ a, b }, of): Segment => ({ kind: "link", of, from: rank(a), to: rank(b), joints: [a, b] })),
    ...takers.map(({ joint }, of): Segment => ({
      kind: "takers",
      of,
      from: rank(joint),
      to: columns,
      joints: [joint],
    })),
  ];
  const rows = segments.map((_, i) => i);
  compact(segments, rows);
  let best = costOf(segments, rows);
  for (let round = 0; round < 30; round++) {
    let isBetter = false;
    const attempt = (change: () => void, undo: () => void): void => {
      change();
      const cost = costOf(segments, rows);
      if (cost < best) {
        best = cost;
        isBetter = true;
      } else undo();
    };
    const most = Math.max(0, ...rows) + 1;
    for (const i of segments.keys()) {
      for (let row = 0; row <= most; row++) {
        const before = rows[i] ?? 0;
        attempt(() => void (rows[i] = row), () => void (rows[i] = before)); // prettier-ignore
      }
      for (let j = 0; j < i; j++) {
        const exchange = (): void => void ([rows[i], rows[j]] = [rows[j] ?? 0, rows[i] ?? 0]);
        attempt(exchange, exchange);
      }
    }
    if (!isBetter || segments.length > 60) break;
  }
  const used = [...new Set(rows)].sort((a, b) => a - b);
  return { segments, rows: rows.map((r) => used.indexOf(r)), rowCount: used.length, columns };
}

const meet = (a: Segment, b: Segment): boolean => a.from < b.to && b.from < a.to;

/** Moves each up as far as it is free. */
function compact(segments: readonly Segment[], rows: number[]): void {
  segments.forEach((one, i) => {
    let row = 0;
    while (segments.some((other, j) => j < i && rows[j] === row && meet(one, other))) row++;
    rows[i] = row;
  });
}

/** Rows that a joint reaches over. */
export function reachOf(
  segments: readonly Segment[],
  rows: readonly number[],
  joint: number,
): readonly [number, number] {
  const own = segments.flatMap(({ joints }, i) => (joints.includes(joint) ? [rows[i] ?? 0] : []));
  return [Math.min(...own), Math.max(...own)];
}

function costOf(segments: readonly Segment[], rows: readonly number[]): number {
  let cost = ROW * new Set(rows).size;
  segments.forEach((one, i) => {
    for (let j = 0; j < i; j++) {
      const other = segments[j];
      if (other !== undefined && rows[i] === rows[j] && meet(one, other)) cost += 10 * CLASH;
    }
  });
  const joints = new Set(segments.flatMap((s) => s.joints));
  const bars = [...joints].map((joint) => {
    const own = segments.find((s) => s.joints.includes(joint));
    const column = own === undefined ? 0 : own.joints[0] === joint && own.kind !== "source" ? own.from : own.to;
    return { joint, column, reach: reachOf(segments, rows, joint) };
  });
  for (const [at, { joint, column, reach }] of bars.entries()) {
    const [low, high] = reach;
    cost += LENGTH * (high - low);
    segments.forEach((s, i) => {
      const row = rows[i] ?? 0;
      if (s.joints.includes(joint) || row < low || row > high) return;
      if (s.from < column && column < s.to) cost += CROSSING;
      // The end of a stranger on it would look joined.
      else if (s.from === column || s.to === column) cost += CLASH;
    });
    for (const other of bars.slice(0, at))
      if (other.column === column && other.reach[0] <= high && low <= other.reach[1]) cost += CLASH;
  }
  return cost;
}
