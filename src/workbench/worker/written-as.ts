import type { EditValue } from "../../plan/text/index.ts";
import type { SwitchingProblem } from "../../switching/index.ts";
import type { System } from "../../system/index.ts";
import type { Standing } from "./standing-at.ts";
import type { StateAtAnswer } from "./position-answers.ts";

/**
 * What a state of the plan says of some positions: the plug, sources that run and loads that are fed, switches by their names. Devices in boards stand closed
 * in every state of a plan, and what moves by itself goes where it goes.
 */
export function writtenAs(
  system: System,
  problem: SwitchingProblem,
  { state, positions, open }: Standing,
  on: readonly string[] | null,
): StateAtAnswer["written"] {
  const parts = new Map(system.parts.map((p) => [p.id, p]));
  const sourceOf = new Map(problem.sources.flatMap((s) => (s.gives === null ? [] : [[s.gives.mover, s] as const])));
  const entries: [string, EditValue][] = [];
  const running: string[] = [];
  const unsaid: string[] = [];
  let shore: "in" | "out" | null = null;
  for (const [m, { id, name, part, by }] of problem.movers.entries()) {
    const at = positions[id] ?? "";
    const source = sourceOf.get(m);
    if (source?.kind === "shore") {
      if (shore !== "in") shore = at === "in" ? "in" : "out";
    } else if (id === part && parts.get(part)?.positions.includes(at) === true) entries.push([part, at]);
    else if (id === part && (at === "on" || at === "running")) running.push(part);
    else if (by === "hand" && id !== part && at !== "on" && at !== "closed") unsaid.push(`${name} ${at}`);
    else if (id === part && at !== "off" && by !== "itself") unsaid.push(`${name} ${at}`);
  }
  const cut = new Set(open.flatMap(({ leaf }) => leaf.takers.map((t) => problem.takers[t]?.id)));
  const fed = problem.takers.filter(
    ({ id, part, kind }) =>
      kind === "load" &&
      !cut.has(id) &&
      (on === null || on.includes(part)) &&
      state.takers.some(({ taker, state: is }) => taker === id && is !== "dead"),
  );
  const first: [string, EditValue][] = shore === null ? [] : [["shore", shore]];
  return {
    entries: [...first, ...entries, ["on", [...new Set([...running, ...fed.map(({ part }) => part)])]]],
    unsaid,
  };
}
