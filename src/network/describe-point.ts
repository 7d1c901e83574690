import { findVolts, LAW } from "./circuit.ts";
import { findShortage } from "./find-shortage.ts";
import { KIND } from "./read-network.ts";
import type { Collapse, DcSolution, ElementPoint, Island, OperatingPoint } from "./operating-point.ts";
import { isInLiveIsland, MOST_SINGLE, STATE, type Session } from "./session.ts";

/** The last solution of a session as plain data. */
export function describePoint(s: Session, solution: DcSolution): OperatingPoint {
  const t = s.table;
  const { joined } = s.shape;
  // JSON knows no −0: adding 0 makes it 0.
  const port = (volts = 0, amps = 0) => ({ amps: amps + 0, volts: volts + 0, watts: volts * amps + 0 });
  const elements = t.ids.map((id, e): ElementPoint => {
    const point = { id, ...port(solution.volts[e], solution.amps[e]), condition: solution.conditions[e] ?? "off" };
    return t.kind[e] === KIND.converter ? { ...point, out: port(solution.outVolts[e], solution.outAmps[e]) } : point;
  });

  const islandOf = (node: number) => s.islands.of[joined.of[node] ?? 0] ?? 0;
  const members: string[][] = Array.from({ length: s.islands.count }, () => []);
  t.nodes.forEach((name, i) => members[islandOf(i)]?.push(name));
  const unreached: string[][] = Array.from({ length: s.islands.count }, () => []);
  t.ids.forEach((id, e) => {
    const isLoad = t.kind[e] === KIND.draw || t.kind[e] === KIND.converter;
    if (!isLoad || (s.state[e] !== STATE.noSource && solution.conditions[e] !== "no source")) return;
    const plus = islandOf(t.plus[e] ?? 0);
    const minus = islandOf(t.minus[e] ?? 0);
    // Said where nothing comes from; where both sides have a source of their own, at plus.
    const dead = [plus, minus].filter((island, at) => s.live[island] === 0 && (at === 0 || minus !== plus));
    for (const island of dead.length > 0 ? dead : [plus]) unreached[island]?.push(id);
  });
  const islands = members.map((nodes, i): Island => ({
    reference: s.shape.wish.name[s.references[i] ?? 0] ?? "",
    nodes,
    live: s.live[i] === 1,
    unreached: unreached[i] ?? [],
  }));
  return {
    converged: solution.converged,
    worstKirchhoffAmps: solution.worstKirchhoffAmps,
    powerErrorWatts: solution.powerErrorWatts,
    nodes: t.nodes.map((id, i) => ({ id, volts: (solution.nodeVolts[i] ?? 0) + 0, island: islandOf(i) })),
    elements,
    islands,
    collapses: s.gone.slice(0, MOST_SINGLE).map(({ element, asked }) => describeCollapse(s, element, asked)),
    problems: solution.problems,
  };
}

/** What a collapsed element could have had, and what stands in its way. */
function describeCollapse(s: Session, branch: number, asked: number): Collapse {
  const t = s.table;
  const c = s.shape.circuit;
  const isCurrent = c.law[branch] === LAW.amps;
  const base = { draw: t.ids[branch] ?? "", asked, unit: isCurrent ? "A" : "W" } as const;
  // Taking off a converter may have left this one without any source.
  if (!isInLiveIsland(s, branch) || !(findVolts(c, branch) > 0))
    return { ...base, most: 0, atVolts: 0, cause: "", share: 0 };
  const { most, atVolts, cause, share } = findShortage(c, branch, s.told);
  const element = cause < t.elementCount ? cause : (t.converters[cause - t.elementCount] ?? -1);
  return { ...base, most, atVolts, cause: t.ids[element] ?? "", share };
}
