/**
 * The place where a rising function passes zero.
 *
 * Where it is nowhere zero within the bounds, the bound that comes nearest is given.
 *
 * @param rises not falling between the bounds
 * @returns within 1e-9 of the crossing: far below any tolerance in degrees
 * @example
 * bisect((x) => x * x - 2, 0, 2) //=> 1.41421356
 */
export function bisect(rises: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (rises(middle) > 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
