import type { Built, CircuitAt } from "./built.ts";
import type { Explanation } from "./explanation.ts";
import { explainFault } from "./why-fault.ts";
import { explainHeat } from "./why-heat.ts";
import { explainInterrupt } from "./why-interrupt.ts";
import { explainLoop } from "./why-loop.ts";
import { explainMargin } from "./why-margin.ts";
import { explainSelectivity } from "./why-selectivity.ts";

/** What can be asked of a circuit that the studies of a settled build answer. */
export const studyTopics = ["fault", "selectivity", "interrupt", "heat", "margin", "loop"] as const;
export type StudyTopic = (typeof studyTopics)[number];

/** Explains what a study says of a circuit. */
export function explainStudy(built: Built, at: CircuitAt, topic: StudyTopic): Explanation {
  switch (topic) {
    case "fault":
      return explainFault(built, at, null);
    case "selectivity":
      return explainSelectivity(built, at);
    case "interrupt":
      return explainInterrupt(built, at);
    case "heat":
      return explainHeat(built, at);
    case "margin":
      return explainMargin(built, at);
    case "loop":
      return explainLoop(built, at);
  }
}
