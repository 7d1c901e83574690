import type { Finding, NotApplicable } from "../../rules/index.ts";
import {
  saySteps,
  sayState,
  type SwitchingGroup,
  type SwitchingProblem,
  type SwitchingStudy,
  type SystemSwitching,
  type Transient,
} from "../../switching/index.ts";
import { byGrade, dangersOfGroup, type JoinVerdict, type StateDanger } from "./dangers.ts";
import { moverName, namesOf, type ThingNames } from "./thing-names.ts";

/** A state as people are told of it. */
export interface ToldState {
  /** Place in the list, from 1. */
  readonly number: number;
  /** As findings call it, such as `INL in, TS at shore`; states that differ elsewhere share a name. */
  readonly name: string;
  /** The steps as one phrase. */
  readonly way: string;
  /** What is done to get there from everything off, and what follows by itself, in order. */
  readonly steps: readonly string[];
  /** Fewest actions. */
  readonly actions: number;
  /** Combinations of positions that belong to it. */
  readonly positions: number;
  /** Sources that give. */
  readonly gives: readonly string[];
  /** Sources whose metal is joined, and what they feed. */
  readonly feeds: readonly { readonly sources: readonly string[]; readonly takers: readonly string[] }[];
  /** Loads and chargers that nothing feeds. */
  readonly dead: readonly string[];
  readonly joins: readonly ToldJoins[];
  readonly dangers: readonly StateDanger[];
}

/** Where the neutral of some sources meets earth. */
export interface ToldJoins {
  readonly sources: readonly string[];
  /** False: there is none that could meet earth. */
  readonly hasNeutral: boolean;
  /** How many places there are at least and at most. */
  readonly low: number;
  readonly high: number;
  readonly places: readonly {
    readonly join: string;
    readonly where: "aboard" | "inside" | "ashore";
    readonly certain: boolean;
  }[];
}

/** A moment in which two sources meet while a switch moves. */
export interface ToldMoment {
  readonly says: string;
  readonly certain: boolean;
}

/** The states of an alternating side, in words and plain data. */
export interface ToldStates {
  readonly states: readonly ToldState[];
  readonly moments: readonly ToldMoment[];
  readonly combinations: number;
  readonly reached: number;
  /** What keeps the other combinations away. */
  readonly forbidden: readonly { readonly interlock: string; readonly count: number }[];
  /** Combinations that are allowed and that no way leads to; null: there are none. */
  readonly enclosed: {
    readonly count: number;
    /** One of them, in words. */
    readonly example: string;
    readonly interlocks: readonly string[];
  } | null;
  readonly never: readonly {
    readonly mover: string;
    readonly position: string;
    readonly interlocks: readonly string[];
  }[];
  /** Switches, plugs and relays of which every position was followed. */
  readonly movers: readonly string[];
  /** Switches that only turn single loads on and off. */
  readonly leaves: readonly string[];
  /** What moves and touches nothing alternating. */
  readonly idle: readonly string[];
  /** What nobody says of how something moves, a sentence each. */
  readonly unclear: readonly string[];
  /** Why nothing is told; null: everything is. */
  readonly untold: string | null;
}

/**
 * Puts the study of positions into words.
 *
 * @param findings what the rules found; those that name a state stand with it
 * @param spared where rules do not apply, and why: what a rule set lets be so is no danger
 */
export function tellStates(
  { study, problem }: Pick<SystemSwitching, "study" | "problem">,
  findings: readonly Finding[],
  spared: readonly NotApplicable[] = [],
): ToldStates {
  const names = namesOf(problem);
  const joins = joinVerdicts(problem, findings, spared);
  const { groups, reach, transients, movers, leaves, idle, unclear } = study;
  return {
    states: groups.map((group) => tellGroup(group, problem, foundIn(group, study, problem, findings), joins)),
    moments: transients.map((t) => tellMoment(t, names)),
    combinations: reach.combinations,
    reached: reach.reached,
    forbidden: reach.forbidden,
    enclosed:
      reach.enclosed === null
        ? null
        : {
            count: reach.enclosed.count,
            example: sayPositions(reach.enclosed.example),
            interlocks: reach.enclosed.interlocks,
          },
    never: reach.never.map((n) => ({ ...n, mover: moverName(n.mover) })),
    movers: movers.map(moverName),
    leaves: leaves.map(({ mover }) => moverName(mover)),
    idle: idle.map(moverName),
    unclear: unclear.map(({ mover, says }) => `${moverName(mover)}: ${says}`),
    untold: untoldOf(study),
  };
}

