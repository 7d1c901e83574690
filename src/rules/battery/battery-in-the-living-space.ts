import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysWord, saysYes } from "../stated.ts";
import { batteriesOf, isBoat, isRoad } from "./batteries.ts";

const van = (more: string): string =>
  `rules: { DC: au-nz-vehicle 2022 }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA${more} }`;

export const batteryInTheLivingSpace = defineRule({
  id: "battery/battery-in-the-living-space",
  title: "Battery in the living space",
  severity: { otherwise: "note", sets: { "au-nz-vehicle": "must", "iec-caravan": "should", "us-rv": "should" } },
  danger: "people sleep beside the smoke of a battery that fails",
  why: `A battery where people live or sleep stands in a box that is tight to the inside and open to outside air alone. au-nz-vehicle asks it of every
    battery in a habitable area; on boats it is worth knowing.`,
  silent: ["batteries that the plan does not put into a living space", "buildings"],
  sources: [
    { cite: cite("as-nzs-3001-2", "5.4", "article"), sets: ["au-nz-vehicle"] },
    { cite: cite("nfpa-70-2023", "552.10(D)", "read"), sets: ["us-rv"] },
    { cite: cite("trade-practice", "batteries are kept apart from where people sleep", "practice") },
  ],
  messages: {
    open: "{place} stands where people live or sleep, without a box that is tight to the inside and vented outside",
  },
  cures: ["closed-box"],
  examples: {
    good: [
      { says: "not in the living space", plan: van(", in living space: no") },
      { says: "in a sealed box", plan: van(", in living space: yes, box: sealed") },
    ],
    bad: [
      { says: "under the bed", plan: van(", in living space: yes, box: none"), fails: "open", about: "parts.B1" },
      {
        says: "nobody knows of the box",
        plan: van(", in living space: yes, box: unknown"),
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const { view } of batteriesOf(build)) {
      const { subject } = view;
      const facts = factsOf(view);
      const lives = saysYes(facts, "in living space");
      const box = saysWord(facts, "box", ["none", "vented", "sealed"]);
      const to = saysWord(recordOfFacts(facts, "vents", ["to"]), "to", ["outside", "room", "none"]);
      const isTight = box === "sealed" && to !== "room";
      if (!isBoat(subject.set) && !isRoad(subject.set)) report.notApplicable(subject, "it is no boat and no vehicle");
      else if (lives === undefined) report.notApplicable(subject, "the plan does not put it into a living space");
      else if (isTight || lives === false) report.pass(subject);
      else if (lives === "unknown") report.cannotTell(subject, [needed("whether people live or sleep there", subject)]);
      else if (box === "unknown") report.cannotTell(subject, [needed("the box that it stands in", subject)]);
      else report.fail(subject, "open");
    }
  },
});
