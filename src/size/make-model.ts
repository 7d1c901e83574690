import type { Runs } from "../route/index.ts";
import type { RuleSet } from "../ruleset/index.ts";
import { makeGrid, type Grid, type Stock, type System } from "../system/index.ts";
import { chargingOf, solarAmps } from "./charging.ts";
import { findStarts } from "./find-starts.ts";
import { groupSizes } from "./group-sizes.ts";
import { judgedOn } from "./judged-on.ts";
import { rungsFor } from "./ladder.ts";
import type { CircuitModel, Model } from "./model.ts";
import { findOwnReturns, tieReturns, untieUntold } from "./own-returns.ts";
import { plantTrees } from "./plant-trees.ts";
import { lesserRungs, strictestJudged } from "./lesser-of-sets.ts";
import { ruleSetOf, suppliesBySet, whyNoRules } from "./rule-set-of.ts";

/** Takes the build apart: graph, trees, ladders, and what each circuit is judged by. */
export function makeModel(system: System, runs: Runs): Model {
  const grid = makeGrid(system);
  const circuits: CircuitModel[] = [];
  const at = new Int32Array(system.circuits.length).fill(-1);
  const parts = new Map(system.parts.map((p) => [p.id, p]));
  const supplies = new Map(system.supplies.map((s) => [s.id, s]));
  const edgesOf = new Map<number, number[]>();
  grid.edges.forEach(({ circuit }, e) => {
    if (circuit < 0) return;
    const list = edgesOf.get(circuit);
    if (list === undefined) edgesOf.set(circuit, [e]);
    else list.push(e);
  });
  const inputs = new Map<string, number>();
  grid.converters.forEach(({ element, in: input }, k) => {
    // A tracking input takes what its modules give: their circuits are judged as charging circuits.
    if (input !== null && element.input === "as needed") inputs.set(`${element.part}\u0000${input.plus}`, k);
  });

  system.circuits.forEach((circuit, index) => {
    if (circuit.current !== "DC") return;
    const run = runs.runs[index];
    if (run === undefined) return;
    const supply = circuit.supply === undefined ? undefined : supplies.get(circuit.supply);
    const cannotTell: string[] = [];
    const named = suppliesBySet(circuit, supply);
    const sets = named.flatMap((one) => {
      const set = ruleSetOf(one);
      if (set === null) cannotTell.push(whyNoRules(one));
      return set ?? [];
    });
    // What one of its sets does not say, the other cannot make good.
    const ruleSet = sets.length === named.length ? (sets[0] ?? null) : null;
    if (circuit.length.origin === "unknown") cannotTell.push("its length is not known");
    if (circuit.size === "unknown") {
      const { unreadWire } = circuit;
      cannotTell.push(unreadWire === undefined ? "its wire is not known" : `its wire: ${unreadWire}`);
    }
    const solar = solarAmps(circuit, index, grid, parts);
    const rungsOf = (set: RuleSet) => ({ ruleSet: set, rungs: rungsFor(circuit, run, set, system.stock, solar > 0) });
    const rungs = ruleSet === null ? null : lesserRungs([rungsOf(ruleSet), ...sets.slice(1).map(rungsOf)]);
    if (rungs !== null && rungs.untold !== null) cannotTell.push(rungs.untold);
    const edges = edgesOf.get(index) ?? [];
    const runLength = circuit.length.high;
    const metres = circuit.conductors.reduce((sum, c) => sum + c.length.high, 0) * circuit.parallel;
    const position = circuits.length;
    at[index] = position;
    circuits.push({
      position,
      index,
      circuit,
      supply: named[0],
      ruleSet,
      bySet: (rungs?.bySet ?? []).map((each) => ({ ...each, judged: [] })),
      rungs: rungs?.untold === null ? rungs : null,
      cannotTell,
      edges,
      shares: edges.map((e) => {
        const conductor = circuit.conductors[grid.edges[e]?.conductor ?? 0];
        return runLength > 0 && conductor !== undefined ? conductor.length.high / runLength : 0;
      }),
      metres,
      paidMetres: metres,
      leader: -1,
      follower: -1,
      returnOf: -1,
      back: -1,
      returns: 0,
      bringsBack: [],
      judged: [],
      startsAt: { from: true, to: false },
      charging: ruleSet === null ? null : chargingOf(circuit, supply, parts, grid),
      leastAmps: solar * Math.max(1, ...sets.map((set) => set.solar?.factor ?? 1)),
      demand: circuit.demand?.high ?? null,
      radial: false,
      parent: -1,
      children: [],
      treeEdges: [],
    });
  });

  const kept = sourceNodes(grid);
  tieReturns(circuits, findOwnReturns(grid, circuits, at, kept));
  const { trees, coreContacts, roots, owner } = plantTrees(grid, circuits, at, kept);
  const starts = findStarts(grid, trees, circuits);
  const reached = reachedBySources(grid);
  const drawsOf = drawsByCircuit(grid, owner, circuits);
  for (const c of circuits) {
    c.startsAt = starts[c.position] ?? c.startsAt;
    if (!c.startsAt.from && !c.startsAt.to) {
      c.rungs = null;
      c.cannotTell = [...c.cannotTell, "it is fed in the middle of its path: write a circuit for each side"];
    }
    const lost = (drawsOf[c.position] ?? []).find((d) => !hasWayBack(grid, reached, d));
    if (lost !== undefined) {
      c.rungs = null;
      c.cannotTell = [...c.cannotTell, `nothing leads back from ${grid.draws[lost]?.element.part ?? ""} to a source`];
    }
    if (c.ruleSet === null || c.rungs === null) continue;
    const back = circuits[c.back]?.circuit;
    const asked = (set: RuleSet) => judgedOn(c, set, parts, grid, drawsOf[c.position] ?? [], inputs, back);
    for (const each of c.bySet) each.judged = asked(each.ruleSet);
    c.judged = c.bySet.length === 0 ? asked(c.ruleSet) : strictestJudged(c.bySet.map((each) => each.judged));
  }
  untieUntold(circuits);
  return {
    system,
    grid,
    trees,
    circuits,
    at,
    coreContacts,
    roots,
    ...groupSizes(grid, circuits),
    aim: { choose: system.stock.choose, open: worthBuying(system.stock) },
  };
}

