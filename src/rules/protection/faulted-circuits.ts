import { studyEnds, type CircuitFaults, type EndFaults } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Report } from "../report.ts";
import { whyNotAsked } from "./not-asked.ts";

/** Hands every circuit in which a short draws something to a rule, with its faults; of the others it is told why they are not judged. */
export function judgeFaulted<Message extends string>(
  build: Build,
  report: Report<Message>,
  judge: (view: CircuitView, faults: CircuitFaults, study: EndFaults) => void,
): void {
  const study = studyEnds(build.settled);
  const faultsOf = new Map(study.circuits.flatMap((c) => (c === null ? [] : [[c.circuit, c] as const])));
  for (const view of build.circuits) {
    const why = whyNotAsked(build, view);
    const faults = faultsOf.get(view.id);
    if (typeof why === "string") report.notApplicable(view.subject, why);
    else if (faults === undefined) report.notApplicable(view.subject, "no short in it draws anything");
    else judge(view, faults, study);
  }
}
