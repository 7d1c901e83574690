import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { below } from "../report.ts";
import { defineRule } from "../rule.ts";
import { bankFlowsOf } from "./bank-flows.ts";
import { banksOf, nameOf, type Bank } from "./banks.ts";
import { leadDoubt } from "./lead-doubt.ts";
import { leastOhms, openLengths } from "./lead-ohms.ts";
import { standsAlone } from "./stands-alone.ts";

/** The most that leads may differ, as a share of a unit's own resistance and a mean lead: custom of the trade. */
const MOST = 0.1;
/** A tap that takes less than this share of what is drawn does not decide where leads meet. */
const COUNTS = 0.1;

const unit = "kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, resistance: 2 mΩ";
const two = (length: string): string =>
  `parts:\n  B1: { ${unit} }\n  B2: { ${unit} }\n  lamp: { kind: light, running: 100 A }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², fuse: none }\n  W03: { path: B1:− → BN, length: 0.8 m, wire: 50 mm² }\n  W20: { path: B2 → SW1, length: ${length}, wire: 50 mm², fuse: none, as found: yes }\n  W21: { path: B2:− → BN, length: 0.8 m, wire: 50 mm² }`;

export const unequalLeads = defineRule({
  id: "battery/unequal-leads",
  title: "Unequal leads",
  severity: "should",
  danger: "the unit with the shortest lead does most of the work, ages or trips first, and the others follow",
  why: `Units abreast that each have leads of their own to the same two points should have leads of one resistance: plus and minus lead together, with
    joints and devices, may differ by no more than 10 % of a unit's own resistance and a mean pair of leads.`,
  silent: [
    "banks with nothing abreast",
    "units that stand behind one pair of terminals",
    "units that are chained from one to the next, or stand in strings: how they share is judged as a whole",
  ],
  sources: [{ cite: cite("trade-practice", "leads of equal length and size to bars", "practice") }],
  messages: {
    unequal:
      "the leads of {place} differ by {measured}: {least} for {shortest}, {most} for {longest}; {limit} is a tenth of a unit and its leads",
  },
  cures: ["equal-leads", "matched-unit"],
  examples: {
    good: [
      { says: "one battery", plan: "" },
      { says: "two with equal leads", plan: two("0.8 m") },
    ],
    bad: [
      { says: "one lead far longer", plan: two("2.2 m"), fails: "unequal", about: "parts.B1" },
      { says: "nobody knows one lead", plan: two("unknown"), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    const { stores } = build.settled.model.grid;
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const own = bank.units.flatMap((i) => stores[i]?.element ?? []);
      const alone = standsAlone(bank, own);
      if (alone !== null) {
        report.notApplicable(subject, alone);
        continue;
      }
      const leads = bank.inner.size > 0 ? null : leadsOf(build, bank);
      const doubt = leadDoubt(build, bank);
      if (leads === null) report.notApplicable(subject, "its units are chained or stand in strings");
      else if (doubt.length > 0) report.cannotTell(subject, doubt);
      else {
        const longest = leads.reduce((a, b) => (b.high > a.high ? b : a));
        const shortest = leads.reduce((a, b) => (b.high < a.high ? b : a));
        const mean = leads.reduce((sum, l) => sum + l.high, 0) / leads.length;
        // The stiffest unit: the smaller its own resistance, the more its leads decide.
        const limit = MOST * (Math.min(...own.map((s) => s.ohms.high)) + mean);
        const spread = longest.high - shortest.high;
        const widest = Math.max(...leads.flatMap((a) => leads.map((b) => (a === b ? 0 : a.high - b.low))));
        const least = Math.max(0, ...leads.flatMap((a) => leads.map((b) => a.low - b.high)));
        const said = {
          measured: spread,
          limit,
          unit: "Ω",
          margin: below(spread, limit),
          // A resistance that nobody stated is no measured one.
          trust: own.some((s) => s.ohms.origin === "default") ? "memory" : null,
        } as const;
        const ohms = (value: number) => ({ value, unit: "Ω" }) as const;
        if (least > limit)
          report.fail(subject, "unequal", {
            ...said,
            words: {
              place: nameOf(bank),
              shortest: shortest.part,
              longest: longest.part,
              least: ohms(shortest.high),
              most: ohms(longest.high),
            },
          });
        else if (widest > limit) report.cannotTell(subject, openLengths(build, bank), said);
        else report.pass(subject, said);
      }
    }
  },
});

/** Ohms of both leads of a unit, at the least and the greatest length that they can have. */
interface Leads {
  readonly part: string;
  readonly low: number;
  readonly high: number;
}

/** The leads of each unit to where they all meet; null: they do not meet in two points. */
function leadsOf(build: Build, bank: Bank): readonly Leads[] | null {
  const { grid, trees } = build.settled.model;
  const { steady, ohms } = bankFlowsOf(build);
  const pairs = build.settled.weigher.pairs.list;
  // Where loads are taken off a bank, in whatever condition, its leads end.
  const ends = new Set(bank.units.flatMap((i) => [grid.stores[i]?.plus ?? -1, grid.stores[i]?.minus ?? -1]));
  for (const { demand } of steady) {
    const all = demand.reduce((a, b) => a + b, 0);
    demand.forEach((amps, p) => {
      if (amps <= COUNTS * all) return;
      for (const node of [pairs[p]?.plus, pairs[p]?.minus]) if (node !== undefined) ends.add(node);
    });
  }
  const carries = (e: number): boolean => {
    const edge = grid.edges[e];
    const role =
      edge === undefined || edge.circuit < 0
        ? undefined
        : build.system.circuits[edge.circuit]?.conductors[edge.conductor]?.role;
    return trees.isTree[e] === 0 && role !== "protective";
  };
  const walk = (from: number): { end: number; low: number; high: number } => {
    let at = from;
    let came = -1;
    let [low, high] = [0, 0];
    for (let steps = 0; steps <= grid.edges.length; steps++) {
      const next = (grid.at[at] ?? []).filter((e) => e !== came && carries(e));
      const [e] = next;
      const edge = grid.edges[e ?? -1];
      if (next.length !== 1 || e === undefined || edge === undefined || (came >= 0 && ends.has(at))) break;
      low += leastOhms(build, e);
      high += ohms[e] ?? 0;
      at = edge.a === at ? edge.b : edge.a;
      came = e;
    }
    return { end: at, low, high };
  };
  const walks = bank.units.flatMap((i, k) => {
    const store = grid.stores[i];
    const part = bank.parts[k];
    return store === undefined || part === undefined
      ? []
      : [{ part: part.id, plus: walk(store.plus), minus: walk(store.minus) }];
  });
  const [first] = walks;
  if (walks.some((w) => w.plus.end !== first?.plus.end || w.minus.end !== first.minus.end)) return null;
  return walks.map(({ part, plus, minus }) => ({ part, low: plus.low + minus.low, high: plus.high + minus.high }));
}
