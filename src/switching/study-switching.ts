import type { System } from "../system/index.ts";
import { problemOf, type NamedProblem } from "./problem-of.ts";
import type { SwitchingLimits } from "./problem.ts";
import type { SwitchingStudy } from "./study.ts";
import { studyProblem } from "./study-problem.ts";

/** The study of a system, with what leads from its nodes back to the terminals of parts. */
export interface SystemSwitching extends NamedProblem {
  readonly study: SwitchingStudy;
}

/** Studies of the last few problems, by all that they ask. Most edits of a plan leave its switches as they are, and the study reads nothing else. */
const lately = new Map<string, SwitchingStudy>();
const MOST_KEPT = 4;

function studyOnce(problem: NamedProblem["problem"]): SwitchingStudy {
  const asked = JSON.stringify(problem);
  const study = lately.get(asked) ?? studyProblem(problem);
  // What was asked for last stands last.
  lately.delete(asked);
  lately.set(asked, study);
  const [oldest] = lately.keys();
  if (lately.size > MOST_KEPT && oldest !== undefined) lately.delete(oldest);
  return study;
}

/**
 * Finds every state that the switches, plugs, relays and sources of a system can be in, grouped by what differs electrically, with the shortest way to each.
 *
 * Ignores what `studyProblem` and `problemOf` ignore. A build without anything alternating has one group in which nothing holds.
 *
 * @param limits how large it may grow; beyond, `study.tooLarge` says by which number
 * @returns plain data; `terminals[node]` are the terminals that are one piece of metal
 */
export function studySwitching(system: System, limits?: SwitchingLimits): SystemSwitching {
  const named = problemOf(system);
  return { ...named, study: limits === undefined ? studyOnce(named.problem) : studyProblem(named.problem, limits) };
}
