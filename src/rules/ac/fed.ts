import type { Island, StateFacts, SwitchingProblem, TakerState } from "../../switching/index.ts";
import type { Build } from "../build.ts";
import { switchingOf } from "./switching-of.ts";

type Taker = SwitchingProblem["takers"][number];
type ProblemSource = SwitchingProblem["sources"][number];

/** Takers by their id. */
export const takersOf = (build: Build): ReadonlyMap<string, Taker> =>
  new Map(switchingOf(build).problem.takers.map((t) => [t.id, t]));

/** Sources of alternating current by their id. */
export const sourcesOf = (build: Build): ReadonlyMap<string, ProblemSource> =>
  new Map(switchingOf(build).problem.sources.flatMap((s) => (s.kind === "store" ? [] : [[s.id, s]])));

/** Whether something alternating reaches a taker and can be taken: a charger that its part keeps from taking does not count. */
export const isFed = (at: TakerState, taker: Taker | undefined): boolean =>
  at.state !== "dead" && taker !== undefined && (taker.kind === "load" || at.takes);

/** What an island feeds. */
export const fedBy = (
  { takers }: StateFacts,
  { sources }: Island,
  all: ReadonlyMap<string, Taker>,
): readonly TakerState[] =>
  takers.filter((t) => isFed(t, all.get(t.taker)) && t.sources.some((s) => sources.includes(s)));
