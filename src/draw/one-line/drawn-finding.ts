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
