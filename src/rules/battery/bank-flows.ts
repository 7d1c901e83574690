import type { Settled } from "../../size/index.ts";
import { fillCase, layNetwork, type Case, type Laid } from "../../size/index.ts";
import type { Build } from "../build.ts";
import { demandOf, NO_LOAD, NOTHING_ON, takenAt, type Condition } from "./bank-condition.ts";
import { chargingCases } from "./charging-cases.ts";
import { prepareSag, type VoltsLeft } from "./sag.ts";
import { surgeConditions } from "./surge-conditions.ts";

/** What the batteries of a build push in one condition of it. */
export interface BankFlow {
  /** In words: a state of the plan, or what is laid over the base. */
  readonly state: string;
  /** Greatest time that it lasts, where it is no steady condition, s; null: nobody says. */
  readonly seconds: number | null;
  /** By store of the grid; negative: it is charged. */
  readonly amps: Float64Array;
  /** Volts at rest, by store. */
  readonly restVolts: Float64Array;
  /** Amps that loads draw between each pair of nodes of the core. */
  readonly demand: Float64Array;
  /** What each load takes where nothing is laid over the case, by draw, A; and the load that is laid over it, −1: none. */
  readonly taken: Float64Array;
  readonly alone: Condition["alone"];
  /** Volts that what surges has left at its terminals then; empty: nothing surges. */
  readonly left: readonly VoltsLeft[];
  /** What flows into the plus of chargers and converters and out of their minus, A: negative where they push. */
  readonly sources: SourceAmps;
}

/** Currents of what is neither battery nor load. */
export interface SourceAmps {
  readonly feeds: Float64Array;
  readonly outputs: Float64Array;
  readonly inputs: Float64Array;
}

/** Currents of batteries and of what stands between them and the rest, with the final sizes. */
export interface BankFlows {
  /** Every state, every load and inverter alone with the banks at their lowest, every source at its rating. */
  readonly steady: readonly BankFlow[];
  /** The same with one battery taken off. */
  readonly steadyWithout: (store: number) => readonly BankFlow[];
  /** The most that flows in a contact or conductor of the core, for long and while something starts; null: it is of a tree. */
  readonly mostIn: (edge: number) => { readonly steady: number; readonly state: string; readonly start: number } | null;
  /** Every inverter of a condition at its surge, and the load whose start adds most while it starts. */
  readonly surge: (without?: number) => readonly BankFlow[];
  /** All chargers at once, each at its rating, with no load on. */
  readonly charging: () => readonly BankFlow[];
  /** Solves one steady condition again with other resistances. */
  readonly again: (flow: BankFlow, ohms: Float64Array) => Float64Array;
  /** By edge of the grid, with the final sizes; 0 for those of trees. */
  readonly ohms: Float64Array;
}

const found = new WeakMap<Settled, BankFlows>();

/**
 * What batteries push and take. Only the core of the network is solved: what hangs on it as trees are sums of what the loads take, as they were
 * settled.
 */
export function bankFlowsOf({ settled }: Build): BankFlows {
  let flows = found.get(settled);
  if (flows === undefined) found.set(settled, (flows = findFlows(settled)));
  return flows;
}

