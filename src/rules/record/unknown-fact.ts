import { foldName, known } from "../../plan/index.ts";
import type { Build, Subject } from "../build.ts";
import type { Severity } from "../finding.ts";
import { defineRule } from "../rule.ts";

/** At most so many rules are named. */
const MOST_NAMED = 4;

export const unknownFact = defineRule({
  id: "record/unknown-fact",
  title: "Unknown fact",
  severity: "should",
  danger: "what is not known is not safe",
  why: `Where a plan marks a fact as unknown, every rule that needs it cannot be told. Here they are gathered by the thing that should supply it, those
    that block most rules first: the list of what to measure, to open up, or to ask the maker for. One that blocks a must is a must.`,
  silent: [
    "a build in which every rule can be told",
    "a fact that the plan does not state at all and that a rule misses: the rule says so itself",
    "what cannot be told because the numbers of a rule set are not carried yet: that is no fact of the plan",
  ],
  sources: [],
  messages: {
    blocks: "{place}: {count} cannot be told without {facts} ({rules})",
  },
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
    interface Gap {
      readonly facts: Set<string>;
      readonly rules: Set<string>;
      severity: Severity;
      blocked: number;
    }
    const gaps = new Map<string, Gap>();
    for (const finding of soFar()) {
      if (finding.outcome !== "cannot tell") continue;
      for (const { fact, about } of finding.needs) {
        // What a rule set asks is not the plan's to supply.
        if (about.startsWith("systems.")) continue;
        let gap = gaps.get(about);
        if (gap === undefined)
          gaps.set(about, (gap = { facts: new Set(), rules: new Set(), severity: "should", blocked: 0 }));
        gap.facts.add(fact);
        gap.rules.add(finding.rule);
        gap.blocked++;
        if (finding.severity === "must") gap.severity = "must";
      }
    }
    const places = new Map<string, Subject>([
      ...build.circuits.map((c) => [c.subject.path, c.subject] as const),
      ...build.parts.map((p) => [p.subject.path, p.subject] as const),
      ...build.system.supplies.map((s) => [build.supply(s).path, build.supply(s)] as const),
    ]);
    const sorted = [...gaps].sort(([, a], [, b]) => b.blocked - a.blocked);
    for (const [about, { facts, rules, severity, blocked }] of sorted) {
      if (!isMarked(build, about) || isCopied(build, about, facts, gaps)) continue;
      const place = places.get(about) ?? { ...build.whole, path: about, name: about };
      const names = [...rules];
      const more = names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : "";
      const list = [...facts].map((f) => f.replace(/,$/, ""));
      report.fail(place, "blocks", {
        severity,
        words: {
          facts: list.join(", "),
          count: blocked === 1 ? "one judgement" : `${blocked} judgements`,
          rules: `${names.slice(0, MOST_NAMED).join(", ")}${more}`,
        },
      });
    }
    if (gaps.size === 0) report.pass(build.whole);
  },
});

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

/** Whether what a part lacks is lacking in the part that it is like: that one speaks for both. */
function isCopied(
  build: Build,
  about: string,
  facts: ReadonlySet<string>,
  gaps: ReadonlyMap<string, { readonly facts: ReadonlySet<string> }>,
): boolean {
  const part = about.startsWith("parts.") ? build.part(about.slice("parts.".length)) : undefined;
  const like = known(part?.plan?.facts.like);
  if (part === undefined || like === undefined) return false;
  const other = build.parts.find((p) => foldName(p.id) === foldName(like));
  const theirs = other === undefined ? undefined : gaps.get(other.subject.path)?.facts;
  if (other === undefined || theirs === undefined) return false;
  const nameless = (fact: string, id: string): string => fact.replaceAll(id, "…");
  const lacking = new Set([...theirs].map((f) => nameless(f, other.id)));
  return [...facts].every((f) => lacking.has(nameless(f, part.id)));
}
