import { solveFault, type Range } from "../fault/index.ts";
import { layCases } from "./fault-cases.ts";
import { listDevices } from "./fault-devices.ts";
import { faultEdges } from "./fault-edges.ts";
import { otherPoles } from "./fault-places.ts";
import { fillCase, layNetwork } from "./lay-network.ts";
import type { Settled } from "./settled.ts";

/** What a battery gives of what its bank gives. */
export interface UnitShare {
  readonly part: string;
  /** A; negative: it is charged. */
  readonly amps: number;
  /** Of what the bank gives, as a share; null: the bank gives next to nothing. */
  readonly share: number | null;
}

/** How batteries that are joined plus to plus share what is asked of them. */
export interface BankSharing {
  /** Parts, in the order of the plan. */
  readonly units: readonly string[];
  /** In each state of the plan. */
  readonly atLoad: readonly { readonly state: string; readonly units: readonly UnitShare[] }[];
  /** Into the hardest fault beyond their leads; null: none can be told. */
  readonly atFault: { readonly terminal: string; readonly amps: number; readonly units: readonly UnitShare[] } | null;
  /** Resistance of each unit at best and of its way to the others, for whoever asks why: unit, Ω. */
  readonly unitOhms: readonly Range[];
}

const known = new WeakMap<Settled, readonly BankSharing[]>();

/**
 * How the current of each bank divides over its batteries, in every state and into a fault, with the leads that they really have.
 *
 * Units that metal and closed contacts can join plus to plus are one bank. A unit alone is no bank. Ignores what management does: `studyFaults` says whether
 * it may open.
 *
 * @returns plain data; asked for again, the same
 */
export function bankSharing(settled: Settled): readonly BankSharing[] {
  let found = known.get(settled);
  if (found === undefined) known.set(settled, (found = findSharing(settled)));
  return found;
}

function findSharing(settled: Settled): BankSharing[] {
  const { model } = settled;
  const { grid } = model;
  const banks = banksOf(grid).filter((units) => units.length > 1);
  if (banks.length === 0) return [];
  const flows = flowsInStates(settled);
  const cases = layCases(settled, faultEdges(settled, listDevices(settled)));
  const against = otherPoles(model);
  const storeNodes = new Set(grid.stores.flatMap(({ plus, minus }) => [plus, minus]));
  const partOf = (s: number): string => grid.stores[s]?.element.part ?? "";
  const sharesOf = (units: readonly number[], amps: (store: number) => number): UnitShare[] => {
    const sum = units.reduce((total, s) => total + amps(s), 0);
    return units.map((s) => ({
      part: partOf(s),
      amps: amps(s),
      share: Math.abs(sum) < 1e-3 ? null : amps(s) / sum,
    }));
  };
  return banks.map((units): BankSharing => {
    let hardest: BankSharing["atFault"] = null;
    against.forEach((minus, node) => {
      if (minus < 0 || storeNodes.has(node)) return;
      const fault = solveFault(cases.greatest, { plus: { node }, minus: { node: minus } });
      const amps = new Map(fault.stores.map((f) => [f.store, f.amps]));
      const given = units.reduce((sum, s) => sum + (amps.get(s) ?? 0), 0);
      if (given <= (hardest?.amps ?? 0)) return;
      const shares = sharesOf(units, (s) => amps.get(s) ?? 0);
      hardest = { terminal: grid.nodeNames[node] ?? "", amps: given, units: shares };
    });
    return {
      units: units.map(partOf),
      atLoad: flows.map(({ state, amps }) => ({ state, units: sharesOf(units, (s) => amps[s] ?? 0) })),
      atFault: hardest,
      unitOhms: units.map((s) => {
        const best = cases.sources.stores[s]?.best;
        return best === undefined
          ? { low: 0, high: 0 }
          : { low: best.volts / best.amps.high, high: best.volts / best.amps.low };
      }),
    };
  });
}

/** Stores whose plus one piece of metal can join, every contact closed. */
function banksOf(grid: Settled["model"]["grid"]): number[][] {
  const parent = Int32Array.from({ length: grid.nodeCount }, (_, i) => i);
  const root = (n: number): number => {
    let at = n;
    while (parent[at] !== at) at = parent[at] ?? at;
    return at;
  };
  for (const { a, b } of grid.edges) parent[root(a)] = root(b);
  const byPiece = new Map<number, number[]>();
  grid.stores.forEach(({ plus }, s) => {
    const piece = root(plus);
    byPiece.set(piece, [...(byPiece.get(piece) ?? []), s]);
  });
  return [...byPiece.values()];
}

/** Amps of every battery in every state of the plan, with the sizes as chosen. */
function flowsInStates(settled: Settled): { readonly state: string; readonly amps: Float64Array }[] {
  const { model, weigher, chosen, cases } = settled;
  const { grid, trees } = model;
  const { pairs, look } = weigher;
  const laid = layNetwork(
    grid,
    (e) => trees.isTree[e] === 0,
    pairs.list.map((pair, p) => ({ id: `loads ${p}`, ...pair, law: "amps" })),
  );
  const ohms = Float64Array.from(grid.edges.keys(), (e) => weigher.ohmsOf(e, chosen.rungs));
  return cases.flatMap((one, j) => {
    if (one.kind !== "given") return [];
    const demand = new Float64Array(pairs.list.length);
    const taken = look.taken(j);
    pairs.ofDraw.forEach((p, d) => (demand[p] = (demand[p] ?? 0) + (taken[d] ?? 0)));
    const { amps } = laid.prepared.solve(fillCase(laid, grid, one, ohms, demand));
    return [{ state: one.name, amps: Float64Array.from(laid.store, (e) => 0 - (amps[e] ?? 0)) }];
  });
}
