import { judgeMoments } from "./judge-moment.ts";
import { layCore, MOST_SOURCES, type Core, type CoreSource } from "./lay-core.ts";
import type { SwitchingProblem } from "./problem.ts";
import { settle } from "./settle.ts";
import { stateFacts } from "./state-facts.ts";
import type { Positions, StateFacts, Step } from "./study.ts";
import { forbidding, namePositions, stepOf } from "./tell-steps.ts";
import { rootOf } from "./union-find.ts";

/** One state that somebody asks for. */
export interface StateAt extends StateFacts {
  /** Where everything stands once it rests. */
  readonly positions: Positions;
  /** What moved by itself. */
  readonly follows: readonly Step[];
  readonly rests: boolean;
  /** Interlocks that forbid the positions as they were asked for. */
  readonly forbiddenBy: readonly string[];
  /** What is told not to give and may give: with its battery off, solar or an engine alone may keep it up. What it feeds is not to be taken as dead. */
  readonly mayGive: readonly MayGive[];
}

export interface MayGive {
  readonly source: string;
  /** Parts that may keep it up. */
  readonly by: readonly string[];
  /** Takers that are told dead and would be fed. */
  readonly takers: readonly string[];
}

/**
 * Tells what holds when everything stands as it is asked for, and what has moved by itself has come to rest.
 *
 * Does not ask whether these positions are ever come to; switches with only takers behind them are taken as on.
 *
 * @param positions by mover; one that is not named, or by a name that it has not, stands as when everything is off
 */
export function stateAt(problem: SwitchingProblem, positions: Positions): StateAt {
  const core = layCore(problem);
  const judge = judgeMoments(core);
  const asked = Uint8Array.from(core.movers, ({ mover, start }) => {
    const of = problem.movers[mover];
    const named = Object.hasOwn(positions, of?.id ?? "") ? positions[of?.id ?? ""] : undefined;
    const at = of?.positions.indexOf(named ?? "") ?? -1;
    return at < 0 ? start : at;
  });
  const { path, rests } = settle(core, judge, asked);
  const values = path.at(-1)?.values ?? asked;
  const facts = stateFacts(core, judge.look(values));
  return {
    positions: namePositions(core, values),
    follows: path.flatMap(({ moves }) => moves.map((m) => stepOf(core, m.mover, m.from, m.to, m.after))),
    rests,
    forbiddenBy: forbidding(core, asked),
    ...facts,
    mayGive: mayGiveIn(core, asked, facts),
  };
}

/** Looks once more as if all that stands aside gave. */
function mayGiveIn(core: Core, asked: Uint8Array, { gives, takers }: StateFacts): MayGive[] {
  // A charger that has no supply keeps up nothing.
  const unfed = new Set(takers.filter(({ state }) => state === "dead").map(({ taker }) => `${taker}:direct`));
  const aside = (core.problem.aside ?? []).filter(({ id }) => !unfed.has(id));
  if (aside.length === 0 || core.sources.length + aside.length > MOST_SOURCES) return [];
  const at = (node: number | null): number => (node === null ? -1 : (core.nodeOf[node] ?? -1));
  const makers = aside.map((s): CoreSource => ({
    lines: s.lines.map((l) => at(l.node)),
    neutral: at(s.neutral),
    earth: -1,
    fedBy: [],
    gives: { mover: -1, mask: 0 },
    alternating: false,
    part: s.part,
  }));
  const with_: Core = {
    ...core,
    problem: { ...core.problem, sources: [...core.problem.sources, ...aside] },
    sources: [...core.sources, ...makers],
  };
  const judge = judgeMoments(with_);
  const { path } = settle(with_, judge, asked);
  const moment = judge.look(path.at(-1)?.values ?? asked);
  const would = stateFacts(with_, moment);
  return core.problem.sources.flatMap((source): MayGive[] => {
    if (gives.includes(source.id) || !would.gives.includes(source.id) || source.direct === null) return [];
    const on = rootOf(moment.joined, at(source.direct.plus));
    // Nothing keeps itself up, though an inverter that also charges makes direct current where it takes it.
    const by = makers.flatMap((m) =>
      m.part !== source.part && m.lines.some((n) => rootOf(moment.joined, n) === on) ? [m.part] : [],
    );
    if (by.length === 0) return [];
    const fed = would.takers.filter((t, i) => t.sources.includes(source.id) && takers[i]?.state === "dead");
    return [{ source: source.id, by: [...new Set(by)], takers: fed.map((t) => t.taker) }];
  });
}
