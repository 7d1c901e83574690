import type { DcSolution } from "../network/index.ts";
import type { Runs } from "../route/index.ts";
import type { System } from "../system/index.ts";
import { makeCases, type Case } from "./cases.ts";
import { chooseSizes, leastLocal } from "./choose-sizes.ts";
import type { Chosen, SearchLimits } from "./chosen.ts";
import { ampacityAt, steadyAt } from "./ladder.ts";
import { fillCase, layNetwork, type Laid } from "./lay-network.ts";
import { makeModel } from "./make-model.ts";
import type { CircuitModel, Model } from "./model.ts";
import { askBreaks, greaterBreak, isSameBreak, type MustBreak } from "./must-break.ts";
import { placeDevices, type Devices } from "./place-devices.ts";
import type { Settled } from "./settled.ts";
import type { Held, Pushed, Standing } from "./standing.ts";
import type { CircuitCurrents } from "./design-currents.ts";
import { runToEnd } from "./run-to-end.ts";
import { makeWeigher } from "./weigh.ts";
import type { Weigher } from "./weigher.ts";

/** Searches after which sizes may still go either way; then they only grow, so that settling ends. */
const FREE_SEARCHES = 4;
const MOST_ROUNDS = 60;
/** Currents that move less than this share from one round to the next are at rest. */
const AT_REST = 1e-6;
/** And so little is near enough for a first search over the core, whose answer is looked at again when they are at rest. */
const NEAR_REST = 1e-3;

/** How far the search for the least copper goes: plenty for a boat, bounded for a fleet. */
const LIMITS: SearchLimits = { evaluations: 1500 };

/** What the loads take and how the sources stand, case by case. */
interface Answer {
  readonly drawAmps: readonly Float64Array[];
  readonly standing: readonly Standing[];
}

/**
 * Finds sizes, devices and currents that belong to each other. Sizes need currents, currents need sizes: each round takes the currents of the
 * sizes before, places devices, chooses sizes anew and solves the network again, until nothing moves.
 */
export const settle = (system: System, runs: Runs, limits: SearchLimits = LIMITS): Settled =>
  runToEnd(settleInRounds(system, runs, limits));

/**
 * Asked of a build that has come to rest: the first rung that each circuit may have for the sake of something that is studied on a settled build, such as a fault
 * that the wire has to bear; 0 where nothing is asked, one past the last rung where nothing on sale is enough. A pure function.
 */
export type AskMore = (settled: Settled) => ArrayLike<number>;

/**
 * The same, with a halt before each round.
 *
 * @param askMore what raises sizes further. What it has asked for once stays asked, so each time that it is asked again some size has grown, and it is asked no more
 *   often than there are rungs on all ladders together: settling ends, whatever it answers
 */
export function* settleInRounds(
  system: System,
  runs: Runs,
  limits: SearchLimits = LIMITS,
  askMore?: AskMore,
): Generator<void, Settled> {
  const asked = new Int32Array(system.circuits.length);
  for (;;) {
    const settled = yield* settleAbove(system, runs, limits, asked);
    if (askMore === undefined || settled.unsettled.length > 0) return settled;
    const more = askMore(settled);
    let raised = false;
    settled.model.circuits.forEach((c, i) => {
      if (c.rungs === null || c.circuit.size !== undefined) return;
      const wanted = Math.min(more[i] ?? 0, c.rungs.ladder.makes.length);
      if (wanted <= Math.max(asked[i] ?? 0, settled.chosen.rungs[i] ?? 0)) return;
      asked[i] = wanted;
      raised = true;
    });
    if (!raised) return settled;
  }
}

