import type { Point } from "../scene.ts";
import { M } from "./columns.ts";
import type { Landing, Sketch } from "./sketch.ts";

/** The grid that wires between blocks look for their way on. */
export interface Grid {
  readonly origin: Point;
  readonly across: number;
  readonly down: number;
  /** 1: something stands there. */
  readonly blocked: Uint8Array;
  /** What passes each point: 1 a wire across, 2 a wire down, 4 an end or bend. */
  readonly wires: Uint8Array;
  /** Pieces and solids that are on it already. */
  readonly seen: { pieces: number; solids: number };
}

const [ACROSS, DOWN, END] = [1, 2, 4];
const STEP = 1;
const BEND = 4;
const CROSSING = 20;
/** No wire is worth more: what would cross this often is named at both ends instead. */
const DEAREST = 600;
/** Half a wire and its distance from whatever stands there, mm; the halo of solids comes on top. */
const HALF_WIRE = 0.2;

const DIRECTIONS: readonly Point[] = [[1, 0], [0, 1], [-1, 0], [0, -1]]; // prettier-ignore

export function makeGrid(origin: Point, across: number, down: number): Grid {
  const cells = (across + 1) * (down + 1);
  const blocked = new Uint8Array(cells);
  // The frame and what stands under the drawing keep their distance.
  for (let i = 0; i <= across; i++) blocked[i] = blocked[down * (across + 1) + i] = 1;
  for (let j = 0; j <= down; j++) blocked[j * (across + 1)] = blocked[j * (across + 1) + across] = 1;
  return { origin, across, down, blocked, wires: new Uint8Array(cells), seen: { pieces: 0, solids: 0 } };
}

/** Brings a grid up to what has been drawn. */
export function mark(grid: Grid, { solids, pieces }: Sketch): void {
  const { origin, across, down, blocked, wires, seen } = grid;
  const [ox, oy] = origin;
  const cell = (i: number, j: number): number => j * (across + 1) + i;
  for (const [[x1, y1], [x2, y2]] of solids.slice(seen.solids)) {
    const [i1, i2] = [Math.ceil((x1 - HALF_WIRE - ox) / M), Math.floor((x2 + HALF_WIRE - ox) / M)];
    const [j1, j2] = [Math.ceil((y1 - HALF_WIRE - oy) / M), Math.floor((y2 + HALF_WIRE - oy) / M)];
    for (let j = Math.max(0, j1); j <= Math.min(down, j2); j++)
      for (let i = Math.max(0, i1); i <= Math.min(across, i2); i++) blocked[cell(i, j)] = 1;
  }
  for (const [[x1, y1], [x2, y2]] of pieces.slice(seen.pieces)) {
    const [i1, i2] = [(Math.min(x1, x2) - ox) / M, (Math.max(x1, x2) - ox) / M];
    const [j1, j2] = [(Math.min(y1, y2) - oy) / M, (Math.max(y1, y2) - oy) / M];
    const isAcross = j2 - j1 < 0.01;
    for (let j = Math.ceil(j1 - 0.02); j <= Math.floor(j2 + 0.02); j++) {
      for (let i = Math.ceil(i1 - 0.02); i <= Math.floor(i2 + 0.02); i++) {
        if (i < 0 || j < 0 || i > across || j > down) continue;
        const c = cell(i, j);
        const isEnd = isAcross ? i - i1 < 0.02 || i2 - i < 0.02 : j - j1 < 0.02 || j2 - j < 0.02;
        wires[c] = (wires[c] ?? 0) | (isAcross ? ACROSS : DOWN) | (isEnd ? END : 0);
      }
    }
  }
  seen.solids = solids.length;
  seen.pieces = pieces.length;
}

export interface Way {
  readonly points: readonly Point[];
  readonly from: Landing;
  readonly to: Landing;
  readonly crossings: number;
}

/** A heap of states by what they cost; equal ones in the order in which they came. */
interface Heap {
  readonly cost: number[];
  readonly state: number[];
}

function push({ cost, state }: Heap, c: number, s: number): void {
  let i = cost.length;
  cost.push(c);
  state.push(s);
  while (i > 0) {
    const up = (i - 1) >> 1;
    if ((cost[up] ?? 0) <= c) break;
    cost[i] = cost[up] ?? 0;
    state[i] = state[up] ?? 0;
    i = up;
  }
  cost[i] = c;
  state[i] = s;
}

function pop({ cost, state }: Heap): number {
  const top = state[0] ?? 0;
  const [c, s] = [cost.pop() ?? 0, state.pop() ?? 0];
  const n = cost.length;
  if (n === 0) return top;
  let i = 0;
  for (;;) {
    let kid = 2 * i + 1;
    if (kid >= n) break;
    if (kid + 1 < n && (cost[kid + 1] ?? 0) < (cost[kid] ?? 0)) kid++;
    if ((cost[kid] ?? 0) >= c) break;
    cost[i] = cost[kid] ?? 0;
    state[i] = state[kid] ?? 0;
    i = kid;
  }
  cost[i] = c;
  state[i] = s;
  return top;
}

/**
 * The way of least bends, crossings and length between two things, on the grid, through nothing.
 *
 * @returns null: there is none, or it would cross too much
 */
