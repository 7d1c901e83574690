/** A set of combinations of values, as the number of its diagram's top node. */
export type Combinations = number;

export const NOTHING: Combinations = 0;
export const EVERYTHING: Combinations = 1;

/** Thrown inside when a diagram outgrows its bound; caught by whoever began it. */
export class DiagramFull extends Error {}

/**
 * Sets of combinations as diagrams: one level for each variable, one way down for each of its values. Equal sets have equal numbers, since a node that is
 * already there is never made again, and a node whose ways all lead to one place is left out.
 */
export interface Diagrams {
  /** Those in which a variable has one of the values of a mask. */
  readonly where: (variable: number, mask: number) => Combinations;
  readonly both: (a: Combinations, b: Combinations) => Combinations;
  readonly either: (a: Combinations, b: Combinations) => Combinations;
  readonly without: (a: Combinations, b: Combinations) => Combinations;
  /** Those that are in the set for some value of the variable. */
  readonly whatever: (a: Combinations, variable: number) => Combinations;
  /** Those that would be in the set if the variable had this value. */
  readonly given: (a: Combinations, variable: number, value: number) => Combinations;
  /** How many combinations of the first `real[v]` values of each variable are in it, counted over variables that count. */
  readonly count: (a: Combinations, counts: (variable: number) => boolean) => number;
  /** The first of them by value, variable by variable; null: there is none. */
  readonly first: (a: Combinations) => Uint8Array | null;
  readonly size: () => number;
}

/**
 * @param values how many values each variable can have
 * @param real how many of them, from nought, are counted
 * @param most nodes
 */
export function makeDiagrams(values: readonly number[], real: readonly number[], most: number): Diagrams {
  const levels = values.length;
  const level: number[] = [levels, levels];
  const ways: (readonly number[])[] = [[], []];
  const made = new Map<string, number>();
  const node = (at: number, below: readonly number[]): number => {
    const head = below[0] ?? NOTHING;
    if (below.every((b) => b === head)) return head;
    const key = `${String(at)}:${below.join()}`;
    let n = made.get(key);
    if (n === undefined) {
      n = level.length;
      if (n > most) throw new DiagramFull();
      level.push(at);
      ways.push(below);
      made.set(key, n);
    }
    return n;
  };
  const levelOf = (n: number): number => level[n] ?? levels;
  const down = (n: number, at: number, value: number): number =>
    levelOf(n) === at ? (ways[n]?.[value] ?? NOTHING) : n;

  const BASE = 2 ** 24;
  const pairwise = (end: (a: number, b: number) => number | null): ((a: number, b: number) => number) => {
    const done = new Map<number, number>();
    const run = (a: number, b: number): number => {
      const known = end(a, b);
      if (known !== null) return known;
      const key = a * BASE + b;
      const before = done.get(key);
      if (before !== undefined) return before;
      const at = Math.min(levelOf(a), levelOf(b));
      const below = Array.from({ length: values[at] ?? 0 }, (_, v) => run(down(a, at, v), down(b, at, v)));
      const made = node(at, below);
      done.set(key, made);
      return made;
    };
    return run;
  };
  const intersect = pairwise((a, b) =>
    a === NOTHING || b === NOTHING ? NOTHING : a === EVERYTHING ? b : b === EVERYTHING || a === b ? a : null,
  );
  const join = pairwise((a, b) =>
    a === EVERYTHING || b === EVERYTHING ? EVERYTHING : a === NOTHING ? b : b === NOTHING || a === b ? a : null,
  );
  const subtract = pairwise((a, b) =>
    a === NOTHING || b === EVERYTHING || a === b ? NOTHING : b === NOTHING ? a : null,
  );
  const both = (a: number, b: number): number => (a < b ? intersect(a, b) : intersect(b, a));
  const either = (a: number, b: number): number => (a < b ? join(a, b) : join(b, a));

  /** Replaces the node of one level by something made of what lies below it. */
  const atLevel = (variable: number, make: (below: readonly number[]) => number): ((a: number) => number) => {
    const done = new Map<number, number>();
    const run = (a: number): number => {
      const at = levelOf(a);
      if (at > variable) return a;
      const known = done.get(a);
      if (known !== undefined) return known;
      const below = ways[a] ?? [];
      const made = at === variable ? make(below) : node(at, below.map(run));
      done.set(a, made);
      return made;
    };
    return run;
  };
  const forget = values.map((_, v) => atLevel(v, (below) => below.reduce(either, NOTHING)));
  const fix = values.map((n, v) =>
    Array.from({ length: n }, (_, value) => atLevel(v, (below) => below[value] ?? NOTHING)),
  );

  const count = (a: number, counts: (variable: number) => boolean): number => {
    const weight = real.map((r, v) => (counts(v) ? r : 1));
    const done = new Map<number, number>();
    // Levels that are left out between two nodes are free.
    const free = (from: number, to: number): number => weight.slice(from, to).reduce((p, w) => p * w, 1);
    const run = (n: number): number => {
      if (n <= EVERYTHING) return n;
      const known = done.get(n);
      if (known !== undefined) return known;
      const at = levelOf(n);
      let sum = 0;
      for (const below of (ways[n] ?? []).slice(0, counts(at) ? real[at] : 1))
        sum += run(below) * free(at + 1, levelOf(below));
      done.set(n, sum);
      return sum;
    };
    return run(a) * free(0, levelOf(a));
  };

  return {
    where: (variable, mask) =>
      node(
        variable,
        Array.from({ length: values[variable] ?? 0 }, (_, v) => ((mask >> v) & 1 ? EVERYTHING : NOTHING)),
      ),
    both,
    either,
    without: subtract,
    whatever: (a, variable) => forget[variable]?.(a) ?? a,
    given: (a, variable, value) => fix[variable]?.[value]?.(a) ?? a,
    count,
    first: (a) => {
      if (a === NOTHING) return null;
      const combination = new Uint8Array(levels);
      for (let n = a; n !== EVERYTHING;) {
        const below = ways[n] ?? [];
        const value = below.findIndex((b) => b !== NOTHING);
        combination[levelOf(n)] = value;
        n = below[value] ?? EVERYTHING;
      }
      return combination;
    },
    size: () => level.length,
  };
}
