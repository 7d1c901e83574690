import { cite } from "../../explain/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { awgSize } from "../../wire/index.ts";
import { wireNeeded } from "../wire-needed.ts";

/** How far the longest of parallel conductors may exceed the shortest. Practice. */
const LENGTHS = 0.03;
/** How far one may exceed its even share of the current. Practice. */
const SHARE = 1.05;

/** Thinnest conductors that the American code lets lie parallel. Source: NEC 310.10(G). */
const LEAST_NAME = "1/0 AWG";
const LEAST_AREA = awgSize("1/0")?.areaMm2 ?? Infinity;

export const unevenParallelConductors = defineRule({
  id: "conductor/uneven-parallel-conductors",
  title: "Uneven parallel conductors",
  severity: { otherwise: "should", sets: { "us-cabin": "must", "us-rv": "must" } },
  danger: "the shortest takes most of the current, runs hot and fails first; then the others carry all of it",
  why: `Conductors between the same two points share the current by their resistances, each with its joints and devices: they have to be alike in
    metal, size and length, within 3 %, and none may take more than 5 % above its even share. Two feeders to one bus, each with a device at both its
    ends, are no parallel conductors: each is guarded for all that it may carry alone. Under the American code conductors lie parallel from 1/0 AWG up.`,
  silent: [
    "conductors that no other lies parallel to",
    "pairs of solar strings that each carry their own (`strings` as many as `parallel`)",
    "two feeders that are each protected at both ends",
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [
    { cite: cite("nfpa-70-2023", "310.10(G)", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "parallel conductors of equal make and length", "practice") },
  ],
  messages: {
    share: "{place} takes {measured} of what it shares with {others}; {limit} is the most for one of {count}",
    lengths: "{place} is {longer} longer than {others} that it lies parallel to; {most} is the most",
    small: "{place} lies parallel to others and is {size}; {least} is the least for that",
    unlike: "{place} is of another make than {others} that it lies parallel to: {makes}",
  },
  cures: ["equal-leads", "one-conductor"],
  examples: {
    good: [
      {
        says: "two alike on one circuit",
        plan: "circuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, parallel: 2 }",
      },
      {
        says: "two solar strings in a cabin, each on a pair of its own",
        plan: "rules: { DC: us-cabin }\ncircuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, wire: 8 AWG, parallel: 2, strings: 2 }",
      },
      {
        says: "two circuits alike",
        plan: "circuits:\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 35 mm² }\n  W22: { path: SW1 → BP, length: 0.4 m, wire: 35 mm² }",
      },
      {
        says: "two feeders, each with a device at both ends",
        plan: "circuits:\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 35 mm², fuse: [125 A at SW1, 125 A at BP] }\n  W22: { path: SW1 → BP, length: 2.4 m, wire: 35 mm², fuse: [125 A at SW1, 125 A at BP] }",
      },
    ],
    bad: [
      {
        says: "one twice as long as the other",
        plan: "circuits:\n  W02: { path: SW1 → BP, length: 2 m, wire: 35 mm², fuse: none }\n  W22: { path: SW1 → BP, length: 4 m, wire: 35 mm², fuse: none }",
        fails: "share",
        about: "circuits.W02",
      },
      {
        says: "a hand longer, where joints even out the current",
        plan: "circuits:\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 35 mm², fuse: none }\n  W22: { path: SW1 → BP, length: 0.42 m, wire: 35 mm², fuse: none }",
        fails: "lengths",
        about: "circuits.W22",
      },
      {
        says: "one of another metal",
        plan: "rules: { DC: us-cabin }\ncircuits:\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 1/0 AWG }\n  W22: { path: SW1 → BP, length: 0.4 m, wire: 1/0 AWG, metal: aluminium }",
        fails: "unlike",
        about: "circuits.W22",
      },
      {
        says: "two thin ones in a cabin",
        plan: "rules: { DC: us-cabin }\ncircuits:\n  W04: { path: BP → PNL, length: 1.5 m, demand: 30 A, wire: 8 AWG, parallel: 2 }",
        fails: "small",
        about: "circuits.W04",
      },
      {
        says: "one whose length nobody knows",
        plan: "circuits:\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 35 mm² }\n  W22: { path: SW1 → BP, length: unknown, wire: 35 mm² }",
        fails: "cannot tell",
        about: "circuits.W22",
      },
    ],
  },
  judge(build, report) {
    const groups = parallelCircuits(build);
    for (const c of build.circuits) {
      const { subject, circuit } = c;
      const group = groups.get(c);
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (hasPairsOfStrings(c)) report.notApplicable(subject, "each solar string has a pair of its own");
      else if (isTooThin(c, group !== undefined))
        report.fail(subject, "small", { words: { size: c.design.size?.label ?? "thinner", least: LEAST_NAME } });
      else if (group === undefined)
        if (circuit.parallel > 1)
          // One circuit has one size and one length: what the plan calls equal is equal.
          report.pass(subject, {
            measured: 1 / circuit.parallel,
            limit: SHARE / circuit.parallel,
            unit: "share",
            margin: below(1, SHARE),
          });
        else report.notApplicable(subject, "no other conductor lies parallel to it");
      else if (group.every(isGuardedTwice))
        report.notApplicable(subject, "two feeders, each with a device at both its ends");
      else {
        const others = group.filter((o) => o !== c);
        const words = { others: others.map((o) => o.id).join(" and "), count: String(group.length) };
        const unknown = group.flatMap((one) => {
          const isOwn = one.subject === subject;
          return [
            ...(one.run.lengthM.origin === "unknown"
              ? [needed(isOwn ? "its length" : `the length of ${one.id}`, one.subject)]
              : []),
            ...(one.circuit.size === "unknown" ? [wireNeeded(one, isOwn ? "its wire" : `the wire of ${one.id}`)] : []),
          ];
        });
        if (unknown.length > 0) {
          // Said once, of the one that lacks a fact.
          if (unknown.some((n) => n.about === subject.path)) report.cannotTell(subject, unknown);
          else report.notApplicable(subject, "told with the conductor that lies parallel to it");
          continue;
        }
        const odd = others.filter((o) => makeOf(o) !== makeOf(c));
        const first = group[0];
        const shares = sharesOf(build, group);
        const mine = shares?.get(c) ?? null;
        const limit = SHARE / group.length;
        const shortest = Math.min(...group.map((o) => o.run.lengthM.low));
        const longer = shortest > 0 ? c.run.lengthM.high / shortest - 1 : 0;
        const isWorst = mine !== null && mine >= Math.max(...(shares?.values() ?? [])) - 1e-12;
        if (odd.length > 0 && first !== undefined && makeOf(first) !== makeOf(c))
          report.fail(subject, "unlike", {
            words: { ...words, others: first.id, makes: `${makeOf(c)} beside ${makeOf(first)}` },
          });
        else if (odd.length > 0) report.notApplicable(subject, "told with the conductor that is unlike it");
        else if (mine !== null && mine > limit + 1e-9 && isWorst)
          report.fail(subject, "share", { measured: mine, limit, unit: "share", margin: below(mine, limit), words });
        else if (longer > LENGTHS + 1e-9 && (shares === null || Math.max(...shares.values()) <= limit + 1e-9))
          report.fail(subject, "lengths", {
            measured: longer,
            limit: LENGTHS,
            unit: "share",
            margin: below(longer, LENGTHS),
            words: { ...words, longer: figure(longer, "share"), most: figure(LENGTHS, "share") },
          });
        else
          report.pass(
            subject,
            mine === null ? {} : { measured: mine, limit, unit: "share", margin: below(mine, limit) },
          );
      }
    }
  },
});

/** Pairs that solar strings do not share are side by side on paper only: each carries its own string. */
function hasPairsOfStrings({ plan, circuit }: CircuitView): boolean {
  const strings = plan?.facts.strings?.value;
  return typeof strings === "number" && circuit.parallel > 1 && strings === circuit.parallel;
}

/** Whether a conductor lies parallel to others under a set that has a least size for that, and is thinner. */
const isTooThin = (c: CircuitView, inGroup: boolean): boolean =>
  (inGroup || c.circuit.parallel > 1) &&
  (c.ruleSet?.id === "us-cabin" || c.ruleSet?.id === "us-rv") &&
  c.design.size !== null &&
  c.design.size.areaMm2 < LEAST_AREA * (1 - 1e-3);

/** Circuits whose live conductors lie between the same two pieces of metal, with all of their group. */
function parallelCircuits({ circuits, settled }: Build): ReadonlyMap<CircuitView, readonly CircuitView[]> {
  const { grid } = settled.model;
  // Most stand alone, and need no list.
  const byEnds = new Map<number, CircuitView | CircuitView[]>();
  for (const c of circuits) {
    const edge = grid.edges[liveEdge(c, settled)];
    if (edge === undefined) continue;
    const key = Math.min(edge.a, edge.b) * grid.nodeCount + Math.max(edge.a, edge.b);
    const there = byEnds.get(key);
    if (there === undefined) byEnds.set(key, c);
    else if (Array.isArray(there)) there.push(c);
    else byEnds.set(key, [there, c]);
  }
  const groups = new Map<CircuitView, readonly CircuitView[]>();
  for (const group of byEnds.values()) if (Array.isArray(group)) for (const c of group) groups.set(c, group);
  return groups;
}

/** Its first live conductor, as an edge of the grid; −1: it has none. */
function liveEdge({ model }: CircuitView, { model: { grid } }: Build["settled"]): number {
  for (const e of model?.edges ?? []) if (grid.edges[e]?.live === true) return e;
  return -1;
}

/** What each takes of the current that they share, by their conductances; null where no size is worked out. */
function sharesOf({ settled }: Build, group: readonly CircuitView[]): ReadonlyMap<CircuitView, number> | null {
  const siemens = group.map((c) => {
    const edge = liveEdge(c, settled);
    if (edge < 0 || c.model === null || c.model.rungs === null) return Number.NaN;
    return 1 / Math.max(settled.weigher.ohmsOf(edge, settled.chosen.rungs), 1e-9);
  });
  const sum = siemens.reduce((a, b) => a + b, 0);
  return Number.isNaN(sum) ? null : new Map(group.map((c, i) => [c, (siemens[i] ?? 0) / sum]));
}

const isGuardedTwice = ({ devices }: CircuitView): boolean =>
  (["from", "to"] as const).every((end) => devices?.devices.some((d) => d.end === end) === true);

/** Metal, strands and size in a few words. */
function makeOf({ circuit, design }: CircuitView): string {
  return [circuit.metal, circuit.strands, design.size?.label ?? "", circuit.parallel > 1 ? `× ${circuit.parallel}` : ""]
    .filter((w) => w !== "")
    .join(" ");
}
