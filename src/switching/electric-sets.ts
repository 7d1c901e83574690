import { EVERYTHING, NOTHING, type Combinations, type Diagrams } from "./decision-diagram.ts";
import type { Condition, Core, CoreContact } from "./lay-core.ts";

/** The look at a moment, for all moments at once: in which of them something holds. */
export interface ElectricSets {
  readonly where: (condition: Condition) => Combinations;
  /** In which each source gives. */
  readonly gives: readonly Combinations[];
  /** In which a node is fed by a source outside a mask. */
  readonly fed: (node: number, without: number) => Combinations;
  /** In which two sources are in parallel. */
  readonly parallel: (a: number, b: number) => Combinations;
  /** Everything by which states differ, as sets: two states are alike if they are in the same of these. */
  readonly features: () => readonly Combinations[];
}

export function electricSets(core: Core, d: Diagrams): ElectricSets {
  const { sources, nodeCount } = core;
  const where = ({ mover, mask }: Condition): Combinations => (mover < 0 ? EVERYTHING : d.where(mover, mask));
  const whereNot = (c: Condition): Combinations => d.without(EVERYTHING, where(c));
  const spread = (contacts: readonly CoreContact[]) => {
    const at: { to: number; when: Combinations }[][] = Array.from({ length: nodeCount }, () => []);
    for (const c of contacts) {
      const when = where(c);
      at[c.a]?.push({ to: c.b, when });
      at[c.b]?.push({ to: c.a, when });
    }
    const done = new Map<number, readonly Combinations[]>();
    /** In which each node is one piece of metal with this one. */
    return (from: number): readonly Combinations[] => {
      const known = done.get(from);
      if (known !== undefined) return known;
      const reach = new Array<number>(nodeCount).fill(NOTHING);
      reach[from] = EVERYTHING;
      const queue = [from];
      const waits = new Uint8Array(nodeCount);
      for (let i = 0; i < queue.length; i++) {
        const node = queue[i] ?? 0;
        waits[node] = 0;
        for (const { to, when } of at[node] ?? []) {
          const before = reach[to] ?? NOTHING;
          const now = d.either(before, d.both(reach[node] ?? NOTHING, when));
          if (now === before) continue;
          reach[to] = now;
          if (waits[to] === 1) continue;
          waits[to] = 1;
          queue.push(to);
        }
      }
      done.set(from, reach);
      return reach;
    };
  };
  const joined = spread([...core.plain, ...core.guarded]);
  const unguarded = spread(core.plain);
  const one = (of: (n: number) => readonly Combinations[], a: number, b: number): Combinations => of(a)[b] ?? NOTHING;

  const gives: Combinations[] = sources.map(() => NOTHING);
  /** In which a line, or the neutral too, of a source reaches a node. */
  const reaches = (s: number, node: number, neutralToo: boolean): Combinations => {
    const source = sources[s];
    if (source === undefined) return NOTHING;
    const ends = neutralToo && source.neutral >= 0 ? [...source.lines, source.neutral] : source.lines;
    return ends.reduce((set, end) => d.either(set, one(joined, end, node)), NOTHING);
  };
  const fedBy = (node: number, without: number, neutralToo: boolean): Combinations =>
    sources.reduce(
      (set, _, s) =>
        ((without >> s) & 1) === 1 ? set : d.either(set, d.both(gives[s] ?? NOTHING, reaches(s, node, neutralToo))),
      NOTHING,
    );
  const fed = (node: number, without: number): Combinations => fedBy(node, without, core.isLine[node] !== 1);
  for (let changed = true; changed;) {
    changed = false;
    sources.forEach((source, s) => {
      const now = source.fedBy.reduce((set, n) => d.both(set, fed(n, 0)), where(source.gives));
      if (now !== gives[s]) changed = true;
      gives[s] = now;
    });
  }

  const features = (): Combinations[] => {
    const sets: Combinations[] = [];
    sources.forEach((s, i) => s.alternating && sets.push(gives[i] ?? NOTHING));
    const live = (node: number): Combinations => fedBy(node, 0, true);
    const earths = core.keys.filter((_, k) => core.isEarthKey[k] === 1);
    const counts = (node: number): Combinations =>
      [...earths].reduce((set, e) => d.either(set, one(joined, e, node)), live(node));
    const shows = [...core.keys].map(counts);
    sets.push(...shows);
    core.keys.forEach((a, i) => {
      const reach = unguarded(a);
      for (let k = i + 1; k < core.keys.length; k++) {
        const alike = reach[core.keys[k] ?? 0] ?? NOTHING;
        sets.push(d.both(alike, d.both(shows[i] ?? NOTHING, shows[k] ?? NOTHING)));
      }
    });
    for (const c of core.guarded) sets.push(d.without(d.either(counts(c.a), counts(c.b)), whereNot(c)));
    for (const j of core.joins) sets.push(d.both(where(j), live(j.neutral)));
    for (const p of core.pins) {
      sources.forEach((s, i) => {
        const touched = p.lines.reduce((set, n) => d.either(set, reaches(i, n, false)), NOTHING);
        if (s.alternating) sets.push(d.without(d.both(gives[i] ?? NOTHING, touched), where(p)));
      });
    }
    const inverters = core.problem.sources.flatMap(({ direct, addsToSupply }) =>
      direct === null ? [] : [{ plus: core.nodeOf[direct.plus] ?? -1, adds: addsToSupply !== false }],
    );
    for (const { plus, takes } of core.chargers) {
      sets.push(where(takes));
      if (plus >= 0) for (const i of inverters) sets.push(one(joined, plus, i.plus));
    }
    for (const i of inverters) if (i.adds) sets.push(fed(i.plus, 0));
    return [...new Set(sets)].filter((s) => s !== NOTHING && s !== EVERYTHING);
  };
  const parallel = (a: number, b: number): Combinations => {
    const meet = (sources[b]?.lines ?? []).reduce((set, n) => d.either(set, reaches(a, n, false)), NOTHING);
    return d.both(meet, d.both(gives[a] ?? NOTHING, gives[b] ?? NOTHING));
  };
  return { where, gives, fed, parallel, features };
}
