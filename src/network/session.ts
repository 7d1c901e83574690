import type { DcProblem } from "./dc-network.ts";
import type { Islands } from "./find-islands.ts";
import type { FreeVolts } from "./free-volts.ts";
import { findUsable, type Table } from "./read-network.ts";
import { findJoins, makeShape, type Shape } from "./set-branches.ts";
import type { Converters } from "./settle-converters.ts";
import type { Settling } from "./settle-volts.ts";

/** Why an element does not take part. */
export const STATE = { fine: 0, off: 1, noSource: 2, reversed: 3, collapsed: 4 } as const;

/** Collapses looked into one at a time; after that the weaker half of those in question is taken off together. */
export const MOST_SINGLE = 16;

/** A draw or converter that the network cannot bear. */
export interface Gone {
  readonly element: number;
  /** W, or A for a draw in amperes. */
  readonly asked: number;
  /** True if it asks for more than it could have alone. */
  readonly isAlone: boolean;
}

/** Everything that lives from one solution to the next. */
export interface Session {
  readonly table: Table;
  readonly usable: Uint8Array;
  readonly isJoin: Uint8Array;
  /** One of `STATE`, by element. */
  readonly state: Uint8Array;
  shape: Shape;
  converters: Converters;
  islands: Islands;
  /** By island: its reference node, and whether something in it can push. */
  references: Int32Array;
  live: Uint8Array;
  /** By branch: whether it tied its nodes together when the islands were last worked out. */
  ties: Uint8Array;
  /** Volts without load, by node. */
  start: Float64Array;
  /** The last of those, with what they follow from; null: not known. */
  free: FreeVolts | null;
  /** What was taken off, in this order. */
  gone: readonly Gone[];
  problems: DcProblem[];
  told: Settling;
}

export function makeSession(table: Table): Session {
  const m = table.elementCount;
  const usable = new Uint8Array(m);
  const isJoin = new Uint8Array(m);
  findUsable(table, table.values, usable, []);
  findJoins(table, table.values, usable, isJoin);
  return {
    table,
    usable,
    isJoin,
    state: new Uint8Array(m),
    ...makeShapedPart(table, isJoin),
    gone: [],
    problems: [],
    told: { rounds: 0, factorings: 0 },
  };
}

type ShapedPart = Pick<Session, "shape" | "converters" | "islands" | "references" | "live" | "ties" | "start" | "free">;

/** What has to be made anew when other resistors are 0 Ω than before. */
export function makeShapedPart(t: Table, isJoin: Uint8Array): ShapedPart {
  const shape = makeShape(t, isJoin);
  const count = t.converters.length;
  const pick = (of: Float64Array) => Float64Array.from(t.converters, (e) => of[e] ?? 0);
  return {
    shape,
    converters: {
      count,
      input: t.converters,
      output: Int32Array.from(t.converters, (_, k) => t.elementCount + k),
      on: new Uint8Array(count),
      tracks: Uint8Array.from(t.converters, (e) => t.tracks[e] ?? 0),
      efficiency: pick(t.efficiency),
      idleWatts: pick(t.idleWatts),
      // None at all would be a division by nothing.
      inputAmps: pick(t.inputAmps).map((amps) => Math.max(amps, 1e-9)),
      trackVolts: pick(t.trackVolts),
      mostWatts: new Float64Array(count),
      passes: new Uint8Array(count),
      tie: new Float64Array(count),
    },
    islands: { count: 0, of: new Int32Array(0) },
    references: new Int32Array(0),
    live: new Uint8Array(0),
    ties: new Uint8Array(shape.circuit.branchCount).fill(2),
    start: new Float64Array(shape.circuit.nodeCount),
    free: null,
  };
}

/** True if both ends of a branch are in one island, and that is alive. */
export function isInLiveIsland(s: Session, b: number): boolean {
  const c = s.shape.circuit;
  const p = s.islands.of[c.plus[b] ?? 0] ?? 0;
  return p === s.islands.of[c.minus[b] ?? 0] && s.live[p] === 1;
}

export function reportOnce(s: Session, problem: DcProblem["problem"]): void {
  if (!s.problems.some((p) => p.problem === problem)) s.problems.push({ problem, about: "", field: "", found: "" });
}