export function findWay(grid: Grid, starts: readonly Landing[], goals: readonly Landing[]): Way | null {
  const { origin, across, down, blocked, wires } = grid;
  const cells = (across + 1) * (down + 1);
  const cellOf = ([x, y]: Point): number => {
    const [i, j] = [Math.round((x - origin[0]) / M), Math.round((y - origin[1]) / M)];
    return i < 0 || j < 0 || i > across || j > down ? -1 : j * (across + 1) + i;
  };
  const directionOf = ([dx, dy]: Point): number => DIRECTIONS.findIndex(([x, y]) => x === dx && y === dy);
  const best = new Int32Array(cells * 4).fill(-1);
  const before = new Int32Array(cells * 4).fill(-1);
  const heap: Heap = { cost: [], state: [] };
  const startAt = new Map<number, Landing>();
  const goalAt = new Map<number, Landing>();
  const free = (landing: Landing, c: number): boolean =>
    c >= 0 && blocked[c] === 0 && (landing.dot || wires[c] === 0 || isOwn(landing));
  for (const start of starts) {
    const c = cellOf(start.at);
    if (!free(start, c)) continue;
    const state = c * 4 + directionOf(start.out);
    if (startAt.has(state)) continue;
    startAt.set(state, start);
    best[state] = 0;
    push(heap, 0, state);
  }
  for (const goal of goals) {
    const c = cellOf(goal.at);
    if (!free(goal, c)) continue;
    // One arrives against the way out.
    goalAt.set(c * 4 + ((directionOf(goal.out) + 2) % 4), goal);
  }
  const starting = new Set([...startAt.keys()].map((s) => s >> 2));
  const ending = new Set([...goalAt.keys()].map((s) => s >> 2));
  if (startAt.size === 0 || goalAt.size === 0) return null;
  const done = new Uint8Array(cells * 4);
  while (heap.cost.length > 0) {
    const state = pop(heap);
    if (done[state] === 1) continue;
    done[state] = 1;
    const spent = best[state] ?? 0;
    if (spent > DEAREST) return null;
    const cell = state >> 2;
    const way = state & 3;
    const goal = goalAt.get(state);
    if (goal !== undefined && !startAt.has(state)) return wayTo(state, goal);
    const onWire = (wires[cell] ?? 0) !== 0;
    for (let next = 0; next < 4; next++) {
      const isTurn = next !== way;
      if ((next + 2) % 4 === way) continue;
      if (isTurn && starting.has(cell) && best[state] === 0) continue;
      // A wire is crossed straight.
      if (isTurn && onWire && !ending.has(cell)) continue;
      if (isTurn && ending.has(cell)) {
        // At a joint one may turn only where nothing passes.
        if (onWire) continue;
      }
      const [dx, dy] = DIRECTIONS[next] ?? [0, 0];
      const [i, j] = [(cell % (across + 1)) + dx, Math.floor(cell / (across + 1)) + dy];
      if (i < 0 || j < 0 || i > across || j > down) continue;
      const c = j * (across + 1) + i;
      const to = c * 4 + next;
      const isGoal = goalAt.has(to);
      if (blocked[c] === 1 && !isGoal) continue;
      const passing = wires[c] ?? 0;
      let price = spent + STEP + (isTurn ? BEND : 0);
      if (passing !== 0 && !isGoal) {
        const along = dx !== 0 ? ACROSS : DOWN;
        if ((passing & END) !== 0 || (passing & along) !== 0) continue;
        price += CROSSING;
      }
      const known = best[to] ?? -1;
      if (known >= 0 && known <= price) continue;
      best[to] = price;
      before[to] = state;
      push(heap, price, to);
    }
  }
  return null;

  function wayTo(end: number, to: Landing): Way {
    const states = [end];
    for (let s = before[end] ?? -1; s >= 0; s = before[s] ?? -1) states.unshift(s);
    const first = states[0] ?? end;
    const from = startAt.get(first) ?? to;
    const pointOf = (state: number): Point => {
      const c = state >> 2;
      return [origin[0] + M * (c % (across + 1)), origin[1] + M * Math.floor(c / (across + 1))];
    };
    const middle = states.map(pointOf);
    const crossings = states.slice(1, -1).filter((s) => (wires[s >> 2] ?? 0) !== 0).length;
    return { points: straightened([from.on, ...middle, to.on]), from, to, crossings };
  }
}

/** The end of a stub lies on its own wire. */
const isOwn = ({ at, on }: Landing): boolean => at[0] === on[0] && at[1] === on[1];

/** Only ends and bends are kept. */
function straightened(points: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const [a, b] = [kept.at(-2), kept.at(-1)];
    if (b !== undefined && Math.hypot(point[0] - b[0], point[1] - b[1]) < 1e-6) continue;
    const inLine =
      a !== undefined &&
      b !== undefined &&
      (Math.abs(a[0] - point[0]) < 1e-6 || Math.abs(a[1] - point[1]) < 1e-6) &&
      Math.abs(a[0] - b[0]) < 1e-6 === Math.abs(b[0] - point[0]) < 1e-6;
    if (inLine) kept.pop();
    kept.push(point);
  }
  return kept;
}
