import type { PositionSet, SystemSwitching } from "../../switching/index.ts";
import { moverName, namesOf } from "./thing-names.ts";

/** A piece of metal of the alternating side, all its lines as one, with contacts that only single loads hang on taken as closed. */
export interface Joint {
  readonly nodes: readonly number[];
  /** Contacts from the farthest source to it, on the shortest way that some position closes. */
  readonly rank: number;
}

/** Contacts that move together between the same two joints. */
export interface JointLink {
  /** Joint nearer to the sources, and the other. */
  readonly a: number;
  readonly b: number;
  readonly mover: string;
  /** Positions of the mover in which it is closed. */
  readonly closedIn: readonly string[];
  readonly label: string;
  /** The neutral goes past it unswitched. */
  readonly neutralThrough: boolean;
}

export interface JointSource {
  readonly id: string;
  readonly name: string;
  readonly part: string;
  readonly joint: number;
  readonly isShore: boolean;
}

/** Loads and chargers that are fed alike in every state. */
export interface JointTakers {
  readonly ids: readonly string[];
  readonly names: readonly string[];
  readonly joint: number;
}

/** A place where neutral may meet earth. */
export interface JointJoin {
  readonly id: string;
  readonly name: string;
  /** Index of the source that it stands at; null: it stands at a joint. */
  readonly source: number | null;
  readonly joint: number;
  readonly isAshore: boolean;
}

/** The alternating side as small pictures show it: what never differs is one. */
export interface StateGraph {
  readonly joints: readonly Joint[];
  readonly links: readonly JointLink[];
  readonly sources: readonly JointSource[];
  readonly takers: readonly JointTakers[];
  readonly joins: readonly JointJoin[];
}

/** Ways that are tried while ranks are looked for. */
const MOST_WAYS = 4000;

/** Puts the alternating side together for small pictures. */
export function stateGraph({ study, problem, terminals }: SystemSwitching): StateGraph {
  const root = [...problem.nodes.keys()];
  const find = (n: number): number => {
    let at = n;
    while (root[at] !== undefined && root[at] !== at) at = root[at] ?? at;
    return at;
  };
  const unite = (nodes: readonly number[]): void => {
    for (const n of nodes) root[find(n)] = find(nodes[0] ?? n);
  };
  const names = namesOf(problem);
  const isNeutral = (n: number): boolean => problem.nodes[n]?.does === "neutral" || problem.nodes[n]?.does === "earth";
  const leaves = new Set(study.leaves.map(({ mover }) => mover));
  const moverOf = (closed: PositionSet): string => problem.movers[closed.mover]?.id ?? "";
  const moving = problem.contacts.flatMap((c) =>
    c.closed === null || leaves.has(moverOf(c.closed)) ? [] : [{ a: c.a, b: c.b, closed: c.closed }],
  );
  for (const { a, b, closed } of problem.contacts) {
    if (!isNeutral(a) && !isNeutral(b) && (closed === null || leaves.has(moverOf(closed)))) unite([a, b]);
  }
  for (const pair of problem.metal) if (!pair.some(isNeutral)) unite(pair);
  const keyOf = ({ mover, in: positions }: PositionSet): string => `${mover} ${positions.join()}`;
  for (const { lines } of problem.sources) unite(lines.map(({ node }) => node));
  for (const { lines } of problem.takers) unite(lines);
  // The poles of one switch are one link.
  const poles = new Map<string, (typeof moving)[number][]>();
  for (const c of moving) {
    if (isNeutral(c.a) || isNeutral(c.b)) continue;
    const key = keyOf(c.closed);
    poles.set(key, [...(poles.get(key) ?? []), c]);
  }
  for (const list of poles.values()) {
    if (new Set(list.flatMap(({ a, b }) => [find(a), find(b)])).size > 2) {
      unite(list.map(({ a }) => a));
      unite(list.map(({ b }) => b));
    }
  }
  const switched = new Set(moving.filter((c) => isNeutral(c.a)).map((c) => keyOf(c.closed)));

  const alternating = problem.sources.filter(({ kind }) => kind !== "store");
  const reached = new Set([
    ...alternating.flatMap(({ lines }) => lines.slice(0, 1).map(({ node }) => find(node))),
    ...problem.takers.flatMap(({ lines }) => lines.slice(0, 1).map(find)),
  ]);
  for (const at of reached)
    for (const { a, b } of moving) {
      if (isNeutral(a) || isNeutral(b)) continue;
      if (find(a) === at) reached.add(find(b));
      if (find(b) === at) reached.add(find(a));
    }
  const roots = [...reached];
  const jointOf = (n: number | undefined): number => (n === undefined ? -1 : roots.indexOf(find(n)));

  const seen = new Set<string>();
  const ties = [...poles].flatMap(([key, list]) =>
    list.flatMap(({ a, b, closed }) => {
      const [from, to] = [jointOf(a), jointOf(b)];
      const own = `${key} ${Math.min(from, to)} ${Math.max(from, to)}`;
      if (from < 0 || to < 0 || from === to || seen.has(own)) return [];
      seen.add(own);
      return [{ from, to, closed, key }];
    }),
  );
  const sources = alternating.map((s): JointSource => ({
    id: s.id,
    name: names.source(s.id),
    part: s.part,
    joint: jointOf(s.lines[0]?.node),
    isShore: s.kind === "shore",
  }));
  const starts = alternating.map((s, i) => ({ joint: sources[i]?.joint ?? -1, gives: s.gives, passes: s.passes }));
  const ranks = ranksOf(roots.length, ties, starts);
  const links = ties.map(({ from, to, closed, key }): JointLink => {
    const isForth = (ranks[from] ?? 0) <= (ranks[to] ?? 0);
    return {
      a: isForth ? from : to,
      b: isForth ? to : from,
      mover: moverOf(closed),
      closedIn: closed.in.map((i) => problem.movers[closed.mover]?.positions[i] ?? ""),
      label: moverName(moverOf(closed)),
      neutralThrough: !switched.has(key),
    };
  });
  const nodesOf = (r: number): number[] => [...problem.nodes.keys()].filter((n) => !isNeutral(n) && find(n) === r);
  const stem = (terminal: string): string => terminal.slice(0, terminal.lastIndexOf(":"));
  const stems = roots.map((r) => new Set(nodesOf(r).flatMap((n) => (terminals[n] ?? []).map(stem))));
  const takers = new Map<string, { ids: string[]; names: string[]; joint: number }>();
  for (const { id, lines } of problem.takers) {
    const joint = jointOf(lines[0]);
    if (joint < 0) continue;
    const fed = study.groups.map(({ takers: t }) => {
      const own = t.find(({ taker }) => taker === id);
      return [own?.state, own?.earth];
    });
    const key = JSON.stringify([joint, fed]);
    const known = takers.get(key);
    if (known === undefined) takers.set(key, { ids: [id], names: [names.taker(id)], joint });
    else {
      known.ids.push(id);
      known.names.push(names.taker(id));
    }
  }
  return {
    joints: roots.map((r, i) => ({ nodes: nodesOf(r), rank: ranks[i] ?? 0 })),
    links,
    sources,
    takers: [...takers.values()],
    joins: [
      ...problem.joins.map(({ id, part, neutral }): JointJoin => {
        const at = alternating.findIndex((s) => s.part === part || s.neutral === neutral);
        const byStem = stems.findIndex((own) => (terminals[neutral] ?? []).some((t) => own.has(stem(t))));
        const joint = at < 0 ? byStem : (sources[at]?.joint ?? -1);
        return { id, name: names.join(id), source: at < 0 ? null : at, joint, isAshore: false };
      }),
      ...alternating.flatMap((s, i): JointJoin[] =>
        s.joined === false
          ? []
          : [
              {
                id: s.id,
                name: names.source(s.id),
                source: i,
                joint: sources[i]?.joint ?? -1,
                isAshore: !s.joinStays,
              },
            ],
      ),
    ],
  };
}

