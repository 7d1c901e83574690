import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, nearestNames, placed, shown, type Plan } from "../plan/index.ts";
import type { Finding, Waived } from "./finding.ts";

/** A rule id at the start of a waiver's name, then what it is about. */
const WAIVER = /^([a-z]+\/[a-z0-9-]+)\s+(.+)$/;

/** The last word of a key path that names a thing: `circuits.W13.from` → `w13`. */
const thingOf = (about: string): string => foldName(about.replace(/\.(?:from|to)$/, "").replace(/^[a-z]+\./, ""));

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
    waivers.set(`${rule} ${foldName(thing.trim())}`, {
      reason,
      by: known(facts.by) ?? null,
      date: known(facts.date) ?? null,
      until,
      evidence: known(facts.evidence) ?? null,
      lapsed:
        reason === ""
          ? "no reason"
          : until !== null && !isDay(until)
            ? "unreadable end"
            : hasEnded(until, today)
              ? "ended"
              : null,
    });
  }
  return findings.map((f) => {
    const waived = waivers.get(`${f.rule} ${thingOf(f.about)}`);
    return waived === undefined ? f : { ...f, waived };
  });
}

/** Whether a text is a day that there is, as `2027-02-11`. */
function isDay(text: string): boolean {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : null;
  return at !== null && !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
}

/** Days sort as text. */
const hasEnded = (until: string | null, today: string | undefined): boolean =>
  until !== null && today !== undefined && until < today;

/**
 * Says of waivers what is wrong with them: a name that is no rule and thing, a rule or thing that is not there, no reason.
 *
 * @param rules ids of all rules
 * @param things names of parts, circuits and systems
 * @param findings what was found, with the waivers laid over it
 * @param onDemand ids of rules that were not asked, of which nothing can be said
 */
export function checkWaivers(
  plan: Plan,
  rules: readonly string[],
  things: readonly string[],
  findings: readonly Finding[],
  onDemand: readonly string[],
): readonly Diagnostic[] {
  if (plan.waivers.length === 0) return [];
  const ruleIds = new Set(rules);
  const there = new Set(things.map((t) => foldName(t)));
  return plan.waivers.flatMap(({ key, base, keySpan, facts }): Diagnostic[] => {
    const say = (id: string, message: string, hint: string, level: Diagnostic["level"] = "warning"): Diagnostic => ({
      id: `rules/${id}`,
      level,
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
    if (thing !== "plan" && !there.has(foldName(thing.trim()))) {
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
    const until = known(facts.until);
    if (until !== undefined && !isDay(until)) {
      return [
        say(
          "waiver-until",
          `\`${shown(until)}\` is no day, so the waiver does not hold`,
          "write the day as `2027-02-11`",
        ),
      ];
    }
    const said: Diagnostic[] = [];
    if (
      !onDemand.includes(rule) &&
      !findings.some(
        (f) => f.waived !== null && `${f.rule} ${thingOf(f.about)}` === `${rule} ${foldName(thing.trim())}`,
      )
    ) {
      said.push(
        say(
          "waiver-idle",
          `nothing is found by \`${rule}\` in \`${shown(thing)}\`, so there is nothing to waive`,
          "take it out, so that it does not hide what comes later",
          "hint",
        ),
      );
    }
    const lacks = (["by", "until"] as const).filter((key) => known(facts[key]) === undefined);
    if (lacks.length > 0) {
      said.push(
        say(
          "waiver-open",
          `the waiver \`${shown(key)}\` does not say ${lacks[0] === "by" ? "who answers for it" : ""}${lacks.length > 1 ? " and " : ""}${lacks.includes("until") ? "until when" : ""}`,
          `write ${lacks.map((l) => `\`${l}:\``).join(" and ")}`,
          "hint",
        ),
      );
    }
    return said;
  });
}
