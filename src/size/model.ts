import { dropClass, findRuleSet, type CarriedRuleSet, type DropClass, type DropProperty } from "../ruleset/index.ts";
import type { Runs } from "../route/index.ts";
import {
  makeGrid,
  stripTrees,
  type Grid,
  type Supply,
  type System,
  type SystemCircuit,
  type SystemPart,
  type Trees,
} from "../system/index.ts";
import { rungsFor, type Rungs } from "./ladder.ts";

/** Resistance of one joint: each end of a conductor, each side of a device set in it. */
export const JOINT_OHMS = 0.0001;

/** A load or panel whose volts are judged, and by what. */
export interface Judged {
  /** Its part, for print. */
  readonly part: string;
  /** Index of the draw in the grid; −1 for a panel or the input of a converter. */
  readonly draw: number;
  /** Index of the converter whose input it is; −1: it is none. */
  readonly converter: number;
  readonly plus: number;
  readonly minus: number;
  /** Greatest drop, V; Infinity where none is asked. */
  readonly dropVolts: number;
  readonly dropClass: DropClass | null;
  readonly runsAbove: number;
  readonly startsAbove: number;
  /** Those volts are common practice, not its maker's. */
  readonly startsAssumed: boolean;
  /** Greatest steady amps above what is always on, and amps above that while it starts (NaN: no start). */
  readonly steadyExtra: number;
  readonly startExtra: number;
  readonly startSeconds: number;
  readonly alwaysOn: boolean;
}

/** A circuit that leads away from a charging source, and the terminals between which it is judged. */
export interface Charging {
  readonly limitVolts: number;
  /** What its percentage is taken of. */
  readonly baseVolts: number;
  readonly fromPlus: number;
  readonly fromMinus: number;
  readonly toPlus: number;
  readonly toMinus: number;
}

/** A circuit of the direct-current side, as the chooser works with it. */
export interface CircuitModel {
  /** Place in the model's list. */
  readonly position: number;
  /** Place in the system's list. */
  readonly index: number;
  readonly circuit: SystemCircuit;
  readonly supply: Supply | undefined;
  readonly ruleSet: CarriedRuleSet | null;
  /** Null where nothing can be chosen or judged; `cannotTell` then says why. */
  readonly rungs: Rungs | null;
  readonly cannotTell: readonly string[];
  /** Edges of the grid, in the order of its conductors. */
  readonly edges: readonly number[];
  /** By edge: its length as a share of the run's. */
  readonly shares: readonly number[];
  /** Σ length of all conductors, m: what a mm² more costs in copper. */
  readonly metres: number;
  readonly judged: readonly Judged[];
  /** Its supply end is a charging source: judged on its own drop. */
  readonly charging: Charging | null;
  /** Least steady amps that it must carry whatever the states say: the short-circuit current of a solar module. */
  readonly leastAmps: number;
  readonly demand: number | null;
  /** Whether all its conductors belong to trees. */
  radial: boolean;
  /** The radial circuit that it hangs on; −1: the core. */
  parent: number;
  /** Radial circuits that hang on it. */
  readonly children: number[];
  /** Tree edges and contacts that are settled with it, those next to the core first. */
  readonly treeEdges: number[];
}

/** The build as the chooser sees it. */
export interface Model {
  readonly system: System;
  readonly grid: Grid;
  readonly trees: Trees;
  /** Direct-current circuits, in the order of the plan. */
  readonly circuits: readonly CircuitModel[];
  /** Position in `circuits` by index in the system; −1 for others. */
  readonly at: Int32Array;
  /** Tree contacts that hang on the core itself, those next to it first. */
  readonly coreContacts: readonly number[];
  /** Radial circuits that hang on the core. */
  readonly roots: readonly number[];
  /** Circuits of the core, grouped: those of a group get one size. */
  readonly coreGroups: readonly (readonly number[])[];
}

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
  const drawsAt = new Map(grid.draws.map((d, i) => [d.element.id, i]));
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
    const ruleSet = ruleSetOf(supply);
    const cannotTell: string[] = [];
    if (ruleSet === null) cannotTell.push(whyNoRules(supply));
    if (circuit.length.origin === "unknown") cannotTell.push("its length is not known");
    if (circuit.size === "unknown") cannotTell.push("its wire is not known");
    const edges = edgesOf.get(index) ?? [];
    const runLength = circuit.length.high;
    const position = circuits.length;
    at[index] = position;
    const judged = ruleSet === null ? [] : judgedOn(circuit, ruleSet, supply, parts, grid, drawsAt, inputs);
    circuits.push({
      position,
      index,
      circuit,
      supply,
      ruleSet,
      rungs: ruleSet === null ? null : rungsFor(circuit, run, ruleSet, system.stock),
      cannotTell,
      edges,
      shares: edges.map((e) => {
        const conductor = circuit.conductors[grid.edges[e]?.conductor ?? 0];
        return runLength > 0 && conductor !== undefined ? conductor.length.high / runLength : 0;
      }),
      metres: circuit.conductors.reduce((sum, c) => sum + c.length.high, 0) * circuit.parallel,
      judged,
      charging: ruleSet === null ? null : chargingOf(circuit, supply, parts, grid),
      leastAmps: solarAmps(circuit, grid, parts),
      demand: circuit.demand?.high ?? null,
      radial: false,
      parent: -1,
      children: [],
      treeEdges: [],
    });
  });

  const { trees, coreContacts, roots } = plantTrees(grid, circuits, at);
  return { system, grid, trees, circuits, at, coreContacts, roots, coreGroups: groupCore(grid, circuits) };
}

