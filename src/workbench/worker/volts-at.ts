import type { Compiled } from "../../judge.ts";
import { everyAlternatingLoad, studyAlternatingAt } from "../../size/study-alternating.ts";
import type { AlternatingState } from "../../size/study-alternating-shape.ts";
import type { SwitchingProblem } from "../../switching/index.ts";
import type { Standing } from "./standing-at.ts";
import type { StateVolts } from "./position-answers.ts";

/** The network solved in some positions. @param on by part; null: every load */
export const solvedAt = (compiled: Compiled, { positions }: Standing, on: readonly string[] | null): AlternatingState =>
  studyAlternatingAt(compiled, { id: "", positions, on: on ?? everyAlternatingLoad(compiled) });

/**
 * Volts and amps where everything stands so.
 *
 * The network takes direct current as live; where that makes it give from a source that is dead, it is said and no figure is told.
 */
export function voltsAt(
  compiled: Compiled,
  problem: SwitchingProblem,
  standing: Standing,
  on: readonly string[] | null,
): StateVolts {
  const { state } = standing;
  const solved = solvedAt(compiled, standing, on);
  const names = new Map(problem.sources.map((s) => [s.id, s.name]));
  const ids = new Map(problem.takers.map((t) => [t.id, t]));
  const feeding = new Map<string, ReadonlySet<string>>();
  for (const { taker, sources, state: is } of state.takers) {
    const of = ids.get(taker);
    if (of !== undefined && is !== "dead") feeding.set(of.part, new Set([...(feeding.get(of.part) ?? []), ...sources]));
  }
  const astray = solved.loads.some(({ part, sources }) => {
    const by = feeding.get(part);
    return by !== undefined && sources.some((id) => !by.has(id));
  });
  if (!solved.converged || astray) {
    const untold = astray
      ? "Volts are not told here: a source that is off would have to be left out of the network."
      : "The network has no solution here: more is asked than the sources can give.";
    return { loads: [], sources: [], untold };
  }
  return {
    untold: null,
    loads: solved.loads.flatMap(({ part, id, volts, share, amps, cannotTell, sources }) =>
      feeding.has(part) && sources.length > 0 ? [{ about: `parts.${part}`, id, volts, share, amps, cannotTell }] : [],
    ),
    sources: solved.sources
      .filter(({ id }) => state.gives.includes(id))
      .map(({ id, part, volts, lines, va, load }) => ({
        name: names.get(id) ?? id,
        about: `parts.${part}`,
        volts,
        amps: Math.max(0, ...lines.map((line) => line.amps)),
        va,
        load,
      })),
  };
}
