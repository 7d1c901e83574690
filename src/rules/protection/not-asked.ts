import type { Build, CircuitView } from "../build.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import type { Report } from "../report.ts";
import { guardsOf, type GuardedCircuit } from "./guards.ts";

/**
 * Tells of a circuit on which no device is asked for, or whose rule set lends no numbers.
 *
 * @returns null: it was told, and the rule has nothing more to say
 */
export function guardedOrTold(build: Build, view: CircuitView, report: Report<never>): GuardedCircuit | null {
  const { subject } = view;
  const why = whyNotAsked(build, view);
  if (typeof why === "string") {
    report.notApplicable(subject, why);
    return null;
  }
  return lacksNumbers(build, view, report) ? null : why;
}

/** Why no device is asked for on a circuit; else what guards it. */
export function whyNotAsked(build: Build, view: CircuitView): GuardedCircuit | string {
  if (view.model === null) return "alternating current is not studied yet";
  const c = guardsOf(build).of(view);
  if (c === null) return "it has no live conductor: a return of the earthed pole needs no device";
  if (view.circuit.cranking) return "the main cable of a starter, and no further";
  if (c.isLink) return "a link between units of one string";
  return c;
}