const found = new Map<string, ReturnType<typeof findRuleSet>>();

function findOnce(text: string): ReturnType<typeof findRuleSet> {
  let result = found.get(text);
  if (result === undefined) {
    if (found.size > 100) found.clear(); // names come from plans
    found.set(text, (result = findRuleSet(text)));
  }
  return result;
}

/** The numbers that a supply's circuits are sized by; null where none are named or carried. */
export function ruleSetOf(supply: Supply | undefined): CarriedRuleSet | null {
  if (supply?.rules === undefined) return null;
  const result = findOnce(supply.rules);
  return result.found && result.set.carried ? result.set : null;
}

function whyNoRules(supply: Supply | undefined): string {
  if (supply === undefined) return "it belongs to no system";
  if (supply.rules === undefined) return `no rule set is named for ${supply.id}`;
  const result = findOnce(supply.rules);
  return result.found
    ? `the numbers of ${result.set.id} are not carried yet`
    : `the rule set of ${supply.id} is not known`;
}

/** What a load's kind and the plan say of it that a drop class may ask for. */
function dropPropertiesOf(part: SystemPart | undefined, circuit: SystemCircuit): DropProperty[] {
  const properties: DropProperty[] = [];
  const use = part?.traits.dropUse;
  if (use !== undefined && use !== "rest") properties.push(use);
  if (part?.critical === true || circuit.dropClass === "critical") properties.push("critical");
  return circuit.dropClass === "rest" ? [] : properties;
}

function judgedOn(
  circuit: SystemCircuit,
  set: CarriedRuleSet,
  supply: Supply | undefined,
  parts: ReadonlyMap<string, SystemPart>,
  grid: Grid,
  drawsAt: ReadonlyMap<string, number>,
  inputs: ReadonlyMap<string, number>,
): Judged[] {
  const nominal = supply?.nominal ?? 12;
  const limit = (part: SystemPart | undefined): { volts: number; class: DropClass | null } => {
    if (circuit.dropLimit !== undefined) return { volts: circuit.dropLimit.low * nominal, class: null };
    const found = dropClass(set.drop, dropPropertiesOf(part, circuit));
    return { volts: found.limit * nominal, class: found };
  };
  const judged: Judged[] = [];
  const end = parts.get(circuit.to.part);
  const plus = endNode(circuit, grid, "live");
  const minus = endNode(circuit, grid, "return");
  const ids = [...circuit.draws];
  // A maker of alternating current at the end is a load as well.
  for (const { element, inverter, plus: at } of plus === undefined ? [] : (drawsByNode(grid).get(plus) ?? [])) {
    if (inverter !== null && at === plus) ids.push(element.id);
  }
  for (const id of ids) {
    const i = drawsAt.get(id);
    const draw = i === undefined ? undefined : grid.draws[i];
    if (i === undefined || draw === undefined) continue;
    const part = parts.get(draw.element.part);
    const { volts, class: drop } = limit(part);
    const levels = draw.element.levels;
    const running = levels[0]?.amps.high ?? 0;
    const steady = Math.max(running, levels.find((l) => l.name === "transmitting")?.amps.high ?? 0);
    const starting = levels.find((l) => l.name === "starting")?.amps.high;
    const base = draw.element.alwaysOn ? running : 0;
    judged.push({
      part: draw.element.part,
      draw: i,
      converter: -1,
      plus: draw.plus,
      minus: draw.minus,
      dropVolts: volts,
      dropClass: drop,
      runsAbove: draw.element.runsAbove?.high ?? 0,
      startsAbove: draw.element.startsAbove?.high ?? 0,
      startsAssumed: draw.element.startsAbove?.origin === "default",
      steadyExtra: steady - base,
      startExtra: starting === undefined ? Number.NaN : starting - base,
      startSeconds: draw.element.startSeconds.high,
      alwaysOn: draw.element.alwaysOn,
    });
  }
  if (end !== undefined && plus !== undefined && minus !== undefined) {
    const converter = inputs.get(`${end.id}\u0000${plus}`) ?? -1;
    if (end.traits.dropUse === "panel feeder" || converter >= 0) {
      const { volts, class: drop } = limit(end);
      judged.push({
        part: end.id,
        draw: -1,
        converter,
        plus,
        minus,
        dropVolts: volts,
        dropClass: drop,
        runsAbove: 0,
        startsAbove: 0,
        startsAssumed: false,
        steadyExtra: 0,
        startExtra: Number.NaN,
        startSeconds: 0,
        alwaysOn: false,
      });
    }
  }
  return judged;
}

