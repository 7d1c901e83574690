import type { Condition, Core } from "./lay-core.ts";
import { rootOf, unite } from "./union-find.ts";

/** What holds while every mover stands where it stands. Its arrays are used again by the next one that is looked at. */
export interface Moment {
  readonly values: Uint8Array;
  /** Pieces of metal with every guard open, and with guards as they stand. */
  readonly unguarded: Int32Array;
  readonly joined: Int32Array;
  /** Mask of giving sources whose line, or neutral, each piece of metal is; by its root in `joined`. */
  readonly lineOf: Int32Array;
  readonly neutralOf: Int32Array;
  /** Mask of sources that give. */
  readonly gives: number;
}

export interface MomentJudge {
  /** Works out a moment; the result is valid until the next call. */
  readonly look: (values: Uint8Array) => Moment;
  /** Value that a mover that moves by itself goes to, and its place among the rules; −1: it stays. */
  readonly rule: (moment: Moment, mover: number) => number;
  /** What two states that do not differ electrically have in common. */
  readonly signature: (moment: Moment) => string;
}

export const holds = ({ mover, mask }: Condition, values: Uint8Array): boolean =>
  mover < 0 || ((mask >> (values[mover] ?? 0)) & 1) === 1;

/** Whether no interlock forbids these positions. */
export function isAllowed(core: Core, values: Uint8Array): boolean {
  for (const never of core.interlocks) {
    let all = true;
    for (const c of never) if (!holds(c, values)) all = false;
    if (all) return false;
  }
  return true;
}

/** Prepares the look at many moments of one build. */
export function judgeMoments(core: Core): MomentJudge {
  const { nodeCount, sources } = core;
  const still = Int32Array.from({ length: nodeCount }, (_, i) => i);
  const moment: { -readonly [K in keyof Moment]: Moment[K] } = {
    values: new Uint8Array(core.movers.length),
    unguarded: new Int32Array(nodeCount),
    joined: new Int32Array(nodeCount),
    lineOf: new Int32Array(nodeCount),
    neutralOf: new Int32Array(nodeCount),
    gives: 0,
  };
  const { unguarded, joined, lineOf, neutralOf } = moment;
  const first = new Int32Array(nodeCount);
  const fed = (node: number, without: number): boolean => {
    const root = rootOf(joined, node);
    const mask = (lineOf[root] ?? 0) | (core.isLine[node] === 1 ? 0 : (neutralOf[root] ?? 0));
    return (mask & ~without) !== 0;
  };
  const ownSources = core.movers.map(({ mover }) => {
    const part = core.problem.movers[mover]?.part;
    return sources.reduce((mask, s, i) => (s.part === part ? mask | (1 << i) : mask), 0);
  });

  const look = (values: Uint8Array): Moment => {
    moment.values = values;
    unguarded.set(still);
    for (const c of core.plain) if (holds(c, values)) unite(unguarded, c.a, c.b);
    joined.set(unguarded);
    for (const c of core.guarded) if (holds(c, values)) unite(joined, c.a, c.b);
    lineOf.fill(0);
    neutralOf.fill(0);
    moment.gives = 0;
    // What gives may feed what gives in turn, so it is asked until nothing more does.
    for (let before = -1; before !== moment.gives;) {
      before = moment.gives;
      for (let s = 0; s < sources.length; s++) {
        const source = sources[s];
        if (source === undefined || ((before >> s) & 1) === 1 || !holds(source.gives, values)) continue;
        let ready = true;
        for (const n of source.fedBy) if (!fed(n, 0)) ready = false;
        if (!ready) continue;
        moment.gives |= 1 << s;
        for (const n of source.lines) {
          const root = rootOf(joined, n);
          lineOf[root] = (lineOf[root] ?? 0) | (1 << s);
        }
        if (source.neutral < 0) continue;
        const root = rootOf(joined, source.neutral);
        neutralOf[root] = (neutralOf[root] ?? 0) | (1 << s);
      }
    }
    return moment;
  };

  const rule = ({ values }: Moment, mover: number): number => {
    const rules = core.rules[mover] ?? [];
    const own = ownSources[mover] ?? 0;
    return rules.findIndex((r) => r.when.every((c) => holds(c, values)) && r.live.every((n) => fed(n, own)));
  };

  const isLive = (node: number): boolean => {
    const root = rootOf(joined, node);
    return ((lineOf[root] ?? 0) | (neutralOf[root] ?? 0)) !== 0;
  };
  const alternating = sources.reduce((mask, s, i) => (s.alternating ? mask | (1 << i) : mask), 0);
  const inverters = core.problem.sources.flatMap(({ direct, addsToSupply }, s) =>
    direct === null ? [] : [{ s, plus: core.nodeOf[direct.plus] ?? -1, adds: addsToSupply !== false }],
  );
  const { keys, isEarthKey } = core;
  const earths = keys.filter((_, k) => isEarthKey[k] === 1);
  const isEarth = new Uint8Array(nodeCount);

  const signature = (at: Moment): string => {
    isEarth.fill(0);
    for (const e of earths) isEarth[rootOf(joined, e)] = 1;
    // What is dead is compared where it is switched onto earth, since that is metal which a person may touch.
    const counts = (node: number): boolean => isEarth[rootOf(joined, node)] === 1 || isLive(node);
    const out: number[] = [at.gives & alternating & 0xffff, (at.gives & alternating) >>> 16];
    first.fill(0);
    for (let k = 0; k < keys.length; k++) {
      const node = keys[k] ?? 0;
      if (!counts(node)) {
        out.push(0);
        continue;
      }
      const root = rootOf(unguarded, node);
      if (first[root] === 0) first[root] = k + 1;
      out.push(first[root] ?? 0);
    }
    for (const c of core.guarded) out.push(holds(c, at.values) && (counts(c.a) || counts(c.b)) ? 1 : 0);
    for (const j of core.joins) out.push(holds(j, at.values) && isLive(j.neutral) ? 1 : 0);
    for (const p of core.pins) {
      // Which sources make them live, while a hand can touch them.
      const lines = holds(p, at.values) ? [] : p.lines;
      const from = lines.reduce((mask, n) => mask | (lineOf[rootOf(joined, n)] ?? 0), 0) & alternating;
      out.push(from & 0xffff, from >>> 16);
    }
    for (const { plus, takes } of core.chargers) {
      out.push(holds(takes, at.values) ? 1 : 0);
      for (const i of inverters) out.push(plus >= 0 && rootOf(joined, plus) === rootOf(joined, i.plus) ? 1 : 0);
    }
    for (const i of inverters) if (i.adds) out.push(fed(i.plus, 0) ? 1 : 0);
    return String.fromCharCode(...out);
  };
  return { look, rule, signature };
}
