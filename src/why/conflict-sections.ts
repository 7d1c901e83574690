import { findConflicts } from "../size/find-conflict.ts";
import type { Built } from "./built.ts";
import type { WorkedSection } from "./explanation.ts";
import { factOf } from "./plan-place.ts";

/** What of a circuit cannot all be, and the ways out; nothing where every constraint is met. Settles the build again and again. */
export function conflictSections(built: Built, index: number): WorkedSection[] {
  const { system, runs, settled, plan, design } = built;
  const own = design.circuits[index];
  const isMet = own?.nothingIsEnough !== true && own?.constraints.every((c) => c.outcome !== "not met") === true;
  if (isMet) return [];
  return findConflicts(system, runs, settled, index).map(({ says, facts, waysOut }): WorkedSection => {
    const places = facts.flatMap(({ fact, says: what }) => {
      const [section, name = "", key = ""] = fact.split(".");
      if (section !== "circuits" && section !== "parts") return [];
      const place = factOf(plan, section, name, key);
      return place === null ? [] : [`${what}: plan, line ${place.line}`];
    });
    const ways = waysOut.map((w) => w.says);
    const next = ways.length === 0 ? "no single change mends it" : `each of these mends it: ${ways.join("; ")}`;
    return {
      title: "What cannot all be",
      says: [says, next, ...places].join(". "),
      steps: [],
      way: [],
    };
  });
}
