import { weakestTrust } from "../explain/index.ts";
import type { Subject } from "./build.ts";
import { figure, printFigure, type Figure, type FigureUnit } from "./figure.ts";
import { severities, type Finding, type Needed, type NotApplicable, type Pass } from "./finding.ts";
import type { Measured, Report, Said } from "./report.ts";
import { severityOf, sourceOf, type Rule } from "./rule.ts";

/** A report that can be read out when all rules have spoken. */
export interface Collector {
  readonly reportFor: (rule: Rule) => Report;
  /** What was found so far. */
  readonly findings: () => readonly Finding[];
  readonly passes: () => readonly Pass[];
  readonly notApplicable: () => readonly NotApplicable[];
}

/** Collects what rules report, and puts fails into words as they come. Passes stay numbers. */
export function collect(): Collector {
  const findings: Finding[] = [];
  const passes: Pass[] = [];
  const notApplicable: NotApplicable[] = [];
  /** By thing: where its last pass stands. Rules speak one after the other, so one map serves all and need not grow anew for each. */
  const passed = new Map<string, number>();

  const reportFor = (rule: Rule): Report => {
    /** By thing: where its finding stands. */
    const found = new Map<string, number>();
    const reasons = new Map<string, string[]>();

    const put = (finding: Finding): void => {
      const at = found.get(finding.about);
      const old = at === undefined ? undefined : findings[at];
      if (at === undefined || old === undefined) {
        found.set(finding.about, findings.length);
        findings.push(finding);
        return;
      }
      const isWorse =
        old.outcome !== finding.outcome
          ? finding.outcome === "fail"
          : // By two rule sets: the graver of them.
            old.ruleSet !== finding.ruleSet && old.severity !== finding.severity
            ? severities.indexOf(finding.severity) < severities.indexOf(old.severity)
            : (finding.margin ?? Infinity) < (old.margin ?? Infinity);
      const [kept, other] = isWorse ? [finding, old] : [old, finding];
      const states = new Set([...kept.alsoIn, ...other.alsoIn, ...(other.state === null ? [] : [other.state])]);
      if (kept.state !== null) states.delete(kept.state);
      const needs = kept.outcome === "fail" ? kept.needs : mergeNeeds(kept.needs, other.needs);
      findings[at] = { ...kept, alsoIn: [...states], needs };
    };

    const make = (
      about: Subject,
      said: Said,
      { danger, ...rest }: Pick<Finding, "outcome" | "because" | "needs"> & { readonly danger?: string | undefined },
    ): Finding => {
      const clause = said.source === undefined ? sourceOf(rule, about.set) : said.source;
      const trust = [clause?.trust, said.trust].filter((t) => t !== undefined && t !== null);
      return {
        rule: rule.id,
        severity: said.severity ?? severityOf(rule, about.set),
        title: rule.title,
        about: about.path,
        at: said.at ?? about.at,
        state: said.state ?? null,
        alsoIn: [],
        measured: figureOf(said.measured, said.unit),
        limit: figureOf(said.limit, said.unit),
        margin: finiteOf(said.margin),
        danger: danger ?? rule.danger,
        clause,
        trust: weakestTrust(...trust),
        ruleSet: about.set,
        waived: null,
        ...(said.positions === undefined ? {} : { positions: said.positions }),
        ...rest,
      };
    };

    return {
      pass(about, { measured, limit, unit = "count", margin = null, state = null } = NOTHING_MEASURED) {
        const pass: Pass = {
          rule: rule.id,
          about: about.path,
          measured: finiteOf(measured),
          limit: finiteOf(limit),
          unit,
          margin: finiteOf(margin),
          state,
        };
        const at = passed.get(about.path) ?? -1;
        const old = passes[at];
        if (old?.rule !== rule.id) {
          passed.set(about.path, passes.length);
          passes.push(pass);
        } else if ((margin ?? Infinity) < (old.margin ?? Infinity)) passes[at] = pass;
      },
      fail(about, message, said = {}) {
        const words = { place: about.name, ...figuresOf(said), ...said.words };
        const because = fill(rule.messages[message] ?? message, words);
        put(make(about, said, { outcome: "fail", because, needs: [], danger: rule.dangers?.[message] }));
      },
      cannotTell(about, needs, said = {}) {
        const facts = needs.map((n) => n.fact).join(" and ");
        const because = `${about.name}: ${facts} ${needs.length > 1 ? "are" : "is"} not known`;
        put(make(about, said, { outcome: "cannot tell", because, needs }));
      },
      notApplicable(about, reason) {
        let list = reasons.get(reason);
        if (list === undefined) {
          reasons.set(reason, (list = []));
          notApplicable.push({ rule: rule.id, reason, about: list });
        }
        list.push(about.path);
      },
    };
  };

  return {
    reportFor,
    findings: () => findings,
    // A thing that fails in one state passes in others: only the fail counts.
    passes: () => {
      const bad = new Map<string, Set<string>>();
      for (const { rule, about } of findings) {
        const rules = bad.get(about);
        if (rules === undefined) bad.set(about, new Set([rule]));
        else rules.add(rule);
      }
      return bad.size === 0 ? passes : passes.filter((p) => bad.get(p.about)?.has(p.rule) !== true);
    },
    notApplicable: () => notApplicable,
  };
}

const NOTHING_MEASURED: Measured = {};

function mergeNeeds(a: readonly Needed[], b: readonly Needed[]): readonly Needed[] {
  const known = new Set(a.map((n) => `${n.about} ${n.fact}`));
  return [...a, ...b.filter((n) => !known.has(`${n.about} ${n.fact}`))];
}

/** What has no end is no number. */
const finiteOf = (value: number | null | undefined): number | null =>
  value === undefined || value === null || !Number.isFinite(value) ? null : value;

/** What has no end is no figure. */
const figureOf = (value: number | undefined, unit: FigureUnit = "count"): Figure | null =>
  value === undefined || !Number.isFinite(value) ? null : figure(value, unit);

function figuresOf({ measured, limit, unit, state }: Said): Record<string, string | Figure> {
  const words: Record<string, string | Figure> = {};
  if (measured !== undefined) words["measured"] = figure(measured, unit ?? "count");
  if (limit !== undefined) words["limit"] = figure(limit, unit ?? "count");
  if (state !== undefined && state !== null) words["state"] = state;
  return words;
}

/**
 * Puts words into the braces of a message; what has none stays as it is.
 *
 * @example
 * fill("{place} carries {measured}", { place: "W01", measured: figure(4.2, "A") }) //=> "W01 carries 4.2 A"
 */
export const fill = (message: string, words: Readonly<Record<string, string | Figure>>): string =>
  message.replace(/\{(\w+)\}/g, (brace, name: string) => {
    const word = Object.hasOwn(words, name) ? words[name] : undefined;
    return word === undefined ? brace : typeof word === "string" ? word : printFigure(word);
  });
