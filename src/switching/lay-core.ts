import { findLeaves, type Sorted } from "./find-leaves.ts";
import type { PositionSet, SwitchingProblem } from "./problem.ts";
import { rootOf, separate, unite } from "./union-find.ts";

/** A mover of the core: values below `real` are its positions, those above are moments in which it is in two of them. */
export interface CoreMover {
  /** Index in the problem. */
  readonly mover: number;
  readonly real: number;
  readonly values: number;
  readonly start: number;
  readonly itself: boolean;
  /** Moments of making before breaking: value, from, to. */
  readonly overlaps: readonly { readonly value: number; readonly from: number; readonly to: number }[];
}

/** A set of values of a core mover as a mask; mover −1: no condition. */
export interface Condition {
  readonly mover: number;
  readonly mask: number;
}

export interface CoreRule {
  readonly to: number;
  readonly after: number;
  readonly live: readonly number[];
  readonly when: readonly Condition[];
}

export interface CoreContact extends Condition {
  readonly a: number;
  readonly b: number;
  /** Index of the guard that opens it; −1: none. */
  readonly guard: number;
}

export interface CoreSource {
  readonly lines: readonly number[];
  readonly neutral: number;
  readonly earth: number;
  readonly fedBy: readonly number[];
  readonly gives: Condition;
  readonly alternating: boolean;
  readonly part: string;
}

/** The problem with fixed metal and leaf switches contracted: numbered nodes, and contacts that depend on few movers. */
export interface Core {
  readonly problem: SwitchingProblem;
  readonly sorted: Sorted;
  readonly nodeCount: number;
  /** Core node of each node of the problem. */
  readonly nodeOf: Int32Array;
  readonly isLine: Uint8Array;
  readonly movers: readonly CoreMover[];
  /** Contacts that no guard opens, then those that one does. */
  readonly plain: readonly CoreContact[];
  readonly guarded: readonly CoreContact[];
  readonly sources: readonly CoreSource[];
  readonly pins: readonly ({ readonly id: string; readonly lines: readonly number[] } & Condition)[];
  readonly joins: readonly ({ readonly neutral: number; readonly earth: number } & Condition)[];
  readonly chargers: readonly { readonly taker: number; readonly plus: number; readonly takes: Condition }[];
  /** Rules by core mover. */
  readonly rules: readonly (readonly CoreRule[])[];
  /** One entry an interlock: what may not be all at once. */
  readonly interlocks: readonly (readonly Condition[])[];
  /** Nodes by which states differ, in ascending order; those that carry earth alone are compared whether live or not. */
  readonly keys: Int32Array;
  readonly isEarthKey: Uint8Array;
}

/** Most sources and positions that fit the masks of the study. */
export const MOST_SOURCES = 30;
export const MOST_VALUES = 30;

