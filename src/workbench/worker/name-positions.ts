import type { StateFacts, Step, SwitchingProblem } from "../../switching/index.ts";
import type { InterlockRow, NamedFacts, NamedTaker, Positions } from "./position-answers.ts";

type Named = readonly { readonly id: string; readonly name: string; readonly part: string }[];

/** What people call each of some things, by id. */
const namesOf = (list: Named): ((id: string) => string) => {
  const names = new Map(list.map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
};

/** A way of a board that stands open, and what of each taker it cuts. */
export interface OpenLeaf {
  readonly name: string;
  readonly takers: readonly {
    readonly taker: string;
    readonly linesLeft: number;
    readonly neutral: "cut" | "left" | "none";
  }[];
}

/** Puts names in place of ids, and takes what open ways of boards cut off from takers, which the study leaves out. */
export function nameFacts(problem: SwitchingProblem, facts: StateFacts, open: readonly OpenLeaf[]): NamedFacts {
  const source = namesOf(problem.sources);
  const sources = (ids: readonly string[]): string[] => ids.map(source);
  const pair = <T extends { readonly sources: readonly [string, string] }>(of: T): T => ({
    ...of,
    sources: [source(of.sources[0]), source(of.sources[1])],
  });
  const guard = namesOf(problem.guards);
  const taker = namesOf(problem.takers);
  const join = namesOf(problem.joins);
  const takers = new Map(problem.takers.map((t) => [t.id, t]));
  return {
    gives: sources(facts.gives),
    islands: facts.islands.map(({ sources: ids, hasNeutral, joins, joinsLow, joinsHigh }) => ({
      sources: sources(ids),
      hasNeutral,
      joinsLow,
      joinsHigh,
      joins: joins.map((j) => ({
        ...j,
        name: j.where === "aboard" ? join(j.id) : source(j.id),
        about: `parts.${j.part}`,
      })),
    })),
    parallel: facts.parallel.map(pair),
    commonNeutral: facts.commonNeutral.map(pair),
    livePins: facts.livePins.map(({ source: id, from }) => ({ source: source(id), from: sources(from) })),
    adds: facts.adds.map(({ source: id, to, certain }) => ({ source: source(id), to: sources(to), certain })),
    neutralsMeet: facts.neutralsMeet.map(({ guards: [a, b] }) => ({ guards: [guard(a), guard(b)] })),
    ownCharge: facts.ownCharge.map(({ charger, inverter }) => ({
      charger: taker(charger),
      inverter: source(inverter),
    })),
    takers: facts.takers.map(({ taker: id, ...state }): NamedTaker => {
      const of = takers.get(id);
      const cuts = open.flatMap(({ name, takers: cut }) =>
        cut.filter((c) => c.taker === id).map((c) => ({ ...c, name })),
      );
      const named = {
        ...state,
        name: of?.name ?? id,
        about: `parts.${of?.part ?? id}`,
        kind: of?.kind ?? ("load" as const),
        sources: sources(state.sources),
        guards: state.guards.map((g) => ({ ...g, guard: guard(g.guard) })),
        cutBy: cuts.map(({ name }) => name),
      };
      return cuts.length === 0 || state.state === "dead" ? named : { ...named, ...cutOff(cuts) };
    }),
  };
}

/** What is left of a taker behind ways that stand open. */
function cutOff(cuts: readonly { readonly linesLeft: number; readonly neutral: "cut" | "left" | "none" }[]) {
  const lines = Math.min(...cuts.map(({ linesLeft }) => linesLeft));
  if (lines === 0) return { state: "dead", sources: [], earth: "dead", guards: [] } as const;
  return { state: cuts.some(({ neutral }) => neutral === "cut") ? "no neutral" : "half" } as const;
}

/** Moves with the names of what moves. */
export const nameSteps = ({ movers }: SwitchingProblem, steps: readonly Step[]): Step[] => {
  const mover = namesOf(movers);
  return steps.map((step) => ({ ...step, mover: mover(step.mover) }));
};

/** Interlocks in words; one by its id, else all. */
export const nameInterlocks = (problem: SwitchingProblem, ids: readonly string[] | null = null): InterlockRow[] =>
  problem.interlocks
    .filter(({ id }) => ids === null || ids.includes(id))
    .map(({ name, never }) => ({
      name,
      never: never.map(({ mover, in: at }) => {
        const of = problem.movers[mover];
        return `${of?.name ?? ""} ${at.map((p) => of?.positions[p] ?? "").join(" or ")}`;
      }),
    }));

/** Where a mover stands; when nothing is said of it, as when all is off. */
export function standsAt({ id, positions, start }: SwitchingProblem["movers"][number], asked: Positions): string {
  const said = Object.hasOwn(asked, id) ? asked[id] : undefined;
  return said !== undefined && positions.includes(said) ? said : (positions[start] ?? "");
}
