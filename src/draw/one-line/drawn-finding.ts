import { cleanText } from "../clean-text.ts";

/** What a drawing has to know of a finding: what it is about, how grave it is, and its words. */
export interface DrawnFinding {
  readonly rule: string;
  readonly outcome: "pass" | "fail" | "not applicable" | "cannot tell";
  readonly severity: "must" | "should" | "note";
  /** Key path in the plan: `circuits.W13`, `parts.fridge`. */
  readonly about: string;
  readonly title: string;
  readonly because: string;
  readonly cure?: string;
  /** Facts that are missing, where it cannot be told: in words, and the key path of what should state them. */
  readonly needs?: readonly { readonly fact: string; readonly about: string }[];
}

/** The four shapes by which findings are told apart, in colour and in grey. */
export type Gravity = "fail" | "warn" | "note" | "unknown";

const GRAVITIES: readonly Gravity[] = ["fail", "warn", "unknown", "note"];

/**
 * The shape of a finding; null: it passes or does not apply, and is not drawn.
 *
 * @example
 * gravityOf({ rule: "a/b", outcome: "fail", severity: "should", about: "", title: "", because: "" }) //=> "warn"
 */
export function gravityOf({ outcome, severity }: DrawnFinding): Gravity | null {
  if (outcome === "cannot tell") return "unknown";
  if (outcome !== "fail") return null;
  return severity === "must" ? "fail" : severity === "should" ? "warn" : "note";
}

/** The gravest comes first. */
export const byGravity = (a: Gravity, b: Gravity): number => GRAVITIES.indexOf(a) - GRAVITIES.indexOf(b);

/** Whether it cannot be told for want of a rule set's numbers alone: that is so of a whole system, and no fault of the thing. */
export const isUnjudged = ({ outcome, needs = [] }: DrawnFinding): boolean =>
  outcome === "cannot tell" && needs.length > 0 && needs.every(({ about }) => /^systems(\.|$)/.test(about));

/**
 * What findings of that kind come to, in a sentence; none: there are none.
 *
 * @example
 * const needs = [{ fact: "which rule set is meant", about: "systems.DC" }]
 * const finding = { rule: "a/b", outcome: "cannot tell", severity: "must", about: "circuits.W1", title: "", because: "", needs }
 * unjudgedIn([finding, finding]) //=> ["Not judged: what hangs on which rule set is meant."]
 */
export function unjudgedIn(findings: readonly DrawnFinding[]): string[] {
  const facts = findings.filter(isUnjudged).flatMap(({ needs = [] }) => needs.map(({ fact }) => fact));
  const said = [...new Set(facts)].map((fact) => {
    const text = cleanText(fact).replace(/,$/, "");
    return text.startsWith("what ") ? text : `what hangs on ${text}`;
  });
  return said.length === 0 ? [] : [`Not judged: ${said.join("; ")}.`];
}