function findFlows(settled: Settled): BankFlows {
  const { model, weigher, chosen } = settled;
  const { grid } = model;
  const laid = layNetwork(
    grid,
    (e) => model.trees.isTree[e] === 0,
    weigher.pairs.list.map((pair, p) => ({ id: `loads ${p}`, ...pair, law: "amps" })),
  );
  const core: number[] = [];
  laid.edge.forEach((e, i) => {
    if (e >= 0) core.push(i);
  });
  const ohms = new Float64Array(grid.edges.length);
  for (const e of core) ohms[e] = weigher.ohmsOf(e, chosen.rungs);
  const conditions = steadyConditions(settled);
  const most: Most = {
    steady: new Float64Array(grid.edges.length),
    state: [],
    start: new Float64Array(grid.edges.length),
  };
  const sag = prepareSag(settled);
  const solve = (condition: Condition, without: number | null, r: Float64Array): Solved => {
    const { solution, demand, left } = sag(condition, (asked) => {
      const values = fillCase(laid, grid, condition.one, r, asked);
      laid.store.forEach((e, i) => (values.on[e] = i === without ? 0 : 1));
      const found = laid.prepared.solve(values);
      const at = (node: number): number => found.nodeVolts[laid.node[node] ?? -1] ?? 0;
      return { solution: found, volts: ({ plus, minus }) => at(plus) - at(minus) };
    });
    if (without === null && r === ohms) noteMost(laid, core, most, solution.amps, condition);
    const into = (e: number): number => (e < 0 ? 0 : (solution.amps[e] ?? 0));
    return {
      demand,
      left,
      amps: Float64Array.from(laid.store, (e) => 0 - into(e)),
      sources: {
        feeds: Float64Array.from(laid.feed, into),
        outputs: Float64Array.from(
          laid.converters,
          ({ working, pushes }) => (working < 0 ? 0 : (solution.outAmps[working] ?? 0)) + into(pushes),
        ),
        inputs: Float64Array.from(
          laid.converters,
          ({ working, draws, holds }) => into(working) + into(draws) + into(holds),
        ),
      },
    };
  };
  const flowsOf = (list: readonly Condition[], without: number | null): BankFlow[] =>
    list.map((c) => ({
      state: c.state,
      seconds: c.seconds,
      taken: c.taken,
      alone: c.alone,
      ...solve(c, without, ohms),
      restVolts: c.one.storeVolts,
    }));
  const steady = flowsOf(conditions, null);
  const lost = new Map<number, readonly BankFlow[]>();
  const surges = new Map<number | undefined, readonly BankFlow[]>();
  let surging: readonly Condition[] | undefined;
  let charging: readonly BankFlow[] | undefined;
  const surge: BankFlows["surge"] = (without) => {
    let flows = surges.get(without);
    if (flows === undefined) {
      surging ??= surgeConditions(settled);
      surges.set(without, (flows = flowsOf(surging, without ?? null)));
    }
    return flows;
  };
  return {
    steady,
    steadyWithout(store) {
      let flows = lost.get(store);
      if (flows === undefined) lost.set(store, (flows = flowsOf(conditions, store)));
      return flows;
    },
    mostIn(edge) {
      if ((laid.edge[edge] ?? -1) < 0) return null;
      surge();
      return { steady: most.steady[edge] ?? 0, state: most.state[edge] ?? "", start: most.start[edge] ?? 0 };
    },
    surge,
    charging() {
      const demand = new Float64Array(weigher.pairs.list.length);
      const all = (): readonly Condition[] =>
        chargingCases(settled).map((one) => ({ ...NOTHING_ON, state: one.name, one, demand }));
      return (charging ??= flowsOf(all(), null));
    },
    again(flow, r) {
      const condition = conditions[steady.indexOf(flow)];
      return condition === undefined ? flow.amps : solve(condition, null, r).amps;
    },
    ohms,
  };
}

type Solved = Pick<BankFlow, "amps" | "sources" | "demand" | "left">;

/** By edge of the grid, the most that any condition makes flow. */
interface Most {
  readonly steady: Float64Array;
  readonly state: string[];
  readonly start: Float64Array;
}

function noteMost(
  { edge }: Laid,
  core: readonly number[],
  most: Most,
  amps: Float64Array,
  { state, seconds }: Condition,
): void {
  const into = seconds === null ? most.steady : most.start;
  for (const i of core) {
    const flows = Math.abs(amps[edge[i] ?? -1] ?? 0);
    if (flows <= (into[i] ?? 0)) continue;
    into[i] = flows;
    if (seconds === null) most.state[i] = state;
  }
}

function steadyConditions(settled: Settled): readonly Condition[] {
  const { weigher } = settled;
  const { cases, base, look, pairs } = weigher;
  const conditions: Condition[] = [];
  const add = (state: string, one: Case | undefined, taken: Float64Array, alone = NO_LOAD, pair = -1): void => {
    if (one === undefined) return;
    const demand = demandOf(settled, taken);
    if (pair >= 0) demand[pair] = (demand[pair] ?? 0) + alone.amps;
    conditions.push({ state, one, demand, seconds: null, taken, alone, surging: [] });
  };
  const usual = look.taken(base);
  cases.forEach((one, j) => {
    if (one.kind === "given") add(one.name, one, look.taken(j));
    else if (one.kind === "rating") add(`${one.name} at its rating`, one, usual);
  });
  const alone = new Map<number, { amps: number; part: string; draw: number }>();
  settled.model.grid.draws.forEach(({ element, inverter }, d) => {
    const pair = pairs.ofDraw[d] ?? 0;
    const amps = takenAt(settled, d, element.levels[0]?.amps.high ?? 0) - (usual[d] ?? 0);
    if (amps > (alone.get(pair)?.amps ?? 0))
      alone.set(pair, {
        draw: d,
        amps,
        part: inverter === null ? `${element.part} alone` : `${element.part} at full output`,
      });
  });
  for (const [pair, { amps, part, draw }] of alone) add(part, cases[base], usual, { draw, amps }, pair);
  return conditions;
}