/** A size is worth buying where no thicker one costs as little: more copper is never worse. */
function worthBuying({ prices }: Stock): Uint8Array | null {
  if (prices === null) return null;
  return Uint8Array.from(prices, (price, r) => (prices.slice(r + 1).every((thicker) => thicker > price) ? 1 : 0));
}

/** By node: 1 where a terminal of a source stands. */
function sourceNodes({ nodeCount, stores, feeds, converters }: Grid): Uint8Array {
  const kept = new Uint8Array(nodeCount);
  for (const { plus, minus } of [...stores, ...feeds]) kept[plus] = kept[minus] = 1;
  for (const { in: input, out } of converters) {
    kept[out.plus] = kept[out.minus] = 1;
    if (input !== null) kept[input.plus] = kept[input.minus] = 1;
  }
  return kept;
}

/** By node: 1 where metal leads from a terminal of a source, every contact closed. */
function reachedBySources(grid: Grid): Uint8Array {
  const reached = new Uint8Array(grid.nodeCount);
  const ports = [...grid.stores, ...grid.feeds, ...grid.converters.map((c) => c.out)];
  const queue = ports.flatMap(({ plus, minus }) => [plus, minus]);
  for (let i = 0; i < queue.length; i++) {
    const n = queue[i] ?? 0;
    if (reached[n] === 1) continue;
    reached[n] = 1;
    for (const e of grid.at[n] ?? []) {
      const edge = grid.edges[e];
      if (edge !== undefined) queue.push(edge.a === n ? edge.b : edge.a);
    }
  }
  return reached;
}

/** Of a load that is fed: whether anything leads back from it. One that nothing feeds is another matter. */
function hasWayBack(grid: Grid, reached: Uint8Array, draw: number): boolean {
  const found = grid.draws[draw];
  return found === undefined || reached[found.plus] === 0 || reached[found.minus] === 1;
}

/**
 * The loads of each circuit: in a tree those that hang on it, from whichever end it is written; in the core those that its path leads to, and makers of
 * alternating current at one of its ends.
 */
function drawsByCircuit(grid: Grid, owner: Int32Array, circuits: readonly CircuitModel[]): number[][] {
  const drawsAt = new Map(grid.draws.map((d, i) => [d.element.id, i]));
  const radial = (d: number): CircuitModel | undefined => {
    const c = circuits[owner[grid.draws[d]?.plus ?? -1] ?? -1];
    return c?.radial === true ? c : undefined;
  };
  const result = circuits.map((c): number[] =>
    c.circuit.draws.flatMap((id) => {
      const d = drawsAt.get(id);
      return d === undefined || (radial(d) ?? c) !== c ? [] : [d];
    }),
  );
  const add = (c: CircuitModel, d: number): void => {
    const list = result[c.position];
    if (list?.includes(d) === false) list.push(d);
  };
  const made = new Map<number, number[]>();
  grid.draws.forEach(({ inverter, plus }, d) => {
    const c = radial(d);
    if (c !== undefined) add(c, d);
    else if (inverter !== null) made.set(plus, [...(made.get(plus) ?? []), d]);
  });
  if (made.size === 0) return result;
  for (const c of circuits) {
    for (const e of c.radial ? [] : c.edges) {
      const edge = grid.edges[e];
      if (edge?.live !== true) continue;
      for (const d of [...(made.get(edge.a) ?? []), ...(made.get(edge.b) ?? [])]) add(c, d);
    }
  }
  return result;
}
