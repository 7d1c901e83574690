import { problemOf, stateAt, studyProblem } from "../switching/index.ts";
import type { EarthSystem, Positions } from "./study-earth-faults-ways.ts";

/** Whether a source can feed a way: some state of the build has all positions that the way needs while the source gives. */
export type CanBe = (source: string, positions: Positions) => boolean;

/**
 * Asks the study of positions whether a way can be live. From every group of states in which the source gives, what the way needs is set and what moves by
 * itself comes to rest.
 *
 * Ignores whether the way there passes states that interlocks forbid. A build too large for that study is taken as able to.
 */
export function statesOf(system: EarthSystem): CanBe {
  let prepared: ReturnType<typeof prepare> | null = null;
  const known = new Map<string, boolean>();
  return (source, positions) => {
    const key = JSON.stringify([source, positions]);
    let can = known.get(key);
    if (can === undefined) known.set(key, (can = ask((prepared ??= prepare(system)), source, positions)));
    return can;
  };
}

function prepare(system: EarthSystem) {
  const { problem } = problemOf(system);
  return { problem, study: studyProblem(problem) };
}

function ask({ problem, study }: ReturnType<typeof prepare>, source: string, positions: Positions): boolean {
  if (study.tooLarge !== null) return true;
  return study.groups.some((group) => {
    if (!group.gives.includes(source)) return false;
    const set = Object.entries(positions).map(([mover, within]) => {
      const stands = group.example[mover];
      return [mover, stands !== undefined && within.includes(stands) ? stands : (within[0] ?? "")] as const;
    });
    const at = stateAt(problem, { ...group.example, ...Object.fromEntries(set) });
    const stays = Object.entries(positions).every(([mover, within]) => {
      const stands = at.positions[mover];
      // A switch with only takers behind it is in no state of its own.
      return stands === undefined || within.includes(stands);
    });
    return stays && at.rests && at.forbiddenBy.length === 0 && at.gives.includes(source);
  });
}
