import type { Leaf } from "./find-leaves.ts";
import { gatherPositions } from "./gather-positions.ts";
import { judgeMoments, type MomentJudge } from "./judge-moment.ts";
import { layCore, MOST_SOURCES, MOST_VALUES, type Core } from "./lay-core.ts";
import type { SwitchingLimits, SwitchingProblem } from "./problem.ts";
import type { Reached, ReachedGroup, TooLarge } from "./reached.ts";
import { stateFacts } from "./state-facts.ts";
import type { LeafSwitch, Reach, SwitchingGroup, SwitchingStudy } from "./study.ts";
import { reachOf, transientsOf } from "./tell-reach.ts";
import { forbidding, namePositions, stepsAlong } from "./tell-steps.ts";
import { undisconnected } from "./undisconnected.ts";
import { combinationsOf, walkPositions } from "./walk-positions.ts";

/**
 * Finds every state that a build gets into, by single actions from everything off, and tells in plain data what holds in each group of states that do not
 * differ electrically.
 *
 * Ignores what the metal between two switches does while it leads nowhere, contacts that weld or bounce, and hands that act while something is still
 * moving by itself.
 *
 * @param limits how large it may grow; beyond, the study says so in `tooLarge` and tells nothing else
 * @returns the same groups whichever way they were found
 * @example
 * const two = (id, node) => ({ id, name: id, part: id, kind: "shore", lines: [{ node, angle: 0 }], neutral: null, earth: null, fedBy: [],
 *   gives: null, joined: false, joinStays: false, addsToSupply: false, passes: false, direct: null });
 * const sw = (id) => ({ id, name: id, part: id, by: "hand", positions: ["off", "on"], start: 0, rules: [] });
 * const study = studyProblem({ nodes: ["a", "b", "bus"].map((name) => ({ name, does: "line" })), metal: [], movers: [sw("S1"), sw("S2")],
 *   contacts: [0, 1].map((m) => ({ id: "", part: "", a: m, b: 2, closed: { mover: m, in: [1] } })),
 *   sources: [two("A", 0), two("B", 1)], joins: [], guards: [], interlocks: [],
 *   takers: [{ id: "lamp", name: "lamp", part: "lamp", kind: "load", lines: [2], neutral: null, earth: null, takes: null, direct: null }] });
 * study.groups.map((g) => g.actions) //=> [0, 1, 1, 2]
 * study.groups[3].parallel //=> [{ sources: ["A", "B"], lawful: false }]
 */
export function studyProblem(problem: SwitchingProblem, limits: SwitchingLimits = {}): SwitchingStudy {
  if (problem.sources.length > MOST_SOURCES) return tooLarge(problem, "sources", MOST_SOURCES, problem.sources.length);
  const positions = Math.max(0, ...problem.movers.map((m) => m.positions.length));
  if (positions > MOST_VALUES) return tooLarge(problem, "positions", MOST_VALUES, positions);
  const core = layCore(problem);
  const groups = limits.groups ?? 2000;
  const each = combinationsOf(core, () => true) <= (limits.combinations ?? 65_536);
  const reached = each
    ? walkPositions(core, groups)
    : gatherPositions(core, { nodes: limits.diagramNodes ?? 300_000, groups });
  const how = each ? "each combination" : "decision diagram";
  const judge = judgeMoments(core);
  const start = Uint8Array.from(core.movers, (m) => m.start);
  const common = commonOf(core);
  if ("tooLarge" in reached) return { ...NOTHING_TOLD, ...common, how, tooLarge: reached };
  return {
    ...common,
    how,
    tooLarge: null,
    startForbiddenBy: forbidding(core, start),
    groups: groupsOf(core, judge, reached),
    transients: transientsOf(core, judge, reached),
    reach: reachOf(core, reached),
  };
}

const NO_REACH: Reach = { combinations: 0, reached: 0, forbidden: [], enclosed: null, never: [] };
const NOTHING_TOLD = { startForbiddenBy: [], groups: [], transients: [], reach: NO_REACH } as const;

function tooLarge(problem: SwitchingProblem, what: TooLarge["tooLarge"], limit: number, count: number): SwitchingStudy {
  return {
    ...NOTHING_TOLD,
    how: "decision diagram",
    tooLarge: { tooLarge: what, limit, count },
    leaves: [],
    idle: [],
    movers: problem.movers.map((m) => m.id),
    unclear: [],
  };
}

function commonOf(core: Core): Pick<SwitchingStudy, "leaves" | "movers" | "idle" | "unclear"> {
  const { problem, sorted } = core;
  const id = (m: number): string => problem.movers[m]?.id ?? "";
  return {
    leaves: sorted.leaves.map((leaf) => describeLeaf(problem, leaf)),
    movers: sorted.core.map(id),
    idle: sorted.idle.map(id),
    unclear: problem.movers.flatMap((m) => (m.unclear === undefined ? [] : [{ mover: m.id, says: m.unclear }])),
  };
}

function describeLeaf(problem: SwitchingProblem, leaf: Leaf): LeafSwitch {
  const far = new Set(leaf.nodes);
  return {
    mover: problem.movers[leaf.mover]?.id ?? "",
    takers: leaf.takers.map((t) => problem.takers[t]?.id ?? ""),
    nodes: leaf.nodes,
    leaves: leaf.takers.flatMap((t) => {
      const taker = problem.takers[t];
      if (taker === undefined) return [];
      const linesCut = taker.lines.filter((n) => far.has(n)).length;
      const neutral = taker.neutral === null ? "none" : far.has(taker.neutral) ? "cut" : "left";
      return [{ taker: taker.id, linesCut, linesLeft: taker.lines.length - linesCut, neutral } as const];
    }),
  };
}

function groupsOf(core: Core, judge: MomentJudge, reached: Reached): SwitchingGroup[] {
  const order = (a: ReachedGroup, b: ReachedGroup): number => {
    if (a.distance !== b.distance) return a.distance - b.distance;
    const at = a.example.findIndex((v, i) => v !== b.example[i]);
    return (a.example[at] ?? 0) - (b.example[at] ?? 0);
  };
  return [...reached.groups].sort(order).map((g, i) => ({
    number: i + 1,
    rests: g.rests,
    count: g.count,
    example: namePositions(core, g.example),
    actions: g.distance,
    steps: stepsAlong(core, judge, reached.wayTo(g.example, g.distance)),
    ...stateFacts(core, judge.look(g.example)),
    undisconnected: undisconnected(core, judge, g.example),
  }));
}
