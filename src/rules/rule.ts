import type { Citation } from "../explain/index.ts";
import type { Build } from "./build.ts";
import type { CureMove } from "./cure-move.ts";
import type { Finding, Severity } from "./finding.ts";
import type { Report } from "./report.ts";
import type { RuleSetId } from "./rule-set-id.ts";

/** How grave a fault is: the same everywhere, or by rule set. */
export type SeverityBySet =
  Severity | { readonly otherwise: Severity; readonly sets: Readonly<Partial<Record<RuleSetId, Severity>>> };

/** A source of a rule; with `sets`, only for those. */
export interface RuleSource {
  readonly cite: Citation;
  readonly sets?: readonly RuleSetId[];
}

/** A plan in which the rule finds nothing, laid over the base plan of the tests. */
export interface GoodExample {
  /** What is right about it, in a few words. */
  readonly says: string;
  /** Sections in the plan language; entries of the same name replace those of the base plan. */
  readonly plan: string;
}

/** A plan in which the rule finds this, and the rule's own list nothing else. */
export interface BadExample<Message extends string = string> extends GoodExample {
  /** Words that it is found in; or that it cannot be told. */
  readonly fails: Message | "cannot tell";
  /** Key path of what is found. */
  readonly about: string;
}

/**
 * One rule, complete. Adding one is a file and a line in `index.ts`; its page, its tests and its place in every list follow.
 */
export interface Rule<Message extends string = string> {
  /** `<topic>/<the fault>`, so that it reads after "the plan has a(n) …"; never reused. */
  readonly id: string;
  /** The fault in words: `Overloaded conductor`. */
  readonly title: string;
  readonly severity: SeverityBySet;
  /** What could happen in the real world, in a sentence. */
  readonly danger: string;
  /** By message what could happen, where that is something else. */
  readonly dangers?: Readonly<Partial<Record<Message, string>>>;
  /** What is tested and what the numbers are, for the rule's page. */
  readonly why: string;
  /** When it does not apply, for the rule's page. */
  readonly silent: readonly string[];
  readonly sources: readonly RuleSource[];
  /** It judges circuits of alternating current too. */
  readonly alternating?: true;
  /** `{place}`, `{measured}`, `{limit}`, `{state}` and the words that a report adds stand in braces. */
  readonly messages: Readonly<Record<Message, string>>;
  /** What may cure it, the least first; none where only a fact that nobody knows yet, or another build, can. */
  readonly cures: readonly CureMove[];
  /**
   * Reads what was computed and tells every outcome. Never throws on what a person wrote.
   *
   * @param soFar what the rules before it in the list found
   */
  readonly judge: (build: Build, report: Report<Message>, soFar: () => readonly Finding[]) => void;
}

/** A rule as it is written. Its page and its tests read the examples; what is published is built without them. */
export interface RuleWithExamples<Message extends string = string> extends Rule<Message> {
  readonly examples: { readonly good: readonly GoodExample[]; readonly bad: readonly BadExample<Message>[] };
}

/** Gives a rule its types; the list holds rules of all messages. */
export const defineRule = <const Message extends string>(rule: RuleWithExamples<Message>): Rule => rule; // a report of its own messages is all that its judge is ever given

/** How grave a fault of a rule is under a rule set. */
export function severityOf({ severity }: Rule, set: RuleSetId | null): Severity {
  if (typeof severity === "string") return severity;
  return (set === null ? undefined : severity.sets[set]) ?? severity.otherwise;
}

/** The source that a finding under a rule set names; null where the rule is common sense. */
export function sourceOf({ sources }: Rule, set: RuleSetId | null): Citation | null {
  const own = sources.find((s) => set !== null && s.sets?.includes(set) === true);
  return (own ?? sources.find((s) => s.sets === undefined))?.cite ?? null;
}

/** The examples of a rule, which every rule is defined with; for its page and its tests. */
export const examplesOf = (rule: Rule): RuleWithExamples["examples"] => (rule as RuleWithExamples).examples; // `defineRule` takes no other
