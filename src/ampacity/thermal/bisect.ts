const NEAR = 1e-9;

/**
 * The place where a rising function passes zero.
 *
 * Where it is nowhere zero within the bounds, the bound that comes nearest is given. The line between the bounds is followed, a bound that stays behind counting
 * half (Illinois), and halved instead wherever that gets on more slowly: some ten calls for what halving alone takes forty for.
 *
 * @param rises not falling between the bounds; may be infinite
 * @returns within 1e-9 of the crossing: far below any tolerance in degrees
 * @example
 * bisect((x) => x * x - 2, 0, 2) //=> 1.41421356
 */
export function bisect(rises: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let below = rises(low);
  if (below > 0) return low;
  let above = rises(high);
  if (!(above > 0)) return high;
  let width = high - low;
  let moved = 0;
  for (let turn = 1; high - low > NEAR; turn++) {
    const line = low - (below * (high - low)) / (above - below);
    // Every third turn the bounds must have come to half of what they were; a line that is no number, or leaves them, is no way.
    const isSlow = turn % 3 === 0 && high - low > width / 2;
    if (turn % 3 === 0) width = high - low;
    const inside = line > low && line < high ? line : (low + high) / 2;
    const at = isSlow ? (low + high) / 2 : Math.min(Math.max(inside, low + NEAR / 2), high - NEAR / 2);
    // Bounds that no number lies between are as near as numbers are.
    if (!(at > low && at < high)) break;
    const value = rises(at);
    if (value > 0) {
      high = at;
      above = value;
      if (moved > 0) below /= 2;
      moved = 1;
    } else {
      low = at;
      below = value;
      if (moved < 0) above /= 2;
      moved = -1;
    }
  }
  return (low + high) / 2;
}
