import type { Core } from "./solve-core.ts";
import type { Held } from "./standing.ts";

/** Rounding, as a share of what a source can push. */
const ROUNDING = 1e-6;

/**
 * The source that would have to push more than it can: one that alone feeds a piece of metal, as the core was solved last. What it feeds collapses.
 *
 * @param amps drawn above what the case has; at 0 those sources are asked that the case itself overloads
 * @param per volts by node for each ampere of that
 * @param feeds by source: whether what is judged hangs on it
 */
export function findOverload(
  core: Core,
  caseIndex: number,
  amps: number,
  per: Float64Array | undefined,
  feeds: (held: Held) => boolean,
): Held | null {
  const v = core.volts[caseIndex];
  for (const h of core.alone[caseIndex] ?? []) {
    const now = h.volts - ((v?.[h.plus] ?? 0) - (v?.[h.minus] ?? 0));
    const more = -amps * ((per?.[h.plus] ?? 0) - (per?.[h.minus] ?? 0));
    if ((now + more) * h.siemens > h.most * (1 + ROUNDING) + ROUNDING && feeds(h)) return h;
  }
  return null;
}
