import { isAllowed, type MomentJudge } from "./judge-moment.ts";
import type { Core } from "./lay-core.ts";
import { moved, settle } from "./settle.ts";
import type { Positions, Step } from "./study.ts";

/** Positions by the names of their movers. */
export const namePositions = (core: Core, values: Uint8Array): Positions =>
  Object.fromEntries(
    core.movers.map(({ mover }, m) => {
      const of = core.problem.movers[mover];
      return [of?.id ?? "", of?.positions[values[m] ?? 0] ?? ""];
    }),
  );

/** Interlocks that forbid some positions. */
export const forbidding = (core: Core, values: Uint8Array): string[] =>
  core.interlocks.flatMap((never, i) =>
    isAllowed({ ...core, interlocks: [never] }, values) ? [] : [core.problem.interlocks[i]?.id ?? ""],
  );

/** One move with the names of things. */
export function stepOf(core: Core, m: number, from: number, to: number, after = 0): Step {
  const mover = core.problem.movers[core.movers[m]?.mover ?? -1];
  return {
    mover: mover?.id ?? "",
    from: mover?.positions[from] ?? "",
    to: mover?.positions[to] ?? "",
    by: mover?.by ?? "hand",
    ...(after > 0 ? { after } : {}),
  };
}

/** What is done between the states of a way, and what follows each time by itself. */
export function stepsAlong(core: Core, judge: MomentJudge, way: readonly Uint8Array[]): Step[] {
  const steps: Step[] = [];
  const follow = (from: Uint8Array, to: Uint8Array): void => {
    const end = to.join();
    const { path, rests } = settle(core, judge, from);
    let at = from;
    for (const { moves, values } of path) {
      // Of an endless round it is shown up to the state that is meant.
      if (!rests && at.join() === end) return;
      for (const move of moves) steps.push(stepOf(core, move.mover, move.from, move.to, move.after));
      at = values;
    }
  };
  way.forEach((to, i) => {
    const before = way[i - 1];
    if (before === undefined) {
      follow(
        Uint8Array.from(core.movers, (m) => m.start),
        to,
      );
      return;
    }
    const m = core.movers.findIndex((mover, k) => !mover.itself && before[k] !== to[k]);
    steps.push(stepOf(core, m, before[m] ?? 0, to[m] ?? 0));
    follow(moved(before, [{ mover: m, to: to[m] ?? 0 }]), to);
  });
  return steps;
}

/** One action from a state at rest, null: none, and what follows by itself up to a moment that it passes. */
export function stepsWithin(core: Core, judge: MomentJudge, prior: Uint8Array | null, moment: Uint8Array): Step[] {
  const steps: Step[] = [];
  const m = prior === null ? -1 : core.movers.findIndex((mover, k) => !mover.itself && prior[k] !== moment[k]);
  let at = Uint8Array.from(core.movers, (mover) => mover.start);
  if (prior !== null) {
    steps.push(stepOf(core, m, prior[m] ?? 0, moment[m] ?? 0));
    at = Uint8Array.from(moved(prior, [{ mover: m, to: moment[m] ?? 0 }]));
  }
  const end = moment.join();
  for (const { moves, values } of at.join() === end ? [] : settle(core, judge, at).path) {
    for (const move of moves) steps.push(stepOf(core, move.mover, move.from, move.to, move.after));
    if (values.join() === end) break;
  }
  return steps;
}
