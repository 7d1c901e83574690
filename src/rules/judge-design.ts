import type { Computed } from "./build.ts";
import { alternatingBuilds, buildsBySet, directOnly, onlyOf } from "./build-by-set.ts";
import {
  severities,
  type Finding,
  type Judgement,
  type JudgementTally,
  type NotApplicable,
  type Pass,
} from "./finding.ts";
import { collect } from "./collect.ts";
import type { Rule } from "./rule.ts";
import { waive } from "./waivers.ts";

/** Passes with less than this margin are thin. */
const THIN = 0.05;

export interface JudgeOptions {
  /** ISO date, by which waivers run out. */
  readonly today?: string;
}

/**
 * Judges a computed build by a list of rules. Every rule says one of four things of every thing that it speaks of; nothing is left out in
 * silence, and nothing that a person wrote makes a rule throw. A circuit that follows two rule sets is judged by both: the worse counts, under the set that it is of.
 *
 * @returns musts first, then in the order of the rules and of the plan
 */
export function judgeDesign(computed: Computed, rules: readonly Rule[], options: JudgeOptions = {}): Judgement {
  const [{ build }, ...others] = buildsBySet(computed);
  const ofAlternating = alternatingBuilds(computed);
  const isDirect = directOnly(computed);
  const collector = collect();
  for (const rule of rules) {
    const report = collector.reportFor(rule);
    const judgesBoth = rule.alternating === true && ofAlternating.length > 0;
    rule.judge(build, judgesBoth ? onlyOf(report, isDirect) : report, collector.findings);
    for (const other of judgesBoth ? ofAlternating : [])
      rule.judge(other.build, onlyOf(report, other.speaksOf), collector.findings);
    for (const other of others) rule.judge(other.build, onlyOf(report, other.speaksOf), collector.findings);
  }
  const waived = waive(collector.findings(), computed.plan, options.today);
  const findings = severities.flatMap((severity) => waived.filter((f) => f.severity === severity));
  const passes = collector.passes();
  const notApplicable = collector.notApplicable();
  return { findings, passes, notApplicable, tally: tallyOf(findings, passes, notApplicable) };
}

function tallyOf(
  findings: readonly Finding[],
  passes: readonly Pass[],
  notApplicable: readonly NotApplicable[],
): JudgementTally {
  const open = findings.filter((f) => f.waived === null || f.waived.lapsed !== null);
  const count = (outcome: Finding["outcome"], severity: Finding["severity"]): number =>
    open.filter((f) => f.outcome === outcome && f.severity === severity).length;
  return {
    must: count("fail", "must"),
    should: count("fail", "should"),
    note: count("fail", "note"),
    waived: findings.length - open.length,
    cannotTellMust: count("cannot tell", "must"),
    cannotTell: open.filter((f) => f.outcome === "cannot tell").length,
    pass: passes.length,
    thin: passes.filter((p) => p.margin !== null && p.margin < THIN).length,
    notApplicable: notApplicable.reduce((sum, n) => sum + n.about.length, 0),
  };
}
