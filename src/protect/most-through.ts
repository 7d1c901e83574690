/** A device between two pieces of metal; current may go either way. */
export interface Gate {
  readonly from: number;
  readonly to: number;
  /** What it lets through, A. */
  readonly amps: number;
}

/** Rounding of sums of ratings, as a share; less is nothing. */
const DUST = 1e-12;

/**
 * The most current that can come together in the first of some pieces of metal: what its own sources give, and what the devices around let through
 * from the sources of the others. Where the pieces hang together as a tree that is a sum of smaller-of-two; where they form loops, the greatest
 * flow, found by filling one path after another.
 *
 * @param given by piece: what its own sources can give, A; may be Infinity
 * @returns A; Infinity only where the first piece holds an unlimited source
 */
export function mostThrough(given: readonly number[], gates: readonly Gate[]): number {
  const own = given[0] ?? 0;
  if (own === Infinity) return own;
  const between = gates.filter(({ from, to, amps }) => from !== to && amps > 0);
  if (between.length === 0) return own;
  const at: number[][] = given.map(() => []);
  between.forEach(({ from, to }, g) => {
    at[from]?.push(g);
    at[to]?.push(g);
  });
  // By gate and way: what still fits through.
  const ahead = between.map(({ amps }) => amps);
  const back = between.map(({ amps }) => amps);
  const left = [...given];
  let total = own;
  const through = new Int32Array(given.length);
  for (;;) {
    // From the first piece outwards to the nearest that still has something to give.
    through.fill(-2);
    through[0] = -1;
    const queue = [0];
    let found = -1;
    for (let i = 0; i < queue.length && found < 0; i++) {
      const piece = queue[i] ?? 0;
      for (const g of at[piece] ?? []) {
        const gate = between[g];
        if (gate === undefined) continue;
        const next = gate.from === piece ? gate.to : gate.from;
        // The current comes the other way than we walk.
        const room = (gate.to === piece ? ahead[g] : back[g]) ?? 0;
        if (through[next] !== -2 || room <= DUST * gate.amps) continue;
        through[next] = g;
        const rest = left[next] ?? 0;
        if (rest === Infinity || rest > DUST * (given[next] ?? 0)) {
          found = next;
          break;
        }
        queue.push(next);
      }
    }
    if (found < 0) return total;
    const path: { g: number; forth: boolean }[] = [];
    let amps = left[found] ?? 0;
    for (let piece = found; piece !== 0;) {
      const g = through[piece] ?? 0;
      const gate = between[g];
      if (gate === undefined) break;
      const forth = gate.from === piece;
      path.push({ g, forth });
      amps = Math.min(amps, (forth ? ahead[g] : back[g]) ?? 0);
      piece = forth ? gate.to : gate.from;
    }
    for (const { g, forth } of path) {
      const [used, other] = forth ? [ahead, back] : [back, ahead];
      used[g] = (used[g] ?? 0) - amps;
      other[g] = (other[g] ?? 0) + amps;
    }
    if (left[found] !== Infinity) left[found] = (left[found] ?? 0) - amps;
    total += amps;
  }
}
