import { cite } from "../../explain/index.ts";
import { rootOf, separate, unite } from "../../switching/index.ts";
import type { Build } from "../build.ts";
import { defineRule } from "../rule.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { oneSource } from "./example-plans.ts";
import { sourcesOf } from "./fed.ts";
import { alternatingPart, switchingOf } from "./switching-of.ts";
import { alternates } from "./tell-states.ts";

const LINES: readonly RuleSetId[] = ["us-rv"];
const ALL_POLES: readonly RuleSetId[] = ["us-small-craft", "iec-cabin", "iec-caravan", "au-nz-vehicle"];

const board = (main: string): string =>
  oneSource({
    set: "iec-caravan",
    parts: {
      INL: "kind: shore inlet, rated: 16 A",
      CU: `kind: consumer unit${main}, ways: { 1: breaker 10 A 2-pole, 2: breaker 10 A 2-pole }`,
      kettle: "kind: load, rated: 1 kW",
    },
    circuits: { W25: "path: CU:2 → kettle, length: 2 m" },
  });

export const missingMainSwitch = defineRule({
  id: "ac/missing-main-switch",
  title: "Missing main switch",
  severity: {
    otherwise: "should",
    sets: { "iec-caravan": "must", "iec-cabin": "must", "au-nz-vehicle": "must", "us-rv": "must" },
  },
  danger: "when it smokes or somebody hangs on it, there is no one handle that takes the mains away",
  why: `For each source that enters from outside one switch, moved by a hand aboard, opens all live poles of all that it feeds; under us-rv, where neutral is earthed, all lines. The device of the only circuit serves as
    well. A plug that can be pulled is no switch.`,
  silent: [
    "us-cabin, iso-small-craft and vehicle-practice, where it is not asked in this form",
    "sources that do not enter from outside",
    "a generator with one load and no more: stopping it takes all away",
  ],
  sources: [
    { cite: cite("iec-60364-7-721", "721", "article"), sets: ["iec-caravan"] },
    { cite: cite("nfpa-70-2023", "551.45", "memory"), sets: ["us-rv"] },
    { cite: cite("trade-practice", "one switch for all of the mains", "practice") },
  ],
  messages: {
    none: "no one switch takes away all that {place} feeds",
    poles: "no one switch opens every live pole of what {place} feeds: the lines alone are opened",
  },
  cures: [],
  examples: {
    good: [
      { says: "a main of two poles", plan: board(", main: breaker 16 A 2-pole") },
      {
        says: "one circuit, whose breaker serves",
        plan: oneSource({
          set: "iec-caravan",
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            CU: "kind: consumer unit, ways: { 1: breaker 10 A 2-pole }",
          },
        }),
      },
      {
        says: "a generator with one tool",
        plan: oneSource({
          set: "iec-caravan",
          parts: {
            GEN: "kind: generator, rated: 2 kVA, neutral: floating",
            CU: null,
            sockets: null,
            drill: "kind: load, running: 3 A, class: II",
          },
          circuits: { W20: null, W23: "path: GEN → drill, length: 3 m" },
        }),
      },
    ],
    bad: [
      { says: "branches and no main", plan: board(""), fails: "none", about: "parts.INL" },
      { says: "a main of one pole", plan: board(", main: breaker 16 A 1-pole"), fails: "poles", about: "parts.INL" },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const entering = [...sourcesOf(build).values()].filter((s) => s.kind === "shore" || s.kind === "generator");
    if (entering.length === 0) report.notApplicable(build.whole, "no source enters from outside");
    for (const source of entering) {
      const subject = alternatingPart(build, source.part);
      const isAsked = subject.set !== null && [...LINES, ...ALL_POLES].includes(subject.set);
      if (!isAsked) {
        report.notApplicable(subject, "its rule set does not ask for it");
        continue;
      }
      if (source.kind === "generator" && feeds(build, source) < 2) {
        report.notApplicable(subject, "it feeds one load alone, and whoever stops it takes all away");
        continue;
      }
      const lines = source.lines.map((l) => l.node);
      const neutral = source.neutral === null ? [] : [source.neutral];
      const wanted = LINES.some((s) => s === subject.set) ? lines : [...lines, ...neutral];
      const takesAway = parting(build);
      if (takesAway(wanted)) report.pass(subject);
      else report.fail(subject, takesAway(lines) ? "poles" : "none");
    }
  },
});

/** How many takers a source reaches with everything closed. */
function feeds(build: Build, { lines }: { readonly lines: readonly { readonly node: number }[] }): number {
  const { problem } = switchingOf(build);
  const parent = separate(problem.nodes.length);
  for (const [a, b] of problem.metal) unite(parent, a, b);
  for (const { a, b } of problem.contacts) unite(parent, a, b);
  const roots = new Set(lines.map((l) => rootOf(parent, l.node)));
  return problem.takers.filter((t) => t.lines.some((n) => roots.has(rootOf(parent, n)))).length;
}

/** Whether one mover that a hand sets parts some nodes from every load, all else closed; sources of others do not count. */
function parting(build: Build): (from: readonly number[]) => boolean {
  const { problem } = switchingOf(build);
  const ends = problem.takers.flatMap((t) => [...t.lines, ...(t.neutral === null ? [] : [t.neutral])]);
  const hands = problem.movers.flatMap((m, i) => (m.by === "hand" ? [i] : []));
  const pieces = hands.map((mover) => {
    const parent = separate(problem.nodes.length);
    for (const [a, b] of problem.metal) unite(parent, a, b);
    for (const { a, b, closed } of problem.contacts) if (closed?.mover !== mover) unite(parent, a, b);
    return parent;
  });
  return (from) =>
    pieces.some((parent) => {
      const roots = new Set(from.map((n) => rootOf(parent, n)));
      return !ends.some((n) => roots.has(rootOf(parent, n)));
    });
}
