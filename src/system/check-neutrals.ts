import type { Diagnostic } from "../diagnostic.ts";
import { placed, shown, type Fact } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";

/** What each word for a neutral says of its join with earth. */
const JOINS: Readonly<Record<string, boolean>> = {
  floating: false,
  never: false,
  "joined to earth": true,
  always: true,
};

/** A generator of which two keys say of its neutral what cannot both be. */
export function checkNeutrals(parts: readonly BoundPart[], say: (d: Diagnostic) => void): void {
  for (const { key, plan } of parts) {
    const facts: Partial<Record<string, Fact<unknown>>> = plan.kindFacts;
    const [neutral, join] = [facts["neutral"], facts["neutral–earth join"]];
    if (typeof neutral?.value !== "string" || typeof join?.value !== "string") continue;
    const [one, other] = [JOINS[neutral.value], JOINS[join.value]];
    if (one === undefined || other === undefined || one === other) continue;
    say({
      id: "system/neutral-contradicts-itself",
      level: "error",
      at: [placed(plan.base, join.span), placed(plan.base, neutral.span)],
      about: `parts.${key}.neutral–earth join`,
      message: `\`neutral: ${neutral.value}\` and \`neutral–earth join: ${join.value}\` of \`${shown(key)}\` cannot both be`,
      hint: `keep one of them: \`neutral: ${other ? "joined to earth" : "floating"}\` says the same as \`neutral–earth join: ${join.value}\``,
    });
  }
}