const byNode = new WeakMap<Grid, Map<number, Grid["draws"][number][]>>();

function drawsByNode(grid: Grid): Map<number, Grid["draws"][number][]> {
  let map = byNode.get(grid);
  if (map === undefined) {
    map = new Map();
    for (const draw of grid.draws) {
      const there = map.get(draw.plus);
      if (there === undefined) map.set(draw.plus, [draw]);
      else there.push(draw);
    }
    byNode.set(grid, map);
  }
  return map;
}

/** Node at the far end of a circuit's conductors of one role. */
function endNode(circuit: SystemCircuit, grid: Grid, role: "live" | "return"): number | undefined {
  const conductors = circuit.conductors.filter((c) => c.role === role);
  if (role === "live") {
    const last = conductors.at(-1);
    return last === undefined ? undefined : grid.nodeOf(last.to);
  }
  // A return runs the other way when it leads back to a bar: its end at the far part is the one that names that part.
  const far = conductors.find(
    (c) => c.to.startsWith(`${circuit.to.part}:`) || c.from.startsWith(`${circuit.to.part}:`),
  );
  if (far === undefined) return undefined;
  return grid.nodeOf(far.to.startsWith(`${circuit.to.part}:`) ? far.to : far.from);
}

/** Share of the nominal volts that a charging circuit may lose; no rule set names one. */
const CHARGING_DROP = 0.03;

function chargingOf(
  circuit: SystemCircuit,
  supply: Supply | undefined,
  parts: ReadonlyMap<string, SystemPart>,
  grid: Grid,
): Charging | null {
  const start = parts.get(circuit.from.part);
  const live = circuit.conductors.find((c) => c.role === "live");
  const back = circuit.conductors.find((c) => c.role === "return");
  if (start?.traits.charges !== true || live === undefined || back === undefined) return null;
  const fromPlus = grid.nodeOf(live.from);
  // The input of a DC-DC charger does not push.
  const feed = grid.feeds.find((f) => f.plus === fromPlus);
  const converter = grid.converters.find((c) => c.out.plus === fromPlus);
  const fromMinus = feed?.minus ?? converter?.out.minus;
  if (fromMinus === undefined) return null;
  const a = grid.nodeOf(back.from);
  const b = grid.nodeOf(back.to);
  const baseVolts = feed?.element.bestVolts?.low ?? supply?.nominal ?? 12;
  return {
    limitVolts: (circuit.dropLimit?.low ?? CHARGING_DROP) * baseVolts,
    baseVolts,
    fromPlus,
    fromMinus,
    toPlus: grid.nodeOf(live.to),
    toMinus: a === fromMinus ? b : a,
  };
}

function solarAmps(circuit: SystemCircuit, grid: Grid, parts: ReadonlyMap<string, SystemPart>): number {
  if (parts.get(circuit.from.part)?.traits.solar !== true) return 0;
  const live = circuit.conductors.find((c) => c.role === "live");
  if (live === undefined) return 0;
  const node = grid.nodeOf(live.from);
  return grid.feeds.reduce((sum, f) => (f.plus === node ? sum + f.element.amps.high : sum), 0);
}

/**
 * Finds which circuits are radial and what hangs on what. A circuit with one conductor in a tree and another in the core belongs to the
 * core as a whole, and so does one whose plus and minus hang on two different circuits.
 */
