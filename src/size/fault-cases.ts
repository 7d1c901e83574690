import { findSources, prepareFaults, type FaultSources, type LaidFaults, type PreparedFaults } from "../fault/index.ts";
import type { Grid } from "../system/index.ts";
import type { Case } from "./cases.ts";
import type { EdgeOhms } from "./cold-edges.ts";
import type { FaultEdges } from "./fault-edges.ts";
import { liveMetal } from "./live-metal.ts";
import type { Model } from "./model.ts";
import type { Settled } from "./settled.ts";

/** Batteries that push together or not at all: one of them, or the units of a string. */
export type StoreGroup = readonly number[];

/** States of the plan whose switches stand alike. */
interface Contacts {
  readonly state: string;
  readonly edgeOn: Uint8Array;
}

/** The laid cases of a build. */
export interface FaultCases {
  readonly sources: FaultSources;
  /** Every contact closed that may be, every source; and the same with the least that sources may give at best. */
  readonly greatest: LaidFaults;
  readonly greatestLow: LaidFaults;
  /** Alone, by group of batteries, in each set of switch positions: `low` cold and aged most, `high` least. */
  readonly alone: readonly {
    readonly group: StoreGroup;
    readonly in: readonly { readonly state: string; readonly low: LaidFaults; readonly high: () => LaidFaults }[];
  }[];
  /** Limited sources alone, every contact closed that may be, each at the least that it may give at best; laid when it is first asked. */
  readonly limitedAlone: () => LaidFaults;
  /** By given state: its own greatest, and which of `alone[…].in` has its contacts; laid at each question. */
  readonly states: () => readonly {
    readonly state: string;
    readonly greatest: LaidFaults;
    readonly contacts: number;
  }[];
}

/** What is the same whatever its wires are. */
interface Setting {
  readonly sources: FaultSources;
  readonly prepared: PreparedFaults;
  /** By edge; 0: a contact that stays open in the greatest case. */
  readonly every: Uint8Array;
  readonly contacts: readonly Contacts[];
  readonly given: readonly { readonly one: Case; readonly contacts: number }[];
}

const settings = new WeakMap<Grid, Setting>();

function settingOf({ model, cases }: Pick<Settled, "model" | "cases">): Setting {
  let setting = settings.get(model.grid);
  if (setting === undefined) settings.set(model.grid, (setting = makeSetting(model, cases)));
  return setting;
}

/** Volts that charging sources hold, for each nominal volt. */
const CHARGED = 14.4 / 12;

/** Volts that what lands on the metal of a node is charged to. */
function chargedBy({ grid, circuits }: Model): (node: number) => number | null {
  const pieces = liveMetal(grid);
  const nominal = new Map<number, number>();
  for (const { edges, supply } of circuits) {
    if (supply === undefined) continue;
    for (const e of edges) {
      const edge = grid.edges[e];
      if (edge?.live === true) nominal.set(pieces[edge.a] ?? -1, supply.nominal);
    }
  }
  return (node) => {
    const volts = nominal.get(pieces[node] ?? -1);
    return volts === undefined ? null : CHARGED * volts;
  };
}

/** Parts on the metal of a node of which nobody knows how much they give; of a string each unit bounds the others. */
export function unknownBy(grid: Grid, { unknown }: FaultSources): (node: number) => readonly string[] {
  const pieces = liveMetal(grid);
  const parts = new Map<number, string[]>();
  for (const { part, plus } of unknown) {
    const piece = pieces[plus] ?? -1;
    parts.set(piece, [...(parts.get(piece) ?? []), part]);
  }
  return (node) => parts.get(pieces[node] ?? -1) ?? [];
}

function makeSetting(model: Model, cases: readonly Case[]): Setting {
  const { grid } = model;
  const sources = findSources(grid, chargedBy(model));
  const prepared = prepareFaults(grid, sources.ports);
  const contacts: Contacts[] = [];
  const contactsOf = (one: Case): number => {
    const found = contacts.findIndex(({ edgeOn }) => edgeOn.every((on, e) => on === one.edgeOn[e]));
    return found >= 0 ? found : contacts.push({ state: one.name, edgeOn: one.edgeOn }) - 1;
  };
  const given = cases.filter((c) => c.kind === "given").map((one) => ({ one, contacts: contactsOf(one) }));
  for (const one of cases) if (one.kind === "base") contactsOf(one);

  const closed = new Uint8Array(grid.edges.length).fill(1);
  // A switch that joins batteries now side by side, now in a string would short them if all its contacts were closed.
  const every = isShorting(grid, closed) ? mostClosed(contacts, closed) : closed;
  return { sources, prepared, every, contacts, given };
}

const ohmsOf = (from: EdgeOhms, on: Uint8Array): Float64Array => from.all.map((r, e) => (on[e] === 0 ? Infinity : r));

