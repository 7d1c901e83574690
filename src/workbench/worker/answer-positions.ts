import { studySwitching, type StateFacts, type SwitchingProblem, type SystemSwitching } from "../../switching/index.ts";
import type { Compiled } from "../../judge.ts";
import type { System } from "../../system/index.ts";
import { drawPositions, type DrawView } from "./draw-positions.ts";
import { nameFacts, nameInterlocks, nameSteps, type OpenLeaf } from "./name-positions.ts";
import type {
  GroupRow,
  MoverRow,
  PositionAnswerOf,
  PositionAsked,
  StateAsked,
  StateAtAnswer,
  StatesAnswer,
} from "./position-answers.ts";
import { laidOutOf, standingAt, type LaidOut, type Standing } from "./standing-at.ts";
import { voltsAt } from "./volts-at.ts";
import { writtenAs } from "./written-as.ts";

/** Answers what is asked of plugs, sources and switches, and of what is live. Null: nothing in the build alternates. */
export function answerPositions(
  compiled: Compiled,
  asked: PositionAsked,
  draw: DrawView,
): PositionAnswerOf[PositionAsked["ask"]] {
  const named = laidOutOf(compiled.system);
  if (named.problem.takers.length === 0 && !named.problem.sources.some(({ kind }) => kind !== "store")) return null;
  switch (asked.ask) {
    case "state-movers":
      return { movers: moverRows(compiled.system, named), interlocks: nameInterlocks(named.problem) };
    case "state-at":
      return answerAt(compiled, named, asked);
    case "state-drawing":
      return drawPositions(compiled, named, standingAt(named, asked), draw);
    case "all-states":
      return allStates(compiled.system, named.problem);
  }
}

const studied = new WeakMap<System, SystemSwitching>();

function moverRows({ parts }: System, { problem, leaves }: LaidOut): MoverRow[] {
  const partNames = new Map(parts.map((p) => [p.id, p.name]));
  const feeding = new Set(
    problem.sources.flatMap(({ kind, gives }) => (kind === "store" || gives === null ? [] : [gives.mover])),
  );
  const making = new Set(problem.sources.flatMap(({ kind, part }) => (kind === "store" ? [] : [part])));
  const guarding = new Set(
    problem.sources.flatMap(({ kind, gives }) => (kind === "store" && gives !== null ? [gives.mover] : [])),
  );
  return problem.movers.map(({ id, name, part, by, positions, start, unclear }, m): MoverRow => {
    const leaf = leaves.find(({ mover }) => mover === m);
    const isInBoard = by === "hand" && id !== part && id.startsWith(`${part}:`);
    const what =
      by === "itself"
        ? "relay"
        : guarding.has(m)
          ? "guard"
          : isInBoard
            ? "board"
            : feeding.has(m) || (id === part && making.has(part))
              ? "supply"
              : "switch";
    return {
      id,
      name,
      about: `parts.${part}`,
      what,
      board: what === "board" ? (partNames.get(part) ?? part) : null,
      positions,
      start: positions[start] ?? "",
      unclear: unclear ?? null,
      behind: leaf === undefined ? null : leaf.takers.map((t) => problem.takers[t]?.name ?? ""),
    };
  });
}

/** What an open way of a board leaves of each taker behind it. */
function cutBy(problem: SwitchingProblem, { leaf, name }: Standing["open"][number]): OpenLeaf {
  const behind = new Set(leaf.nodes);
  return {
    name,
    takers: leaf.takers.flatMap((t) => {
      const taker = problem.takers[t];
      if (taker === undefined) return [];
      const linesLeft = taker.lines.filter((n) => !behind.has(n)).length;
      const neutral = taker.neutral === null ? "none" : behind.has(taker.neutral) ? "cut" : "left";
      return [{ taker: taker.id, linesLeft, neutral }];
    }),
  };
}

/** Positions of one group of the study have the same. */
const groupOf = ({ gives, islands, takers }: StateFacts, rests: boolean): string =>
  JSON.stringify([gives, islands, takers, rests]);

function answerAt(compiled: Compiled, laid: LaidOut, asked: StateAsked): StateAtAnswer {
  const { problem } = laid;
  const standing = standingAt(laid, asked);
  const { state, positions, refusedBy, open } = standing;
  const facts = nameFacts(
    problem,
    state,
    open.map((one) => cutBy(problem, one)),
  );
  return {
    positions,
    refusedBy: refusedBy.length === 0 ? [] : nameInterlocks(problem, refusedBy),
    follows: nameSteps(problem, state.follows),
    rests: state.rests,
    facts,
    group: groupOf(state, state.rests),
    volts: voltsAt(compiled, problem, standing, asked.on),
    written: writtenAs(compiled.system, problem, standing, asked.on),
  };
}

function allStates(system: System, problem: SwitchingProblem): StatesAnswer {
  let of = studied.get(system);
  if (of === undefined) studied.set(system, (of = studySwitching(system)));
  const { study } = of;
  const names = new Map(problem.movers.map(({ id, name }) => [id, name]));
  const sources = new Map(problem.sources.map(({ id, name }) => [id, name]));
  return {
    groups: study.groups.map((group): GroupRow => {
      const facts = nameFacts(problem, group, []);
      return {
        number: group.number,
        group: groupOf(group, group.rests),
        rests: group.rests,
        facts,
        positions: group.example,
        actions: group.actions,
        steps: nameSteps(problem, group.steps),
        undisconnected: group.undisconnected.filter(({ outside }) => !outside).length,
      };
    }),
    combinations: study.reach.combinations,
    reached: study.reach.reached,
    untold:
      study.tooLarge !== null
        ? `The build is too large to follow every position: ${study.tooLarge.tooLarge} over ${study.tooLarge.limit}. Each position that you set is still worked out.`
        : study.startForbiddenBy.length > 0
          ? `Interlocks forbid everything off, where every way begins: ${study.startForbiddenBy.join(", ")}.`
          : null,
    moments: study.transients.map(({ mover, from, to, certain, sources: [a, b] }) => ({
      mover: names.get(mover) ?? mover,
      from,
      to,
      certain,
      sources: [sources.get(a) ?? a, sources.get(b) ?? b],
    })),
    never: study.reach.never.map(({ mover, position }) => ({ mover: names.get(mover) ?? mover, position })),
  };
}