export function layCore(problem: SwitchingProblem): Core {
  const sorted = findLeaves(problem);
  const place = new Int32Array(problem.movers.length).fill(-1);
  sorted.core.forEach((m, i) => (place[m] = i));
  const guardOf = new Int32Array(problem.contacts.length).fill(-1);
  problem.guards.forEach((g, i) => {
    for (const c of g.contacts) guardOf[c] = i;
  });

  const movers = sorted.core.map((m) => coreMover(problem, m));
  const condition = (set: PositionSet | null): Condition => {
    if (set === null) return ALWAYS;
    const at = place[set.mover] ?? -1;
    const mover = movers[at];
    if (mover === undefined) return ALWAYS; // a leaf stands where it lets through
    let mask = 0;
    for (const p of set.in) mask |= 1 << p;
    for (const { value, from, to } of mover.overlaps) if ((mask & ((1 << from) | (1 << to))) !== 0) mask |= 1 << value;
    return { mover: at, mask };
  };
  const always = ({ mover, mask }: Condition): boolean => mover < 0 || mask === 2 ** (movers[mover]?.values ?? 0) - 1;

  const parent = separate(problem.nodes.length);
  for (const [a, b] of problem.metal) unite(parent, a, b);
  const idle = new Set(sorted.idle);
  const moving: {
    readonly contact: (typeof problem.contacts)[number];
    readonly guard: number;
    readonly when: Condition;
  }[] = [];
  problem.contacts.forEach((contact, c) => {
    // What leads to nothing may as well stay open.
    if (contact.closed !== null && idle.has(contact.closed.mover)) return;
    const when = condition(contact.closed);
    const guard = guardOf[c] ?? -1;
    if (always(when) && guard < 0) unite(parent, contact.a, contact.b);
    else moving.push({ contact, guard, when: always(when) ? ALWAYS : when });
  });
  const numbers = new Map<number, number>();
  const nodeOf = Int32Array.from(problem.nodes, (_, n) => {
    const root = rootOf(parent, n);
    const known = numbers.get(root);
    if (known !== undefined) return known;
    numbers.set(root, numbers.size);
    return numbers.size - 1;
  });
  const at = (node: number | null): number => (node === null ? -1 : (nodeOf[node] ?? -1));
  const isLine = new Uint8Array(numbers.size);
  problem.nodes.forEach((n, i) => {
    if (n.does === "line") isLine[at(i)] = 1;
  });

  const contacts = moving
    .map(({ contact, guard, when }): CoreContact => ({ a: at(contact.a), b: at(contact.b), guard, ...when }))
    .filter((c) => c.a !== c.b);
  const sources = problem.sources.map((s): CoreSource => ({
    lines: s.lines.map((l) => at(l.node)),
    neutral: at(s.neutral),
    earth: at(s.earth),
    fedBy: s.fedBy.map(at),
    gives: condition(s.gives),
    alternating: s.kind !== "store",
    part: s.part,
  }));
  const joins = problem.joins.map((j) => ({
    neutral: at(j.neutral),
    earth: at(j.earth),
    ...condition(j.closed === "unknown" ? null : j.closed),
  }));
  const guarded = contacts.filter((c) => c.guard >= 0);
  // With only takers behind it nothing could make its pins live.
  const pins = (problem.pins ?? []).flatMap(({ id, lines, plugged }) =>
    (place[plugged.mover] ?? -1) < 0 ? [] : [{ id, lines: lines.map(at), ...condition(plugged) }],
  );

  const keys = new Set<number>();
  const earthKeys = new Set<number>();
  for (const s of sources) {
    if (!s.alternating) continue;
    for (const n of [...s.lines, s.neutral]) keys.add(n);
    earthKeys.add(s.earth);
  }
  for (const j of joins) {
    keys.add(j.neutral);
    earthKeys.add(j.earth);
  }
  for (const t of problem.takers) {
    for (const n of [...t.lines.map(at), at(t.neutral)]) keys.add(n);
    earthKeys.add(at(t.earth));
  }
  for (const c of guarded) keys.add(c.a).add(c.b);
  for (const s of sources)
    if (s.alternating) for (const n of s.fedBy) if (isAlternatingInput(problem, sources, s)) keys.add(n);
  const sortedKeys = [...new Set([...keys, ...earthKeys])].filter((n) => n >= 0).sort((a, b) => a - b);

  return {
    problem,
    sorted,
    nodeCount: numbers.size,
    nodeOf,
    isLine,
    movers,
    plain: contacts.filter((c) => c.guard < 0),
    guarded,
    sources,
    pins,
    joins,
    chargers: problem.takers.flatMap((t, taker) =>
      t.kind === "charger" ? [{ taker, plus: at(t.direct?.plus ?? null), takes: condition(t.takes) }] : [],
    ),
    rules: sorted.core.map((m) =>
      (problem.movers[m]?.rules ?? []).map((r) => ({
        to: r.to,
        after: r.after,
        live: r.live.map(at),
        when: r.when.map(condition),
      })),
    ),
    interlocks: problem.interlocks.map((i) => i.never.map(condition)),
    keys: Int32Array.from(sortedKeys),
    isEarthKey: Uint8Array.from(sortedKeys, (n) => (earthKeys.has(n) ? 1 : 0)),
  };
}

const ALWAYS: Condition = { mover: -1, mask: 0 };

/** A transformer is fed by alternating current, an inverter is not. */
const isAlternatingInput = (problem: SwitchingProblem, sources: readonly CoreSource[], s: CoreSource): boolean =>
  problem.sources[sources.indexOf(s)]?.direct === null;

function coreMover(problem: SwitchingProblem, m: number): CoreMover {
  const mover = problem.movers[m];
  if (mover === undefined) throw new RangeError(`no mover ${String(m)}`);
  const real = mover.positions.length;
  const overlaps: CoreMover["overlaps"][number][] = [];
  if (mover.breaksFirst !== true) {
    const own = problem.contacts.flatMap((c, i) => (c.closed?.mover === m ? [{ i, in: c.closed.in }] : []));
    const closes = (p: number): string => own.flatMap((c) => (c.in.includes(p) ? [c.i] : [])).join();
    for (let from = 0; from < real; from++) {
      for (let to = from + 1; to < real; to++) {
        const [a, b] = [closes(from), closes(to)];
        if (a !== "" && b !== "" && a !== b && real + overlaps.length < MOST_VALUES) {
          overlaps.push({ value: real + overlaps.length, from, to });
        }
      }
    }
  }
  return {
    mover: m,
    real,
    values: real + overlaps.length,
    start: mover.start,
    itself: mover.by === "itself",
    overlaps,
  };
}
