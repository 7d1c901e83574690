import type { Core } from "./lay-core.ts";
import type { MomentJudge } from "./judge-moment.ts";
import type { Reached, ReachedTransient } from "./reached.ts";
import { moved } from "./settle.ts";
import type { Reach, Step, Transient } from "./study.ts";
import { forbidding, namePositions, stepOf, stepsAlong, stepsWithin } from "./tell-steps.ts";

/** Moments in which two sources meet, nearest first. */
export function transientsOf(core: Core, judge: MomentJudge, { transients, wayTo }: Reached): Transient[] {
  const stepsTo = ({ prior, before, itself, distance }: ReachedTransient): Step[] => {
    const way = prior === null ? [] : stepsAlong(core, judge, wayTo(prior, distance - 1));
    return itself ? [...way, ...stepsWithin(core, judge, prior, before)] : way;
  };
  const list = transients.map((t): Transient => {
    const mover = core.problem.movers[core.movers[t.mover]?.mover ?? -1];
    const { mover: id, from, to, by } = stepOf(core, t.mover, t.from, t.to);
    const [a, b] = t.sources.map((s) => core.problem.sources[s]?.id ?? "");
    return {
      mover: id,
      from,
      to,
      by,
      sources: [a ?? "", b ?? ""],
      certain: mover?.breaksFirst === false,
      actions: t.distance,
      steps: [...stepsTo(t), stepOf(core, t.mover, t.from, t.to)],
      before: namePositions(core, t.before),
    };
  });
  const key = (t: Transient): string => JSON.stringify([t.mover, t.from, t.to, t.sources]);
  return list.sort((a, b) => a.actions - b.actions || (key(a) < key(b) ? -1 : 1));
}

/** What is reached, and what keeps the rest away. */
export function reachOf(core: Core, reached: Reached): Reach {
  const { problem } = core;
  const { enclosed } = reached;
  const id = (i: number): string => problem.interlocks[i]?.id ?? "";
  const around = (values: Uint8Array): string[] => {
    const names = core.movers.flatMap((mover, m) =>
      Array.from({ length: mover.real }, (_, to) => forbidding(core, moved(values, [{ mover: m, to }]))).flat(),
    );
    return [...new Set(names.length > 0 ? names : problem.interlocks.map((i) => i.id))];
  };
  return {
    combinations: reached.combinations,
    reached: reached.reachedCombinations,
    forbidden: reached.forbidden.map((count, i) => ({ interlock: id(i), count })),
    enclosed:
      enclosed === null
        ? null
        : {
            count: enclosed.count,
            example: namePositions(core, enclosed.example),
            interlocks: around(enclosed.example),
          },
    never: core.movers.flatMap(({ mover }, m) => {
      const of = problem.movers[mover];
      return (of?.positions ?? []).flatMap((position, v) => {
        if (of === undefined || reached.taken[m]?.[v] !== false) return [];
        const interlocks = problem.interlocks
          .filter((i) => i.never.some((set) => set.mover === mover && set.in.includes(v)))
          .map((i) => i.id);
        return [{ mover: of.id, position, interlocks }];
      });
    }),
  };
}