/** Settles with no circuit below a rung of its own; by position among the direct-current circuits. */
function* settleAbove(system: System, runs: Runs, limits: SearchLimits, asked: Int32Array): Generator<void, Settled> {
  const model = makeModel(system, runs);
  const { grid, circuits } = model;
  const cases = makeCases(system, grid);
  const weigher = makeWeigher(model, cases);
  const laid = layNetwork(
    grid,
    (e) => model.trees.isTree[e] === 0,
    weigher.pairs.list.map((pair, p) => ({ id: `loads ${p}`, ...pair, law: "amps" })),
  );
  // Before anything is known every wire is thick and cold.
  let rungs: Int32Array = Int32Array.from(circuits, (c) => (c.rungs === null ? 0 : c.rungs.ladder.makes.length - 1));
  let scale: Float64Array = new Float64Array(grid.draws.length).fill(1);
  let steady: Float64Array = new Float64Array(circuits.length);
  let devices: Devices = {
    circuits: [],
    ohms: new Float64Array(grid.edges.length),
    count: new Uint8Array(grid.edges.length),
  };
  const breaksOf = askBreaks({ model, cases });
  let breaks: MustBreak | null = null;
  let floor: Int32Array = new Int32Array(circuits.length);
  let answer: Answer = {
    drawAmps: cases.map((c) => c.drawAmps),
    standing: cases.map(() => ({ held: [], pushed: [] })),
  };
  const hold = (): void => {
    weigher.hold({ ...answer, scale, steady, deviceOhms: devices.ohms, deviceCount: devices.count });
  };
  const lay = (): void => {
    weigher.solveCore(rungs);
    weigher.layAll(rungs);
  };
  // Twice: the first time only the batteries push.
  for (let k = 0; k < 2; k++) {
    hold();
    lay();
    answer = answerFor(weigher, laid, rungs);
  }
  hold();
  lay();
  let currents = weigher.currents();
  let chosen: Chosen | null = null;
  let evaluations = 0;
  let round = 0;
  let moving: string[] = [];
  let searched: Search | null = null;
  let near = false;
  let searches = 0;
  let ended = false;
  // What stood after each of the last two rounds in which all was looked at again.
  let lately: readonly { readonly rungs: Int32Array; readonly devices: Devices }[] = [];

  let changed = true;
  for (; round < MOST_ROUNDS; round++) {
    yield;
    const before = currents;
    const previous = rungs;
    steady = Float64Array.from(before, (c) => c.steady);
    // While sizes stand still and only currents come to rest, what is in place stays; all is looked at again when they are at rest.
    const full: boolean = chosen === null || changed || moving.length === 0 || (searched === null && near);
    let looked: Search | null = null;
    let isBroken = true;
    if (full) {
      const ampacity = Float64Array.from(circuits, (c, i) => leastAmpacity(c, before[i]?.steady ?? 0));
      // Late, devices as well are only added and get no smaller.
      const late = searches >= FREE_SEARCHES || round >= MOST_ROUNDS / 2;
      devices = placeDevices(model, before, ampacity, late ? devices : undefined, breaks);
      hold();
      const placed = devices;
      const least = Int32Array.from(circuits, (c, i) => {
        const now = before[i];
        const own = placed.circuits[i];
        return now === undefined || own === undefined ? 0 : Math.max(leastLocal(c, now, own), asked[i] ?? 0);
      });
      const from = late ? Int32Array.from(least, (r, i) => Math.max(r, floor[i] ?? 0)) : least;
      // A search is worth it only when something has moved that could change its answer; until then the core stays and currents come to rest.
      looked = { least: from, currents: before };
      const again =
        (searched === null ? near : moving.length === 0) && (searched === null || hasMoved(searched, looked));
      chosen = chooseSizes(weigher, from, again ? limits : null, chosen);
      if (again) {
        searched = looked;
        searches++;
      }
      evaluations += chosen.evaluations;
      rungs = chosen.rungs;
      lately = [...lately.slice(-1), { rungs, devices }];
      // Wires and devices say how much flows into a fault, and that says which devices can break it.
      const asks = breaksOf(devices, chosen);
      const wanted: MustBreak = late ? greaterBreak(breaks, asks) : asks;
      isBroken = isSameBreak(breaks, wanted);
      breaks = wanted;
    } else {
      hold();
      lay();
    }
    answer = answerFor(weigher, laid, rungs);
    const next = weigher.currents();
    const scaleNow = aloneScale(model, weigher, scale);
    changed = rungs.some((r, i) => r !== previous[i]);
    const far = (share: number): string[] =>
      circuits.flatMap((c, i) =>
        previous[i] !== rungs[i] ||
        moved(before[i]?.steady, next[i]?.steady, share) ||
        moved(before[i]?.start, next[i]?.start, share)
          ? [c.circuit.id]
          : [],
      );
    moving = far(AT_REST);
    const scaled = scaleNow.some((s, d) => moved(s, scale[d], AT_REST));
    floor = Int32Array.from(rungs);
    currents = next;
    scale = scaleNow;
    near = !changed && far(NEAR_REST).length === 0;
    const isAtRest = moving.length === 0 && !scaled && isBroken;
    if (isAtRest && searched !== null && looked !== null && !hasMoved(searched, looked)) {
      ended = true;
      break;
    }
  }
  if (chosen === null) throw new Error("settling ended before its first round");
  return {
    model,
    cases,
    weigher,
    currents,
    devices,
    chosen: { ...chosen, evaluations },
    rounds: ended ? round + 1 : MOST_ROUNDS,
    unsettled: ended ? [] : unrest(circuits, moving, lately),
  };
}

