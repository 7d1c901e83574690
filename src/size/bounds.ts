import { isFixed } from "./cost.ts";
import type { CircuitModel } from "./model.ts";

/** Between which rungs each circuit is chosen, and over which rungs of the shelf the choice steps. */
export interface Bounds {
  /** First and last rung that each circuit may have, by circuit; both open. */
  readonly floor: Int32Array;
  readonly top: Int32Array;
  /** 1 where a circuit asks for more than its last rung. */
  readonly short: Uint8Array;
  /** By rung: the next open one above and below it; one past the last, and −1, where there is none. */
  readonly above: Int32Array;
  readonly below: Int32Array;
}

/**
 * @param least first rung that each circuit may have; one past its last where nothing on sale is enough
 * @param open by rung of the shelf: 1 where it may be used; null: all may
 * @param only by circuit: the one rung that it may have; −1, or null: no such thing is asked
 */
export function boundsOf(
  circuits: readonly CircuitModel[],
  least: Int32Array,
  open: Uint8Array | null,
  only: Int32Array | null,
): Bounds {
  const length = Math.max(1, ...circuits.map((c) => (isFixed(c) ? 1 : (c.rungs?.ladder.makes.length ?? 1))));
  const above = new Int32Array(length);
  const below = new Int32Array(length + 1);
  const isOpen = (r: number): boolean => open === null || open[r] === 1;
  for (let r = length - 1, next = length; r >= 0; r--) {
    above[r] = next;
    if (isOpen(r)) next = r;
  }
  for (let r = 0, last = -1; r <= length; r++) {
    below[r] = last;
    if (isOpen(r)) last = r;
  }
  const floor = Int32Array.from(least);
  const top = new Int32Array(circuits.length);
  const short = new Uint8Array(circuits.length);
  circuits.forEach((c, i) => {
    if (isFixed(c)) {
      floor[i] = 0;
      return;
    }
    const own = only?.[i] ?? -1;
    const last = own >= 0 ? own : (below[c.rungs?.ladder.makes.length ?? length] ?? -1);
    top[i] = Math.max(0, last);
    const first = own >= 0 ? Math.max(own, floor[i] ?? 0) : firstOpen(floor[i] ?? 0, above, isOpen);
    if (first > last) short[i] = 1;
    floor[i] = Math.min(first, top[i] ?? 0);
  });
  return { floor, top, short, above, below };
}

const firstOpen = (rung: number, above: Int32Array, isOpen: (rung: number) => boolean): number =>
  rung >= above.length || isOpen(rung) ? rung : (above[rung] ?? rung);

/** A rung itself where it is open, else the next one above it. */
export const openFrom = ({ above, below }: Bounds, rung: number): number =>
  below[rung + 1] === rung ? rung : (above[rung] ?? rung);
