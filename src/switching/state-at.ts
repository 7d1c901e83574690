import { judgeMoments } from "./judge-moment.ts";
import { layCore } from "./lay-core.ts";
import type { SwitchingProblem } from "./problem.ts";
import { settle } from "./settle.ts";
import { stateFacts } from "./state-facts.ts";
import type { Positions, StateFacts, Step } from "./study.ts";
import { forbidding, namePositions, stepOf } from "./tell-steps.ts";

/** One state that somebody asks for. */
export interface StateAt extends StateFacts {
  /** Where everything stands once it rests. */
  readonly positions: Positions;
  /** What moved by itself. */
  readonly follows: readonly Step[];
  readonly rests: boolean;
  /** Interlocks that forbid the positions as they were asked for. */
  readonly forbiddenBy: readonly string[];
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
  return {
    positions: namePositions(core, values),
    follows: path.flatMap(({ moves }) => moves.map((m) => stepOf(core, m.mover, m.from, m.to, m.after))),
    rests,
    forbiddenBy: forbidding(core, asked),
    ...stateFacts(core, judge.look(values)),
  };
}