/** Circuits whose currents still move, or whose sizes or devices went to and fro; all of them where nobody can say which. */
function unrest(
  circuits: readonly CircuitModel[],
  moving: readonly string[],
  [before, now]: readonly { readonly rungs: Int32Array; readonly devices: Devices }[],
): string[] {
  const list = circuits.filter((c, i) => {
    const [was, is] = [before?.devices.circuits[i], now?.devices.circuits[i]];
    return (
      moving.includes(c.circuit.id) ||
      before?.rungs[i] !== now?.rungs[i] ||
      was?.answersFor !== is?.answersFor ||
      JSON.stringify(was?.devices) !== JSON.stringify(is?.devices)
    );
  });
  return (list.length === 0 ? circuits : list).map((c) => c.circuit.id);
}

/** What a search over the core was made with. */
interface Search {
  readonly least: Int32Array;
  readonly currents: readonly CircuitCurrents[];
}

/** Whether least sizes, or any current by more than a share, are others than those that a search was made with. */
function hasMoved(before: Search, now: Search): boolean {
  if (before.least.some((r, i) => r !== now.least[i])) return true;
  return before.currents.some((c, i) => {
    const other = now.currents[i];
    const differs = (a: number, b = 0): boolean => Math.abs(a - b) > 10 * AT_REST * Math.max(1, a);
    return differs(c.steady, other?.steady) || differs(c.start, other?.start);
  });
}

const moved = (a: number | undefined, b: number | undefined, share: number): boolean =>
  Math.abs((a ?? 0) - (b ?? 0)) > share * Math.max(1, Math.abs(a ?? 0));

/** Ampacity of the least size that a current and strength alone ask for. */
function leastAmpacity({ rungs }: CircuitModel, amps: number): number {
  if (rungs === null) return 0;
  const top = rungs.ladder.makes.length - 1;
  for (let r = rungs.least; r < top; r++) if (steadyAt(rungs, r) >= amps) return ampacityAt(rungs, r);
  return ampacityAt(rungs, top);
}

/**
 * What loads take and how sources stand, for the sizes that were laid last. Loads of constant power take what their volts make of it; the
 * sources' conditions come from the core's network, in which all loads behind one pair of nodes are one.
 */
function answerFor(weigher: Weigher, laid: Laid, rungs: Int32Array): Answer {
  const { model, cases, pairs, base } = weigher;
  const { grid } = model;
  const ohms = new Float64Array(grid.edges.length);
  for (let e = 0; e < ohms.length; e++) ohms[e] = weigher.ohmsOf(e, rungs);
  const demand = new Float64Array(pairs.list.length);
  const standing: Standing[] = [];
  const drawAmps = cases.map((one, j) => {
    // A rating is the base with one source more: its loads are the base's.
    const from = one.kind === "given" ? j : base;
    const amps = new Float64Array(grid.draws.length);
    for (let d = 0; d < amps.length; d++) amps[d] = drawnBy(weigher, one, from, d);
    demand.fill(0);
    pairs.ofDraw.forEach((p, d) => (demand[p] = (demand[p] ?? 0) + (amps[d] ?? 0)));
    standing.push(readStanding(model, laid, one, laid.prepared.solve(fillCase(laid, grid, one, ohms, demand))));
    return amps;
  });
  return { drawAmps, standing };
}