/** `TS shore, INL in`. */
const sayPositions = (positions: Readonly<Record<string, string>>): string =>
  Object.entries(positions)
    .map(([mover, position]) => `${moverName(mover)} ${position}`)
    .join(", ");

function untoldOf({ tooLarge, startForbiddenBy }: SwitchingStudy): string | null {
  if (tooLarge !== null)
    return `the build has more ${tooLarge.tooLarge} than are followed: ${tooLarge.count}, of at most ${tooLarge.limit}; say with \`interlocks:\` what never stands together, or plan one board at a time`;
  if (startForbiddenBy.length === 0) return null;
  return `everything off, from where all ways begin, is forbidden by ${startForbiddenBy.join(", ")}`;
}

/** Findings of a state: those that call it by its name, and where several states have that name, the one whose way they tell. */
function foundIn(
  group: SwitchingGroup,
  { groups }: SwitchingStudy,
  problem: SwitchingProblem,
  findings: readonly Finding[],
): Finding[] {
  const name = sayState(problem, group);
  const called = findings.filter((f) => f.state === name || f.alsoIn.includes(name));
  if (called.length === 0) return [];
  const ways = groups.filter((g) => sayState(problem, g) === name).map((g) => saySteps(g.steps));
  const own = saySteps(group.steps);
  const tells = ({ because }: Finding, way: string): boolean => because.endsWith(`: ${way}`);
  return called.filter((f) => tells(f, own) || !ways.some((way) => tells(f, way)));
}

const JOIN_RULE = "ac/missing-neutral-earth-join";

/** What the rule of joins says of a source, so that a state says no other thing of it. */
function joinVerdicts(
  { sources }: SwitchingProblem,
  findings: readonly Finding[],
  spared: readonly NotApplicable[],
): (source: string) => JoinVerdict | null {
  return (source) => {
    const about = `parts.${sources.find(({ id }) => id === source)?.part ?? ""}`;
    const finding = findings.find((f) => f.rule === JOIN_RULE && f.about === about);
    if (finding !== undefined) return { grade: finding.outcome === "fail" ? finding.severity : "unknown" };
    const none = spared.find((n) => n.rule === JOIN_RULE && n.about.includes(about));
    return none === undefined ? null : { spared: none.reason };
  };
}

function tellGroup(
  group: SwitchingGroup,
  problem: SwitchingProblem,
  findings: readonly Finding[],
  joins: (source: string) => JoinVerdict | null,
): ToldState {
  const names = namesOf(problem);
  const name = sayState(problem, group);
  const found = findings.flatMap((f): StateDanger[] => {
    return [{ grade: f.outcome === "fail" ? f.severity : "unknown", says: `${f.about}: ${f.because}`, rule: f.rule }];
  });
  return {
    number: group.number,
    name,
    way: saySteps(group.steps),
    steps: group.steps.map((step) => saySteps([step])),
    actions: group.actions,
    positions: group.count,
    gives: group.gives.map(names.source),
    feeds: feedsOf(group, names),
    dead: group.takers.filter(({ sources }) => sources.length === 0).map(({ taker }) => names.taker(taker)),
    joins: group.islands.map(({ sources, hasNeutral, joinsLow, joinsHigh, joins }) => ({
      sources: sources.map(names.source),
      hasNeutral,
      low: joinsLow,
      high: joinsHigh,
      places: joins.map(({ id, where, certain }) => ({ join: names.join(id), where, certain })),
    })),
    dangers: byGrade([...found, ...dangersOfGroup(group, names, found, joins)]),
  };
}

function feedsOf({ takers }: Pick<SwitchingGroup, "takers">, names: ThingNames): ToldState["feeds"] {
  const feeds = new Map<string, { sources: readonly string[]; takers: string[] }>();
  for (const { taker, sources } of takers) {
    if (sources.length === 0) continue;
    const key = JSON.stringify(sources);
    const known = feeds.get(key);
    if (known === undefined) feeds.set(key, { sources: sources.map(names.source), takers: [names.taker(taker)] });
    else known.takers.push(names.taker(taker));
  }
  return [...feeds.values()];
}

function tellMoment({ mover, from, to, sources, certain }: Transient, names: ThingNames): ToldMoment {
  const [name, who] = [moverName(mover), sources.map(names.source).join(" and ")];
  return {
    says: certain
      ? `${name} makes ${to} before it breaks ${from}: ${who} meet for a moment`
      : `nobody says that ${name} breaks ${from} before it makes ${to}: ${who} may meet for a moment`,
    certain,
  };
}
