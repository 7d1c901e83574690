import { layCore } from "../../switching/lay-core.ts";
import { problemOf, stateAt, type NamedProblem, type StateAt, type SwitchingProblem } from "../../switching/index.ts";
import type { System } from "../../system/index.ts";
import { standsAt } from "./name-positions.ts";
import type { Positions, StateAsked } from "./position-answers.ts";

/** What a system is to the study of positions, with the switches that have only takers behind them. */
export interface LaidOut extends NamedProblem {
  readonly leaves: readonly {
    readonly mover: number;
    readonly takers: readonly number[];
    readonly nodes: readonly number[];
  }[];
}

const laidOut = new WeakMap<System, LaidOut>();

/** Lays a system out once. Ways with only takers behind them start closed, as boards stand. */
export function laidOutOf(system: System): LaidOut {
  let laid = laidOut.get(system);
  if (laid === undefined) {
    const named = problemOf(system);
    const { problem } = named;
    const { leaves } = layCore(problem).sorted;
    const closedIn = new Map(
      problem.contacts.flatMap(({ closed }) => (closed === null ? [] : [[closed.mover, closed.in[0] ?? 0] as const])),
    );
    const isLeaf = new Set(leaves.map(({ mover }) => mover));
    const names = new Map(system.parts.map(({ id, name }) => [id, name]));
    const movers = problem.movers.map((mover, m) => ({
      ...mover,
      name: calledIn(mover, names.get(mover.part) ?? mover.part),
      start: isLeaf.has(m) ? (closedIn.get(m) ?? mover.start) : mover.start,
    }));
    laidOut.set(system, (laid = { ...named, problem: { ...problem, movers }, leaves }));
  }
  return laid;
}

/** `consumer unit main`, `LC way 3`, `INV relay`: a mover of a part by what people call both. */
function calledIn({ id, name, part, by }: SwitchingProblem["movers"][number], partName: string): string {
  if (id === part || !id.startsWith(`${part}:`)) return name.replace(":", " ");
  const own = id.slice(part.length + 1);
  return `${partName} ${by === "hand" && /^[\d.]+$/.test(own) ? `way ${own}` : own.replace(":", " ")}`;
}

/** What holds after the move, or, where it is forbidden, without it. */
export interface Standing {
  readonly state: StateAt;
  /** Of every mover. */
  readonly positions: Positions;
  readonly refusedBy: readonly string[];
  readonly open: readonly { readonly leaf: LaidOut["leaves"][number]; readonly name: string }[];
}

/** Does a move, unless an interlock forbids where it leads. */
export function standingAt(laid: LaidOut, { positions, move }: StateAsked): Standing {
  const { problem, leaves } = laid;
  const asked = move === null ? positions : { ...positions, [move.mover]: move.to };
  const first = stateAt(problem, asked);
  const isRefused = move !== null && first.forbiddenBy.length > 0;
  const state = isRefused ? stateAt(problem, positions) : first;
  const said = isRefused ? positions : asked;
  const all = Object.fromEntries(
    problem.movers.map((mover) => [
      mover.id,
      Object.hasOwn(state.positions, mover.id) ? (state.positions[mover.id] ?? "") : standsAt(mover, said),
    ]),
  );
  const open = leaves.flatMap((leaf) => {
    const mover = problem.movers[leaf.mover];
    const at = mover?.positions.indexOf(all[mover.id] ?? "") ?? -1;
    const isClosed = problem.contacts.every(({ closed }) => closed?.mover !== leaf.mover || closed.in.includes(at));
    return isClosed || mover === undefined ? [] : [{ leaf, name: mover.name }];
  });
  return { state, positions: all, refusedBy: isRefused ? first.forbiddenBy : [], open };
}
