import type { PositionSet, SwitchingProblem } from "./problem.ts";
import { rootOf, separate, unite } from "./union-find.ts";

/** A switch behind which there is nothing but takers: it changes what is on, and no other state. */
export interface Leaf {
  readonly mover: number;
  /** Takers behind it. */
  readonly takers: readonly number[];
  /** Nodes behind it. */
  readonly nodes: readonly number[];
}

export interface Sorted {
  readonly leaves: readonly Leaf[];
  /** Movers that touch nothing alternating and nothing that gives. */
  readonly idle: readonly number[];
  /** Those whose every position counts, in the order of the problem. */
  readonly core: readonly number[];
}

/**
 * Tells movers that count apart from those that cut off a dead end with nothing but takers behind it, and from those that lead to nothing.
 *
 * A mover is one of the core if a rule, an interlock, a source or a join asks where it stands, or if opening it leaves something that matters on both
 * sides of one of its contacts.
 */
export function findLeaves(problem: SwitchingProblem): Sorted {
  const { nodes, metal, movers, contacts } = problem;
  const asked = askedMovers(problem);
  const weighty = weightyNodes(problem);
  const all = separate(nodes.length);
  for (const [a, b] of metal) unite(all, a, b);
  for (const { a, b } of contacts) unite(all, a, b);
  const matters = new Uint8Array(nodes.length);
  for (const n of weighty) matters[rootOf(all, n)] = 1;
  for (const t of problem.takers) for (const n of endsOf(t)) matters[rootOf(all, n)] ||= 2;

  const byMover: number[][] = movers.map(() => []);
  contacts.forEach(({ closed }, c) => closed !== null && byMover[closed.mover]?.push(c));
  const fixed = separate(nodes.length);
  for (const [a, b] of metal) unite(fixed, a, b);

  const leaves: Leaf[] = [];
  const idle: number[] = [];
  const core: number[] = [];
  movers.forEach((mover, m) => {
    if (asked.has(m)) return void core.push(m);
    const own = (byMover[m] ?? []).filter((c) => {
      const contact = contacts[c];
      if (contact === undefined || rootOf(fixed, contact.a) === rootOf(fixed, contact.b)) return false;
      return (matters[rootOf(all, contact.a)] ?? 0) !== 0;
    });
    if (own.length === 0) return void idle.push(m);
    const leaf =
      mover.by === "itself" || !closesAllAtOnce(problem, own) ? null : deadEnd(problem, m, own, fixed, weighty);
    if (leaf === null) core.push(m);
    else leaves.push(leaf);
  });
  return { leaves, idle, core };
}

const endsOf = (t: { lines: readonly number[]; neutral: number | null; earth: number | null }): number[] => [
  ...t.lines,
  ...[t.neutral, t.earth].filter((n) => n !== null),
];

function askedMovers(problem: SwitchingProblem): Set<number> {
  const asked = new Set<number>();
  const ask = (set: PositionSet | null | "unknown"): void => {
    if (set !== null && set !== "unknown") asked.add(set.mover);
  };
  for (const s of problem.sources) ask(s.gives);
  for (const j of problem.joins) ask(j.closed);
  for (const t of problem.takers) ask(t.takes);
  for (const i of problem.interlocks) i.never.forEach(ask);
  for (const m of problem.movers) for (const r of m.rules) r.when.forEach(ask);
  return asked;
}

/** Nodes at which something may give, be asked, or tie neutral to earth. */
function weightyNodes(problem: SwitchingProblem): number[] {
  return [
    ...problem.sources.flatMap((s) => [
      ...s.lines.map((l) => l.node),
      ...s.fedBy,
      ...[s.neutral, s.earth].filter((n) => n !== null),
      ...(s.direct === null ? [] : [s.direct.plus, s.direct.minus]),
    ]),
    ...problem.joins.flatMap((j) => [j.neutral, j.earth]),
    ...problem.movers.flatMap((m) => m.rules.flatMap((r) => r.live)),
    ...problem.takers.flatMap((t) => (t.direct === null ? [] : [t.direct.plus, t.direct.minus])),
  ];
}

/** There is a position in which everything behind it is on. */
function closesAllAtOnce({ contacts }: SwitchingProblem, own: readonly number[]): boolean {
  const sets = own.map((c) => contacts[c]?.closed?.in ?? []);
  return sets.some((first) => first.some((p) => sets.every((set) => set.includes(p))));
}

/**
 * What a mover cuts off, if that is nothing but takers.
 *
 * With the mover taken out, the pieces of metal that its contacts lead between have to hang together as trees, each with one piece at most that matters:
 * that one is ahead, and all others are behind. Where two that matter hang together, or two ways lead to one piece, the mover is more than on and off.
 */
function deadEnd(
  problem: SwitchingProblem,
  mover: number,
  own: readonly number[],
  fixed: Int32Array,
  weighty: readonly number[],
): Leaf | null {
  const without = fixed.slice();
  for (const { a, b, closed } of problem.contacts) if (closed?.mover !== mover) unite(without, a, b);
  const holds = new Set(weighty.map((n) => rootOf(without, n)));
  const together = without.slice();
  const far = new Set<number>();
  for (const c of own) {
    const contact = problem.contacts[c];
    if (contact === undefined) continue;
    // A second way between pieces that hang together already, be it by other contacts.
    if (rootOf(together, contact.a) === rootOf(together, contact.b)) return null;
    unite(together, contact.a, contact.b);
    for (const end of [contact.a, contact.b]) {
      const piece = rootOf(without, end);
      if (!holds.has(piece)) far.add(piece);
    }
  }
  if (new Set([...holds].map((n) => rootOf(together, n))).size < holds.size) return null;
  const isFar = (n: number): boolean => far.has(rootOf(without, n));
  return {
    mover,
    takers: [...problem.takers.keys()].filter((t) => {
      const taker = problem.takers[t];
      return taker !== undefined && [...taker.lines, ...(taker.neutral === null ? [] : [taker.neutral])].some(isFar);
    }),
    nodes: [...problem.nodes.keys()].filter(isFar),
  };
}
