import { cite } from "../../explain/index.ts";
import { isUnknown, known } from "../../plan/index.ts";
import { isNoThinner, leastSize } from "../../ruleset/index.ts";
import { drawnMake } from "../conductor/bought-of.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { circuitsInCable, factOfCable } from "./in-cable.ts";

export const longBareTail = defineRule({
  id: "cable/long-bare-tail",
  title: "Long bare tail",
  severity: "must",
  danger: "a thin core without its jacket breaks where it is pulled",
  why: `A core that is too thin to lie by itself is lawful because a sheath bears the pull. Where it leaves the sheath for its terminal only so much of it may
    hang free: 30 inches of 18 AWG, 800 mm of 0.75 mm². A core that is thick enough by itself may come out as far as it likes.`,
  silent: [
    "rule sets other than those of small craft",
    "conductors that lie in no sheath, and those that are thick enough by themselves",
    "plans that say nothing of the tails",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.425(f)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7.7", "read"), sets: ["iso-small-craft"] },
  ],
  messages: { long: "{place} is {size}, and {measured} of it hang outside the sheath; up to {limit} may" },
  cures: ["shorter-tail", "next-size"],
  examples: {
    good: [
      {
        says: "half a metre of 0.75 mm²",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm², sheathed: yes, tail: 500 mm }",
      },
      {
        says: "a metre of what may lie by itself",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm², sheathed: yes, tail: 1 m }",
      },
    ],
    bad: [
      {
        says: "a metre of 0.75 mm²",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm², sheathed: yes, tail: 1 m }",
        fails: "long",
        about: "circuits.W10",
      },
      {
        says: "nobody measured it",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 0.75 mm², sheathed: yes, tail: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, ruleSet, circuit } = c;
      const inSheath = circuit.sheathed === true || circuit.cable !== undefined;
      const fact = inSheath ? factOfCable(circuitsInCable(build, c), "tail") : undefined;
      const make = fact === undefined ? null : drawnMake(build, c);
      if (ruleSet === null || (ruleSet.id !== "us-small-craft" && ruleSet.id !== "iso-small-craft"))
        report.notApplicable(subject, "only the sets of small craft name a length");
      else if (!inSheath) report.notApplicable(subject, "it lies in no sheath");
      else if (fact === undefined)
        report.notApplicable(subject, "the plan does not say how much of its cores lies outside the sheath");
      else if (make === null) report.cannotTell(subject, [needed("its size", subject)]);
      else {
        const { current } = circuit;
        const alone = leastSize(ruleSet.leastSize, { current, sheathed: false });
        const sheathed = leastSize(ruleSet.leastSize, { current, sheathed: true });
        const limit = sheathed?.tail ?? null;
        const length = known(fact);
        if (limit === null || alone === null || isNoThinner(make, alone.size, alone.strands))
          report.notApplicable(subject, "it is thick enough to lie by itself");
        else if (isUnknown(fact) || length === undefined)
          report.cannotTell(subject, [needed("how much of its cores lies outside the sheath", subject)]);
        else if (length.high <= limit)
          report.pass(subject, { measured: length.high, limit, unit: "m", margin: below(length.high, limit) });
        else if (length.low <= limit)
          report.cannotTell(subject, [needed("how much of its cores lies outside the sheath", subject)]);
        else
          report.fail(subject, "long", {
            measured: length.low,
            limit,
            unit: "m",
            margin: below(length.low, limit),
            words: { size: make.size.label },
          });
      }
    }
  },
});
