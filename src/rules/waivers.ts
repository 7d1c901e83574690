import type { Diagnostic } from "../diagnostic.ts";
import { known, nearestNames, placed, shown, type Plan } from "../plan/index.ts";
import type { Finding, Waived } from "./finding.ts";

/** A rule id at the start of a waiver's name, then what it is about. */
const WAIVER = /^([a-z]+\/[a-z0-9-]+)\s+(.+)$/;

/** The last word of a key path that names a thing: `circuits.W13.from` → `w13`. */
const thingOf = (about: string): string =>
  about
    .replace(/\.(?:from|to)$/, "")
    .replace(/^[a-z]+\./, "")
    .toLowerCase();

/**
 * Lays the waivers of a plan over the findings. A waiver is named `rule thing`, as in `protection/distant-device W04`; it keeps the finding
 * visible and says who answers for it. One that has run out or gives no reason changes nothing but is shown.
 *
 * @param today ISO date; left out: no waiver is taken to have run out
 */
export function waive(findings: readonly Finding[], plan: Plan, today?: string): readonly Finding[] {
  if (plan.waivers.length === 0) return findings;
  const waivers = new Map<string, Waived>();
  for (const { key, facts } of plan.waivers) {
    const [, rule, thing] = WAIVER.exec(key.trim()) ?? [];
    if (rule === undefined || thing === undefined) continue;
    const reason = known(facts.reason)?.trim() ?? "";
    const until = known(facts.until) ?? null;
    waivers.set(`${rule} ${thing.trim().toLowerCase()}`, {
      reason,
      by: known(facts.by) ?? null,
      date: known(facts.date) ?? null,
      until,
      evidence: known(facts.evidence) ?? null,
      lapsed: reason === "" ? "no reason" : hasEnded(until, today) ? "ended" : null,
    });
  }
  return findings.map((f) => {
    const waived = waivers.get(`${f.rule} ${thingOf(f.about)}`);
    return waived === undefined ? f : { ...f, waived };
  });
}

/** ISO dates sort as text; anything else cannot be compared and never runs out. */
const hasEnded = (until: string | null, today: string | undefined): boolean =>
  until !== null && today !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(until) && until < today;

/**
 * Says of waivers what is wrong with them: a name that is no rule and thing, a rule or thing that is not there, no reason.
 *
 * @param rules ids of all rules
 * @param things names of parts, circuits and systems
 */
export function checkWaivers(plan: Plan, rules: readonly string[], things: readonly string[]): readonly Diagnostic[] {
  if (plan.waivers.length === 0) return [];
  const ruleIds = new Set(rules);
  const there = new Set(things.map((t) => t.toLowerCase()));
  return plan.waivers.flatMap(({ key, base, keySpan, facts }): Diagnostic[] => {
    const say = (id: string, message: string, hint: string): Diagnostic => ({
      id: `rules/${id}`,
      level: "warning",
      at: [placed(base, keySpan)],
      about: `waivers.${key}`,
      message,
      hint,
    });
    const [, rule, thing] = WAIVER.exec(key.trim()) ?? [];
    if (rule === undefined || thing === undefined) {
      return [
        say(
          "waiver-name",
          `\`${shown(key)}\` names no rule and thing, so it waives nothing`,
          "write the rule and what it is about, as in `protection/distant-device W04`",
        ),
      ];
    }
    if (!ruleIds.has(rule)) {
      const near = nearestNames(rule, rules)[0];
      return [
        say(
          "waiver-rule",
          `no rule is called \`${shown(rule)}\`, so this waives nothing`,
          near === undefined ? "`wireworthy check` prints the name of each rule" : `did you mean \`${near}\`?`,
        ),
      ];
    }
    if (thing !== "plan" && !there.has(thing.trim().toLowerCase())) {
      const near = nearestNames(thing, things)[0];
      return [
        say(
          "waiver-thing",
          `nothing in the plan is called \`${shown(thing)}\`, so this waives nothing`,
          near === undefined ? "write the name of a part, a circuit or a system" : `did you mean \`${near}\`?`,
        ),
      ];
    }
    if ((known(facts.reason)?.trim() ?? "") === "") {
      return [
        say(
          "waiver-reason",
          "a waiver without a reason waives nothing",
          "write `reason:`, who decided, and until when",
        ),
      ];
    }
    return [];
  });
}
