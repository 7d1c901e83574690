import type { Settled } from "../../size/index.ts";
import { fillCase, layNetwork, type Case, type Laid } from "../../size/index.ts";
import { chargingCases } from "./charging-cases.ts";
import type { Build } from "../build.ts";

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
  readonly alone: { readonly draw: number; readonly amps: number };
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

/** One thing to be solved: a case, and amps between each pair of the core's nodes. */
interface Condition {
  readonly state: string;
  readonly one: Case;
  readonly demand: Float64Array;
  readonly seconds: number | null;
  readonly taken: Float64Array;
  readonly alone: BankFlow["alone"];
}

const NO_LOAD: BankFlow["alone"] = { draw: -1, amps: 0 };
const NOTHING_ON = { seconds: null, taken: new Float64Array(0), alone: NO_LOAD } as const;

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
  const solve = (condition: Condition, without: number | null, r: Float64Array): Pick<BankFlow, "amps" | "sources"> => {
    const { one, demand } = condition;
    const values = fillCase(laid, grid, one, r, demand);
    laid.store.forEach((e, i) => (values.on[e] = i === without ? 0 : 1));
    const solution = laid.prepared.solve(values);
    if (without === null && r === ohms) noteMost(laid, core, most, solution.amps, condition);
    const into = (e: number): number => (e < 0 ? 0 : (solution.amps[e] ?? 0));
    return {
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
      demand: c.demand,
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
    conditions.push({ state, one, demand, seconds: null, taken, alone });
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

/** Amps of the loads, by pair of the core's nodes that they hang between. */
function demandOf({ weigher }: Settled, taken: Float64Array): Float64Array {
  const demand = new Float64Array(weigher.pairs.list.length);
  weigher.pairs.ofDraw.forEach((p, d) => (demand[p] = (demand[p] ?? 0) + (taken[d] ?? 0)));
  return demand;
}

/** Amps that a load takes in the base of what is stated at its own volts; 0 where no source reaches it. */
function takenAt({ model, weigher }: Settled, d: number, stated: number): number {
  const draw = model.grid.draws[d];
  const volts = weigher.drawVolts(weigher.base, d);
  if (draw === undefined || volts === null || volts <= 0) return 0;
  const { law, atVolts } = draw.element;
  return law === "amps" ? stated : stated * (atVolts / Math.max(volts, atVolts / 2));
}

/**
 * Inverters at their surge: VA ÷ (efficiency × volts of the emptiest bank). One whose surge is not stated is laid at its rating, the least that it
 * can be.
 */
function surgeConditions(settled: Settled): readonly Condition[] {
  const { model, weigher } = settled;
  const { cases, base, look, pairs } = weigher;
  const { draws } = model.grid;
  // Starters are looked at by themselves.
  const cranks = new Set(model.system.parts.flatMap((p) => (p.traits.cranks === true ? p.id : [])));
  return cases.flatMap((one, j): Condition[] => {
    if (one.kind === "rating") return [];
    const taken = look.taken(j);
    const demand = demandOf(settled, taken);
    const said: string[] = [];
    let starting = { d: -1, amps: 0, seconds: 0 };
    const seconds: (number | null)[] = [];
    draws.forEach(({ element, inverter }, d) => {
      const isOn = j === base || (taken[d] ?? 0) > 0;
      if (!isOn || weigher.drawVolts(base, d) === null) return;
      const now = taken[d] ?? 0;
      if (inverter !== null) {
        const { surgeWatts, surgeSeconds, efficiency } = inverter;
        const watts = surgeWatts === undefined || surgeWatts === "unknown" ? 0 : surgeWatts.high / efficiency.low;
        const rating = element.atVolts * (element.levels[0]?.amps.high ?? 0);
        const amps = takenAt(settled, d, Math.max(watts, rating) / element.atVolts);
        const pair = pairs.ofDraw[d] ?? 0;
        if (amps <= now) return;
        demand[pair] = (demand[pair] ?? 0) + amps - now;
        said.push(`${element.part} at its surge`);
        seconds.push(surgeSeconds === undefined || surgeSeconds === "unknown" ? null : surgeSeconds.low);
      } else {
        const start = cranks.has(element.part) ? undefined : element.levels.find((l) => l.name === "starting");
        const amps = start === undefined ? 0 : takenAt(settled, d, start.amps.high) - now;
        if (amps > starting.amps) starting = { d, amps, seconds: element.startSeconds.high };
      }
    });
    const starts = draws[starting.d];
    if (starts !== undefined) {
      const pair = pairs.ofDraw[starting.d] ?? 0;
      demand[pair] = (demand[pair] ?? 0) + starting.amps;
      said.push(`${starts.element.part} starting`);
      seconds.push(starting.seconds);
    }
    if (said.length === 0) return [];
    const known = seconds.filter((s) => s !== null);
    const state = `${said.join(" and ")}${one.kind === "given" ? `, ${one.name}` : ""}`;
    // What lasts longest counts; where nobody says how long, it is taken to be within the time of a peak.
    return [{ state, one, demand, taken, alone: NO_LOAD, seconds: known.length === 0 ? 0 : Math.max(...known) }];
  });
}
