import type { TakerState } from "../../switching/index.ts";
import type { ResidualGuard } from "../../system/index.ts";
import type { Build, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";

/** Residual devices by their id. */
export const guardsOf = ({ system }: Build): ReadonlyMap<string, ResidualGuard> =>
  new Map(system.elements.flatMap((e) => (e.is === "residual guard" ? [[e.id, e]] : [])));

/** What is not known of a device that may guard: at what it opens, or whether a join lies behind it and blinds it. */
export type Unsure = "opens at" | "join";

const WHAT: Readonly<Record<Unsure, string>> = {
  "opens at": "at what its residual device opens",
  join: "whether neutral and earth are joined behind its residual device, which would then see nothing",
};

/** What is asked of whoever knows. */
export const unsureGuard = (is: Unsure, subject: Subject): Needed => needed(WHAT[is], subject);

/**
 * Whether a taker is guarded against leakage of at most so many amps in a state: by a device that neutral comes back through, with the join of neutral and
 * earth ahead of it. A place without any join, and one where nobody says whether there is one, is told by the rule of joins.
 *
 * @returns what is not known, where a device is there that may or may not guard
 */
export function isGuarded(
  at: TakerState,
  guards: ReadonlyMap<string, ResidualGuard>,
  mostAmps: number,
): boolean | Unsure {
  let unsure: Unsure | false = false;
  for (const { guard, joinAhead, neutralThrough } of at.guards) {
    const amps = guards.get(guard)?.amps;
    if (amps === undefined || joinAhead === false || neutralThrough === false) continue;
    if (amps === "unknown") unsure = "opens at";
    else if (amps.high > mostAmps + 1e-9) continue;
    else if (joinAhead === "unknown") unsure ||= "join";
    else return true;
  }
  return unsure;
}

/** Whether a device that would guard a taker is there, but a join behind it keeps it, or may keep it, from seeing a fault. */
export const isBlind = (at: TakerState, guards: ReadonlyMap<string, ResidualGuard>, mostAmps: number): boolean =>
  at.guards.some(({ guard, joinAhead, neutralThrough }) => {
    const amps = guards.get(guard)?.amps;
    const would = amps !== undefined && amps !== "unknown" && amps.high <= mostAmps + 1e-9;
    return would && joinAhead !== true && neutralThrough !== false;
  });

/** What guards people: 30 mA. */
export const THIRTY = 0.03;
/** What guards people by class A of UL 943: 4 to 6 mA, sold as 5 mA. */
export const CLASS_A = 0.006;