function plantTrees(
  grid: Grid,
  circuits: readonly CircuitModel[],
  at: Int32Array,
): { trees: Trees; coreContacts: number[]; roots: number[] } {
  const kept = new Uint8Array(grid.nodeCount);
  for (const { plus, minus } of [...grid.stores, ...grid.feeds]) kept[plus] = kept[minus] = 1;
  for (const { in: input, out } of grid.converters) {
    kept[out.plus] = kept[out.minus] = 1;
    if (input !== null) kept[input.plus] = kept[input.minus] = 1;
  }

  for (let round = 0; ; round++) {
    const trees = stripTrees(grid, kept);
    const owner = ownersOf(grid, trees, at);
    let changed = false;
    const keep = (c: CircuitModel): void => {
      for (const e of c.edges) {
        const edge = grid.edges[e];
        if (edge === undefined) continue;
        for (const n of [edge.a, edge.b]) {
          if (kept[n] === 0) {
            kept[n] = 1;
            changed = true;
          }
        }
      }
    };
    const above = (c: CircuitModel): Set<number> => {
      const set = new Set<number>();
      for (const e of c.edges) {
        const edge = grid.edges[e];
        if (edge === undefined || trees.isTree[e] === 0) continue;
        const near = trees.up[edge.a] === e ? edge.b : edge.a;
        const o = owner[near] ?? -1;
        if (circuits[o] !== c) set.add(o);
      }
      return set;
    };
    for (const c of circuits) {
      const inTree = c.edges.filter((e) => trees.isTree[e] === 1).length;
      if (inTree !== 0 && inTree !== c.edges.length) keep(c);
      else if (inTree > 0) {
        const parents = [...above(c)].filter((o) => o >= 0);
        // Two circuits carry it: the chooser works on a tree, so all but the first become part of the core.
        for (const o of parents.slice(1)) {
          const other = circuits[o];
          if (other !== undefined) keep(other);
        }
      }
    }
    if (changed && round < 50) continue;

    const roots: number[] = [];
    const coreContacts: number[] = [];
    circuits.forEach((c, i) => {
      c.radial = c.edges.length > 0 && c.edges.every((e) => trees.isTree[e] === 1);
      if (!c.radial) return;
      const parents = [...above(c)].filter((o) => o >= 0 && circuits[o]?.radial !== false);
      c.parent = parents[0] ?? -1;
      if (c.parent < 0) roots.push(i);
      else circuits[c.parent]?.children.push(i);
    });
    for (const n of trees.order) {
      const e = trees.up[n] ?? -1;
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      const o = owner[n] ?? -1;
      const c = circuits[o];
      if (c?.radial === true) c.treeEdges.push(e);
      else coreContacts.push(e);
    }
    return { trees, coreContacts, roots };
  }
}

/** The circuit that each node hangs on: that of the nearest conductor towards the core; −1 where there is none. */
function ownersOf(grid: Grid, trees: Trees, at: Int32Array): Int32Array {
  const owner = new Int32Array(grid.nodeCount).fill(-1);
  for (const n of trees.order) {
    const edge = grid.edges[trees.up[n] ?? -1];
    const circuit = edge === undefined || edge.circuit < 0 ? -1 : (at[edge.circuit] ?? -1);
    owner[n] = circuit >= 0 ? circuit : (owner[trees.above[n] ?? 0] ?? -1);
  }
  return owner;
}

/** Circuits of the core; leads of equal batteries that meet at one terminal go together. */
function groupCore(grid: Grid, circuits: readonly CircuitModel[]): number[][] {
  const storeAt = new Map(grid.stores.map((s) => [s.plus, s.element]));
  const groups: number[][] = [];
  const leads = new Map<string, number[]>();
  circuits.forEach((c, i) => {
    if (c.radial || c.rungs === null) return;
    const live = c.circuit.conductors.find((k) => k.role === "live");
    if (live !== undefined && c.circuit.size === undefined) {
      const a = grid.nodeOf(live.from);
      const b = grid.nodeOf(live.to);
      const store = storeAt.get(a) ?? storeAt.get(b);
      if (store !== undefined) {
        const meets = storeAt.has(a) ? b : a;
        const key = `${meets} ${store.curve} ${store.nominalVolts} ${store.ohms.high}`;
        const there = leads.get(key);
        if (there !== undefined) {
          there.push(i);
          return;
        }
        const group = [i];
        leads.set(key, group);
        groups.push(group);
        return;
      }
    }
    groups.push([i]);
  });
  return groups;
}
