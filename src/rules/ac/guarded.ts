import type { GuardOnWay, TakerState } from "../../switching/index.ts";
import type { ResidualGuard } from "../../system/index.ts";
import type { Build } from "../build.ts";

/** Residual devices by their id. */
export const guardsOf = ({ system }: Build): ReadonlyMap<string, ResidualGuard> =>
  new Map(system.elements.flatMap((e) => (e.is === "residual guard" ? [[e.id, e]] : [])));

/** Whether a device sees the leakage of what is behind it: neutral comes back through it, and no join lies behind it. */
const sees = ({ joinAhead, neutralThrough }: GuardOnWay): boolean => joinAhead !== false && neutralThrough !== false;

/**
 * Whether a taker is guarded against leakage of at most so many amps in a state. A place without any join is told by the rule of joins.
 *
 * @returns unknown: a device is there, and nobody knows at what it opens
 */
export function isGuarded(
  at: TakerState,
  guards: ReadonlyMap<string, ResidualGuard>,
  mostAmps: number,
): boolean | "unknown" {
  let unsure = false;
  for (const one of at.guards) {
    const amps = guards.get(one.guard)?.amps;
    if (amps === undefined || !sees(one)) continue;
    if (amps === "unknown") unsure = true;
    else if (amps.high <= mostAmps + 1e-9) return true;
  }
  return unsure ? "unknown" : false;
}

/** What guards people: 30 mA. */
export const THIRTY = 0.03;
/** What guards people by class A of UL 943: 4 to 6 mA, sold as 5 mA. */
export const CLASS_A = 0.006;
