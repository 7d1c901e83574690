import type { Guard, Span } from "./guards.ts";

/** Rating of the smallest device among guards, those left out whose rating is not known; without an end where there is none. */
export function tightest(guards: readonly Guard[]): Span {
  let low = Infinity;
  let high = Infinity;
  for (const { rating } of guards) {
    if (rating === null) continue;
    low = Math.min(low, rating.low);
    high = Math.min(high, rating.high);
  }
  return { low, high };
}
