import type { Built } from "./built.ts";
import type { Explanation } from "./explanation.ts";
import { cautionsOf, listLeaning, type Thing } from "./leans-on.ts";

/** An explanation with nothing but its answer. */
export const emptyExplanation = (subject: string, question: string, answer: string): Explanation => ({
  subject,
  question,
  answer,
  figures: [],
  ladder: [],
  sections: [],
  leansOn: [],
  changes: [],
  cautions: [],
  further: [],
});

/** Adds what an explanation leans on, and what has to be minded of that. */
export function finish(built: Built, explanation: Explanation, things: readonly Thing[]): Explanation {
  const leansOn = [...explanation.leansOn, ...listLeaning(built, things, explanation.sections)];
  const untold = built.design.circuits
    .filter((c) => c.current === "DC" && c.outcome === "cannot tell")
    .map((c) => c.id);
  const cautions = [...explanation.cautions, ...cautionsOf(leansOn)];
  if (untold.length > 0 && explanation.sections.some((s) => s.way.length > 0)) {
    cautions.push(
      `What is lost in wires that cannot be told is not in these volts: ${untold.slice(0, 8).join(", ")}${untold.length > 8 ? " …" : ""}.`,
    );
  }
  if (!built.design.settled) cautions.push("The sizes of this build did not come to rest: take nothing here as final.");
  return { ...explanation, leansOn, cautions };
}