/** Amps that a load takes at the volts it has; 0: it is off or no source reaches it. */
function drawnBy(weigher: Weigher, one: Case, from: number, d: number): number {
  const stated = one.drawAmps[d] ?? 0;
  if (stated <= 0) return 0;
  const volts = weigher.drawVolts(from, d);
  const element = weigher.model.grid.draws[d]?.element;
  if (volts === null || element === undefined) return 0;
  if (element.law === "amps") return stated;
  // What asks for more than can reach it is held at its stated amps, so that it fails its test instead of dropping out of it.
  return stated * (element.atVolts / Math.max(volts, element.atVolts / 2));
}

/** Share of its range over which a source that holds its volts gives way: stiff beside any wire, and not beyond the reach of arithmetic. */
const HELD_GIVE = 1e-6;

function readStanding({ grid }: Model, laid: Laid, one: Case, solution: DcSolution): Standing {
  const held: Held[] = [];
  const pushed: Pushed[] = [];
  const source = (
    port: { readonly plus: number; readonly minus: number },
    condition: string | undefined,
    amps: number,
    volts: number,
    rated: number,
    part: string,
    most = rated,
  ): void => {
    const { plus, minus } = port;
    if (condition === "holding") held.push({ plus, minus, part, volts, siemens: rated / (volts * HELD_GIVE), most });
    else if (amps !== 0) pushed.push({ plus, minus, amps });
  };
  grid.feeds.forEach((feed, f) => {
    const e = laid.feed[f] ?? -1;
    if (one.feedOn[f] === 0 || e < 0) return;
    source(
      feed,
      solution.conditions[e],
      -(solution.amps[e] ?? 0),
      feed.element.volts.high,
      feed.element.amps.high,
      feed.element.part,
    );
  });
  grid.converters.forEach(({ element, in: input, out }, k) => {
    const parts = laid.converters[k];
    if (parts === undefined || one.converter[k] === 0) return;
    const most = element.amps.high;
    const { working, pushes, draws, holds } = parts;
    if (working >= 0 && solution.conditions[working] !== "off") {
      // What its input may take limits its output as well.
      const fed =
        ((element.inputAmps?.high ?? Infinity) * (solution.volts[working] ?? 0) * element.efficiency.low) /
        element.volts.high;
      const can = Number.isNaN(fed) ? most : Math.min(most, fed);
      source(
        out,
        solution.conditions[working],
        -(solution.outAmps[working] ?? 0),
        element.volts.high,
        most,
        element.part,
        can,
      );
      if (input !== null) pushed.push({ ...input, amps: -(solution.amps[working] ?? 0) });
    }
    if (solution.conditions[pushes] !== "off") {
      source(out, solution.conditions[pushes], -(solution.amps[pushes] ?? 0), element.volts.high, most, element.part);
    }
    if (draws >= 0 && input !== null && solution.conditions[draws] !== "off") {
      pushed.push({ ...input, amps: -(solution.amps[draws] ?? 0) });
    }
    if (holds >= 0 && input !== null && solution.conditions[holds] !== "off") {
      pushed.push({ ...input, amps: -(solution.amps[holds] ?? 0) });
    }
  });
  return { held, pushed };
}

/** How much more a load of constant power takes alone than its stated amps, at the volts that it then has. */
function aloneScale(model: Model, weigher: Weigher, before: Float64Array): Float64Array {
  const scale = before.slice();
  for (const c of model.circuits) {
    c.judged.forEach((judged, k) => {
      const draw = model.grid.draws[judged.draw];
      if (draw === undefined || draw.element.law !== "watts") return;
      const volts = weigher.aloneVolts(c, k);
      if (!Number.isFinite(volts)) return;
      // Below half its volts it has collapsed; the case is reported, not followed into the ground.
      scale[judged.draw] = draw.element.atVolts / Math.max(volts, draw.element.atVolts / 2);
    });
  }
  return scale;
}
