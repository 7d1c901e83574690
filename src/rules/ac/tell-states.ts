import { saySteps, sayState, type Step, type SwitchingGroup } from "../../switching/index.ts";
import type { Build, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed, type Report, type Said } from "../report.ts";
import { isFed, sourcesOf, takersOf } from "./fed.ts";
import { alternatingSupply, doubtsOf, statesOf, switchingOf } from "./switching-of.ts";

/** Further states in which the same is found are listed; past these they tell nothing new. */
const MOST_STATES = 8;

/** What is found of one thing in one state. */
export interface StateFault<Message extends string> {
  readonly message: Message;
  readonly state: SwitchingGroup;
  readonly said?: Said;
  /** What takes there: switches with takers alone behind them count as on in a state, and the way to it lacks the move of its own. */
  readonly taker?: string;
}

/** All that is found of one thing. */
export interface StateVerdict<Message extends string> {
  readonly subject: Subject;
  /** Nearest state first. */
  readonly faults: StateFault<Message>[];
  /** Facts without which it is open in some state. */
  readonly needs: Needed[];
  /** Why it is not asked. */
  exempt: string | null;
}

/** Starts the verdict on a thing. */
export const verdictOn = <Message extends string>(subject: Subject): StateVerdict<Message> => ({
  subject,
  faults: [],
  needs: [],
  exempt: null,
});

/** Tells the outcome of each thing: what fails in one state fails, whatever is not known of others; what passes passes only where every state is known, and where one of them feeds it. */
export function tellStates<Message extends string>(
  build: Build,
  report: Report<Message>,
  verdicts: Iterable<StateVerdict<Message>>,
): void {
  const { problem } = switchingOf(build);
  const own = leavesOf(build);
  const doubts = doubtsOf(build);
  const dead = deadParts(build);
  for (const { subject, faults, needs, exempt } of verdicts) {
    if (faults.length > 0) {
      const states = new Set<string>();
      for (const { message, state, said, taker } of faults) {
        const name = sayState(problem, state);
        if (states.has(name) || states.size >= MOST_STATES) continue;
        states.add(name);
        const ofTaker = own.get(taker ?? "") ?? [];
        const words = { steps: saySteps([...state.steps, ...ofTaker]), ...said?.words };
        const positions = { ...state.example, ...Object.fromEntries(ofTaker.map(({ mover, to }) => [mover, to])) };
        report.fail(subject, message, { ...said, state: name, positions, words });
      }
    } else if (needs.length > 0) report.cannotTell(subject, once(needs));
    else if (exempt !== null) report.notApplicable(subject, exempt);
    else if (doubts.length > 0) report.cannotTell(subject, doubts);
    else if (dead.has(subject.path)) report.cannotTell(subject, [needed("what feeds it in any state", subject)]);
    else report.pass(subject);
  }
}

/** Parts with a source that gives, or a taker that is fed, in no state at all: nothing is known of them while they are in use. */
function deadParts(build: Build): ReadonlySet<string> {
  const takers = takersOf(build);
  const alive = new Set<string>();
  for (const state of statesOf(build)) {
    for (const id of state.gives) alive.add(id);
    for (const at of state.takers) if (isFed(at, takers.get(at.taker))) alive.add(at.taker);
  }
  const all = [...sourcesOf(build).values(), ...takers.values()];
  return new Set(all.flatMap(({ id, part }) => (alive.has(id) ? [] : [`parts.${part}`])));
}

/** By taker the moves that close the switches before it and nothing else. */
function leavesOf(build: Build): ReadonlyMap<string, readonly Step[]> {
  const { problem, study } = switchingOf(build);
  const found = new Map<string, Step[]>();
  for (const { mover, takers } of study.leaves) {
    const at = problem.movers.findIndex((m) => m.id === mover);
    const of = problem.movers[at];
    const closed = problem.contacts.find(({ closed: when }) => when?.mover === at)?.closed?.in[0];
    if (of === undefined || closed === undefined || closed === of.start) continue;
    const step: Step = { mover, from: of.positions[of.start] ?? "", to: of.positions[closed] ?? "", by: of.by };
    for (const taker of takers) found.set(taker, [...(found.get(taker) ?? []), step]);
  }
  return found;
}

/** Whether anything alternates; where nothing does, the rule says so of the plan. */
export function alternates(build: Build, report: Report): boolean {
  const is = alternatingSupply(build) !== undefined && build.circuits.some((c) => c.circuit.current === "AC");
  if (!is) report.notApplicable(build.whole, "nothing alternates");
  return is;
}

const once = (needs: readonly Needed[]): readonly Needed[] => [
  ...new Map(needs.map((n) => [`${n.about} ${n.fact}`, n])).values(),
];
