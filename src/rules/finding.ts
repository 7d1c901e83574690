import type { Span } from "../diagnostic.ts";
import type { Citation, Trust } from "../explain/index.ts";
import type { Figure, FigureUnit } from "./figure.ts";

/** What a rule can come to, the gravest first. There is no fifth. */
export const outcomes = ["fail", "cannot tell", "pass", "not applicable"] as const;
export type Outcome = (typeof outcomes)[number];

/** must: a law, a "shall" of the chosen rule set, or sure harm · should: advised by a standard, or agreed in the trade · note: worth knowing */
export const severities = ["must", "should", "note"] as const;
export type Severity = (typeof severities)[number];

/** A finding that somebody answers for: it stays visible, and no longer stops the work. */
export interface Waived {
  readonly reason: string;
  /** The person's role. */
  readonly by: string | null;
  /** As written; ISO dates are compared with the day. */
  readonly date: string | null;
  readonly until: string | null;
  readonly evidence: string | null;
  /** It has run out, or gives no reason: the finding stands as if there were none. */
  readonly lapsed: "ended" | "no reason" | "unreadable end" | null;
}

/** A fact without which a rule cannot be told. */
export interface Needed {
  /** In words: `the length`. */
  readonly fact: string;
  /** Key path of the thing that should state it. */
  readonly about: string;
}

/**
 * What a rule has to say of one thing. Its identity is the rule and the thing: of several states the worst stands here and the others are
 * listed. Plain data.
 */
export interface Finding {
  readonly rule: string;
  readonly outcome: "fail" | "cannot tell";
  readonly severity: Severity;
  /** The fault in words: `Overloaded conductor`. */
  readonly title: string;
  /** Key path: `circuits.W13`, one end of it `circuits.W13.from`, `parts.B1`, `systems.DC`, `assumptions.start-time`, `plan`. */
  readonly about: string;
  /** Places in the text, the first is marked. */
  readonly at: readonly Span[];
  /** Operating state or case that decides; null where none matters. */
  readonly state: string | null;
  /** Others in which it is found as well. */
  readonly alsoIn: readonly string[];
  /** Of alternating current: where each switch, plug, source and relay stands in the nearest position in which it is found; absent where none matters. */
  readonly positions?: Readonly<Record<string, string>>;
  readonly measured: Figure | null;
  readonly limit: Figure | null;
  /** How far inside the limit, as a share of it; negative: so far beyond. Null where there is no number. */
  readonly margin: number | null;
  /** What could happen in the real world. */
  readonly danger: string;
  /** What is, with its figures: one sentence. */
  readonly because: string;
  /** Facts that are missing, for what cannot be told. */
  readonly needs: readonly Needed[];
  readonly clause: Citation | null;
  /** Of the weakest number that it leans on. */
  readonly trust: Trust;
  /** Rule set whose wording decides; null where all agree. */
  readonly ruleSet: string | null;
  readonly waived: Waived | null;
}

/** A pass, kept short and flat: a build has thousands. It is put into words when it is printed. */
export interface Pass {
  readonly rule: string;
  readonly about: string;
  /** What was measured, in the unit beside it; null where there is no number. */
  readonly measured: number | null;
  /** What was asked, in the unit beside it; null where there is no number. */
  readonly limit: number | null;
  /** Of both numbers. */
  readonly unit: FigureUnit;
  readonly margin: number | null;
  readonly state: string | null;
}

/** Where a rule does not apply, and why. */
export interface NotApplicable {
  readonly rule: string;
  readonly reason: string;
  readonly about: readonly string[];
}

/** How many of each. */
export interface JudgementTally {
  readonly must: number;
  readonly should: number;
  readonly note: number;
  /** Findings that somebody answers for; counted nowhere else. */
  readonly waived: number;
  readonly cannotTellMust: number;
  readonly cannotTell: number;
  readonly pass: number;
  /** Passes with less than 5 % of margin. */
  readonly thin: number;
  readonly notApplicable: number;
}

/** Everything that the rules say of a build. Plain data. */
export interface Judgement {
  /** Fails and what cannot be told: musts first, then in the order of the rules and of the plan. */
  readonly findings: readonly Finding[];
  readonly passes: readonly Pass[];
  readonly notApplicable: readonly NotApplicable[];
  readonly tally: JudgementTally;
}