interface Tie {
  readonly from: number;
  readonly to: number;
  readonly closed: PositionSet;
}

/** The farthest of the shortest ways from each source that some positions of all that moves close. */
function ranksOf(
  count: number,
  ties: readonly Tie[],
  starts: readonly { readonly joint: number; readonly gives: PositionSet | null; readonly passes: boolean }[],
): number[] {
  const ranks = new Array<number>(count).fill(0);
  // What only gives is where ways begin, even where a way could lead back to it.
  const ends = new Set(starts.flatMap(({ joint, passes }) => (passes ? [] : [joint])));
  for (const { joint, gives } of starts) {
    if (joint < 0) continue;
    const shortest = new Map<number, number>();
    const queue: { at: number; far: number; held: readonly PositionSet[] }[] = [
      { at: joint, far: 0, held: gives === null ? [] : [gives] },
    ];
    for (let i = 0; i < queue.length && i < MOST_WAYS; i++) {
      const { at, far, held } = queue[i] ?? { at: -1, far: 0, held: [] };
      if ((shortest.get(at) ?? Infinity) < far) continue;
      shortest.set(at, far);
      for (const { from, to, closed } of ties) {
        const next = from === at ? to : to === at ? from : -1;
        if (next < 0 || shortest.has(next) || ends.has(next)) continue;
        const clashes = held.some((h) => h.mover === closed.mover && !h.in.some((p) => closed.in.includes(p)));
        if (!clashes) queue.push({ at: next, far: far + 1, held: [...held, closed] });
      }
    }
    for (const [at, far] of shortest) ranks[at] = Math.max(ranks[at] ?? 0, far);
  }
  // A link leads to the right.
  for (let round = 0; round < count; round++) {
    for (const { from, to } of ties) if (ranks[from] === ranks[to]) ranks[to] = (ranks[to] ?? 0) + 1;
  }
  return ranks;
}
