import { foldName, known } from "../../plan/index.ts";
import type { Build, Subject } from "../build.ts";
import type { Finding } from "../finding.ts";
import { defineRule } from "../rule.ts";

/** At most so many rules are named. */
const MOST_NAMED = 4;

export const unknownFact = defineRule({
  id: "record/unknown-fact",
  title: "Unknown fact",
  severity: "should",
  danger: "what is not known cannot be leaned on",
  why: `Where a plan marks a fact as unknown, every rule that needs it cannot be told. Here they are gathered by the thing that should supply it, those
    that block most rules first: the list of what to measure, to open up, or to ask the maker for. One that blocks a must is a must.`,
  silent: [
    "what cannot be told because no known rule set is named: record/unnamed-rule-set tells of it",
    "a build in which every rule can be told",
    "a fact that the plan does not state at all and that a rule misses: the rule says so itself",
  ],
  sources: [],
  messages: {
    blocks: "{place}: {count} cannot be told without {facts} ({rules})",
  },
  cures: [],
  examples: {
    good: [{ says: "everything is known", plan: "" }],
    bad: [
      {
        says: "a wire that nobody has seen",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: unknown, breaker: 5 A at PNL, as found: yes }",
        fails: "blocks",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report, soFar) {
    const gaps = findGaps(soFar());
    const places = new Map<string, Subject>([
      ...build.circuits.map((c) => [c.subject.path, c.subject] as const),
      ...build.parts.map((p) => [p.subject.path, p.subject] as const),
    ]);
    let isTold = true;
    const blocked = (facts: Facts): number => [...facts.values()].reduce((sum, f) => sum + f.blocked, 0);
    for (const [about, all] of [...gaps].sort(([, a], [, b]) => blocked(b) - blocked(a))) {
      const facts = withoutCopied(build, about, all, gaps);
      if (facts.size === 0 || !isMarked(build, about)) continue;
      isTold = false;
      const rules = [...new Set([...facts.values()].flatMap((f) => [...f.rules]))];
      const more = rules.length > MOST_NAMED ? ` and ${rules.length - MOST_NAMED} more` : "";
      const count = blocked(facts);
      report.fail(places.get(about) ?? { ...build.whole, path: about, name: about }, "blocks", {
        severity: [...facts.values()].some((f) => f.isMust) ? "must" : "should",
        words: {
          facts: [...facts.keys()].map((f) => f.replace(/,$/, "")).join(", "),
          count: count === 1 ? "one judgement" : `${count} judgements`,
          rules: `${rules.slice(0, MOST_NAMED).join(", ")}${more}`,
        },
      });
    }
    if (isTold) report.pass(build.whole);
  },
});

/** What waits for a fact. */
interface Waiting {
  readonly rules: Set<string>;
  blocked: number;
  isMust: boolean;
}
type Facts = ReadonlyMap<string, Waiting>;

/** The facts that are missing, by the thing that should state them. */
function findGaps(findings: readonly Finding[]): ReadonlyMap<string, Facts> {
  const gaps = new Map<string, Map<string, Waiting>>();
  for (const { outcome, rule, severity, needs } of findings) {
    if (outcome !== "cannot tell") continue;
    for (const { fact, about } of needs) {
      // What a rule set asks is not the plan's to supply.
      if (about.startsWith("systems.")) continue;
      let facts = gaps.get(about);
      if (facts === undefined) gaps.set(about, (facts = new Map<string, Waiting>()));
      let waiting = facts.get(fact);
      if (waiting === undefined) facts.set(fact, (waiting = { rules: new Set(), blocked: 0, isMust: false }));
      waiting.rules.add(rule);
      waiting.blocked++;
      if (severity === "must") waiting.isMust = true;
    }
  }
  return gaps;
}

/** Whether the plan marks any fact of a thing as unknown. */
function isMarked(build: Build, about: string): boolean {
  const [section = "", ...rest] = about.split(".");
  const id = rest.join(".");
  if (section === "circuits") return holdsUnknown(build.circuit(id)?.plan?.facts, DEPTH);
  const part = section === "parts" ? build.part(id)?.plan : undefined;
  return part !== undefined && (holdsUnknown(part.facts, DEPTH) || holdsUnknown(part.kindFacts, DEPTH));
}

/** Records within records within lists; no fact lies deeper. */
const DEPTH = 8;

function holdsUnknown(value: unknown, depth: number): boolean {
  if (value === "unknown") return true;
  if (typeof value !== "object" || value === null || depth === 0) return false;
  return Object.values(value).some((inner) => holdsUnknown(inner, depth - 1));
}

/** What a part lacks, but for what the part that it is like lacks too: that one speaks for both. */
function withoutCopied(build: Build, about: string, facts: Facts, gaps: ReadonlyMap<string, Facts>): Facts {
  const part = about.startsWith("parts.") ? build.part(about.slice("parts.".length)) : undefined;
  const like = known(part?.plan?.facts.like);
  const other = like === undefined ? undefined : build.parts.find((p) => foldName(p.id) === foldName(like));
  const theirs = other === undefined ? undefined : gaps.get(other.subject.path);
  if (part === undefined || other === undefined || theirs === undefined) return facts;
  // Facts name the part that they are of.
  const nameless = (fact: string, id: string): string => fact.replaceAll(id, "…");
  const copied = new Set([...theirs.keys()].map((f) => nameless(f, other.id)));
  return new Map([...facts].filter(([fact]) => !copied.has(nameless(fact, part.id))));
}
