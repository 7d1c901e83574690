import {
  sayMover,
  saySteps,
  sayState,
  studySwitching,
  type Island,
  type SwitchingGroup,
  type SystemSwitching,
} from "../switching/index.ts";
import type { Built } from "./built.ts";
import type { Explanation, WorkedSection } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { ofPart } from "./leans-on.ts";
import { figure, taken } from "./work.ts";

const SUBJECT = "earth";
const QUESTION = "Where does neutral meet earth?";

/** Where the neutral of what is live meets earth, in every state of the switches that differs in it, and why there. */
export function explainEarth(built: Built): Explanation {
  const switching = studySwitching(built.system);
  const { problem, study } = switching;
  if (!built.system.circuits.some((c) => c.current === "AC"))
    return finish(built, emptyExplanation(SUBJECT, QUESTION, "Nothing alternates in this plan."), []);
  if (study.tooLarge !== null || study.startForbiddenBy.length > 0) {
    const why = study.tooLarge === null ? `${study.startForbiddenBy.join(" and ")} forbids everything off` : "its switches have more states than can be followed"; // prettier-ignore
    return finish(built, emptyExplanation(SUBJECT, QUESTION, `That cannot be told: ${why}.`), []);
  }
  const alike = alikeStates(switching);
  const sections = alike.map((states) => sectionOf(built, switching, states));
  const parts = new Set(alike.flatMap(([s]) => s.islands.flatMap((i) => i.joins.map((j) => j.part))));
  const unlike = alike.filter(([s]) => !s.islands.every(isOnce));
  const answer =
    alike.length === 0
      ? "No state of this plan makes anything alternate."
      : `${alike.length === 1 ? "One case differs" : `${alike.length} cases differ`} in where neutral meets earth; ${unlike.length === 0 ? "in each it meets earth once, as it has to." : `in ${unlike.length} of them some neutral does not meet earth just once.`}`;
  return finish(
    built,
    {
      ...emptyExplanation(SUBJECT, QUESTION, answer),
      figures: [figure("cases", alike.length, "")],
      sections,
      cautions: [
        ...study.unclear.map(({ mover, says }) => `Not clear of ${sayMover(mover)}: ${says}.`),
        "This is how the plan means it: a relay that sticks or a wire on the wrong bar makes states that stand nowhere here. A licensed electrician and the local code decide.",
      ],
      further: problem.sources.filter((s) => s.kind !== "store").map((s) => s.part),
    },
    [...parts].map((part) => {
      const thing = ofPart(part);
      return { ...thing, keys: [...thing.keys, "bonded", "earthing", "neutral", "relay"] };
    }),
  );
}

const isOnce = ({ hasNeutral, joinsLow, joinsHigh }: Island): boolean =>
  !hasNeutral || (joinsLow === 1 && joinsHigh === 1);

/** States with the same sources and the same joins together, the nearest first; those in which nothing gives are left out. */
function alikeStates({ study }: SystemSwitching): (readonly [SwitchingGroup, ...SwitchingGroup[]])[] {
  const found = new Map<string, [SwitchingGroup, ...SwitchingGroup[]]>();
  for (const group of study.groups) {
    if (group.islands.length === 0 || !group.rests) continue;
    const key = JSON.stringify(
      group.islands.map(({ sources, hasNeutral, joins }) => [
        sources,
        hasNeutral,
        joins.map((j) => [j.id, j.where, j.certain]),
      ]),
    );
    const list = found.get(key);
    if (list === undefined) found.set(key, [group]);
    else list.push(group);
  }
  return [...found.values()];
}

function sectionOf(
  built: Built,
  { problem }: SystemSwitching,
  [state, ...others]: readonly [SwitchingGroup, ...SwitchingGroup[]],
): WorkedSection {
  const positions = [state, ...others].reduce((sum, g) => sum + g.count, 0);
  return {
    title: sayState(problem, state),
    says: `${saySteps(state.steps)}: ${state.islands.map((island) => islandSays(built, problem, island, state)).join("; ")}`,
    steps: [
      taken("positions of switches in which it is so", positions, "", "every position followed"),
      ...(others.length === 0
        ? []
        : [taken("states that differ elsewhere only", others.length + 1, "", "every position followed")]),
    ],
    way: [],
  };
}

function islandSays(built: Built, problem: SystemSwitching["problem"], island: Island, state: SwitchingGroup): string {
  const sources = [...new Set(island.sources.map((id) => problem.sources.find((one) => one.id === id)?.part ?? id))];
  const { hasNeutral, joins, joinsLow, joinsHigh } = island;
  const whose = `the neutral of ${sources.join(" and ")}`;
  if (!hasNeutral) return `${sources.join(" and ")} has no neutral`;
  if (joinsHigh === 0) return `${whose} meets earth nowhere: a first fault drives no current, and nothing opens`;
  const places = joins.map((j) => placeSays(built, j, state)).join(", and ");
  const meets = `${whose} meets earth ${places}`;
  if (joinsLow !== joinsHigh) return `${meets}: ${joinsLow} to ${joinsHigh} times, as far as is said`;
  return joinsHigh === 1 ? meets : `${meets}: ${joinsHigh} times, so that part of what neutral carries goes by earth`;
}

/** Where a join is, and what closes it. */
function placeSays(
  { system }: Built,
  { id, part, where, certain }: Island["joins"][number],
  state: SwitchingGroup,
): string {
  const sure = certain ? "" : " perhaps";
  if (where === "ashore") return `ashore, ahead of ${part},${sure} as its supply has it`;
  const element = system.elements.find((e) => e.is === "earth join" && e.id === id);
  if (element?.is !== "earth join")
    return where === "inside" ? `inside ${part}${sure}, by its make` : `at ${id}${sure}, which is always joined`;
  const { closedIn, mover = part } = element;
  if (closedIn === "unknown") return `perhaps at ${id}: nobody says when it is closed`;
  if (closedIn === undefined) return `at ${id}${sure}, which is always joined`;
  const at = state.example[mover];
  return `at ${id}${sure}, closed while ${sayMover(mover)} is at ${closedIn.join(" or ")}${at === undefined ? "" : ` (now ${at})`}`;
}