function layBest(
  { sources: { stores, limited }, prepared }: Setting,
  cold: EdgeOhms,
  on: Uint8Array,
  end: "low" | "high",
  runs: (k: number) => boolean,
): LaidFaults {
  return prepared.lay({
    ohms: ohmsOf(cold, on),
    storeVolts: Float64Array.from(stores, (s) => s.best.volts),
    // At least, one of which nobody knows anything gives nothing.
    storeOhms: Float64Array.from(stores, (s) =>
      // One without volts, as less than a cell has none, pushes nothing.
      (end === "low" && s.trust === "missing") || !(s.best.volts > 0) ? Infinity : s.best.volts / s.best.amps[end],
    ),
    limitedVolts: Float64Array.from(limited, (l) => l.volts),
    limitedAmps: Float64Array.from(limited, (l, k) => (runs(k) ? l.amps[end] : 0)),
  });
}

/** The greatest case alone. */
export function layGreatest(build: Pick<Settled, "model" | "cases">, cold: EdgeOhms): LaidFaults {
  const setting = settingOf(build);
  return layBest(setting, cold, setting.every, "high", () => true);
}

/** Lays every case once. */
export function layCases(build: Pick<Settled, "model" | "cases">, edges: FaultEdges): FaultCases {
  const setting = settingOf(build);
  const { sources, prepared, every, contacts, given } = setting;
  const { grid } = build.model;
  const { stores, limited } = sources;
  const limitedVolts = Float64Array.from(limited, (l) => l.volts);
  const off = new Float64Array(limited.length);
  const best = (on: Uint8Array, end: "low" | "high", runs: (k: number) => boolean): LaidFaults =>
    layBest(setting, edges.cold, on, end, runs);
  const worst = (on: Uint8Array, group: StoreGroup, end: "low" | "high"): LaidFaults =>
    prepared.lay({
      ohms: ohmsOf(edges.hot, on),
      storeVolts: Float64Array.from(stores, (s) => s.worst.volts),
      storeOhms: Float64Array.from(stores, (s, i) => (group.includes(i) ? s.worst.ohms[end] : Infinity)),
      limitedVolts,
      limitedAmps: off,
    });
  const runsIn = (one: Case, k: number): boolean => {
    const source = limited[k];
    if (source === undefined) return false;
    return source.kind === "feed" ? one.feedOn[source.index] === 1 : one.converter[source.index] !== 0;
  };
  let limitedAlone: LaidFaults | undefined;
  return {
    sources,
    greatest: best(every, "high", () => true),
    greatestLow: best(every, "low", () => true),
    alone: groupStores(grid).map((group) => ({
      group,
      in: contacts.map(({ state, edgeOn }) => {
        let high: LaidFaults | undefined;
        return {
          state,
          low: worst(edgeOn, group, "high"),
          high: () => (high ??= worst(edgeOn, group, "low")),
        };
      }),
    })),
    limitedAlone: () =>
      (limitedAlone ??= prepared.lay({
        ohms: ohmsOf(edges.hot, every),
        storeVolts: new Float64Array(stores.length),
        storeOhms: new Float64Array(stores.length).fill(Infinity),
        limitedVolts,
        limitedAmps: Float64Array.from(limited, (l) => l.amps.low),
      })),
    states() {
      const byKey = new Map<string, LaidFaults>();
      return given.map(({ one, contacts: at }) => {
        const key = `${at} ${limited.map((_, k) => (runsIn(one, k) ? "1" : "0")).join("")}`;
        let greatest = byKey.get(key);
        if (greatest === undefined) byKey.set(key, (greatest = best(one.edgeOn, "high", (k) => runsIn(one, k))));
        return { state: one.name, greatest, contacts: at };
      });
    },
  };
}

/** Of the positions that states name, those in which most contacts are closed. */
function mostClosed(contacts: readonly Contacts[], otherwise: Uint8Array): Uint8Array {
  let most = otherwise;
  let count = -1;
  for (const { edgeOn } of contacts) {
    const closed = edgeOn.reduce((sum, on) => sum + on, 0);
    if (closed > count) [most, count] = [edgeOn, closed];
  }
  return most;
}

/** Whether metal joins plus and minus of a battery. */
function isShorting(grid: Grid, on: Uint8Array): boolean {
  const piece = piecesOf(grid, (e) => on[e] === 1);
  return grid.stores.some(({ plus, minus }) => piece(plus) === piece(minus));
}

function piecesOf(grid: Grid, isOn: (edge: number) => boolean): (node: number) => number {
  const parent = Int32Array.from({ length: grid.nodeCount }, (_, i) => i);
  const root = (n: number): number => {
    let at = n;
    for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) {
      parent[at] = parent[up] ?? up;
      at = up;
    }
    return at;
  };
  grid.edges.forEach(({ a, b }, e) => {
    if (isOn(e)) parent[root(a)] = root(b);
  });
  return root;
}

/** Units whose minus stands on the plus of another, through what no switch opens, make one string. */
function groupStores(grid: Grid): StoreGroup[] {
  const piece = piecesOf(grid, (e) => grid.edges[e]?.contact?.closedIn === undefined);
  const groupOf = grid.stores.map((_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (groupOf[at] !== at) at = groupOf[at] ?? at;
    return at;
  };
  grid.stores.forEach((one, i) => {
    grid.stores.forEach((other, j) => {
      if (i !== j && piece(one.minus) === piece(other.plus)) groupOf[root(i)] = root(j);
    });
  });
  const groups = new Map<number, number[]>();
  grid.stores.forEach((_, i) => groups.set(root(i), [...(groups.get(root(i)) ?? []), i]));
  return [...groups.values()];
}
