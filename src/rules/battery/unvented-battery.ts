import { cite } from "../../explain/index.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysFigure, saysWord, saysYes } from "../stated.ts";
import { askOnce, batteriesOf, type Battery } from "./batteries.ts";

/** Openings near the bottom and near the top that the American set for recreational vehicles asks, mm²: 1.7 in². */
const OPENING = 1100;

const wet = (more: string): string => `parts:\n  B1: { kind: battery, chemistry: flooded, capacity: 200 Ah${more} }`;
const rv = (more: string): string =>
  `rules: { DC: us-rv NEC 2023 }\nparts:\n  B1: { kind: battery, chemistry: flooded, capacity: 200 Ah${more} }`;

export const unventedBattery = defineRule({
  id: "battery/unvented-battery",
  title: "Unvented battery",
  severity: "must",
  danger: "hydrogen gathers, and the spark of one relay sets it off",
  why: `Lead batteries that are open to refill gas whenever they are charged, so the gas needs a way to outside air: \`vents: { to: outside }\`. us-rv
    asks for openings of 1100 mm² near the bottom and near the top of a box that is tight to the inside. Sealed lead batteries gas when they are
    overcharged: they stand in the open, or in a box with a vent. Under iso-small-craft what a lithium cell vents in a fault may not endanger people.`,
  silent: [
    "sealed lead batteries that are not said to stand in a closed box: they stand in open air",
    "lithium, but for iso-small-craft: it gives off no gas in use",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.420(e)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-23625-2025", "venting of cells", "article"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "552.10(D)", "read"), sets: ["us-rv"] },
    { cite: cite("as-nzs-3001-2", "5.4", "article"), sets: ["au-nz-vehicle"] },
    { cite: cite("trade-practice", "gas of batteries is led to outside air", "practice") },
  ],
  messages: {
    none: "{place} ({chemistry}): its gas has no way to outside air",
    small: "{place} ({chemistry}): its vent near the {end} has {measured}; {limit} is the least",
  },
  cures: ["vent-outside"],
  examples: {
    good: [
      { says: "vented outside", plan: wet(", vents: { to: outside }") },
      { says: "sealed lead in the open", plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }" },
      {
        says: "a vent pair of the size that is asked",
        plan: rv(", vents: { to: outside, low: 1200 mm², high: 1200 mm² }"),
      },
    ],
    bad: [
      { says: "flooded cells in a closed box", plan: wet(", vents: { to: none }"), fails: "none", about: "parts.B1" },
      {
        says: "flooded cells in the living space",
        plan: wet(", vents: { to: room }, in living space: yes"),
        fails: "none",
        about: "parts.B1",
      },
      {
        says: "a vent that is too small",
        plan: rv(", vents: { to: outside, low: 400 mm², high: 1200 mm² }"),
        fails: "small",
        about: "parts.B1",
      },
      { says: "the plan does not say", plan: wet(""), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    const silent: Battery[] = [];
    for (const battery of batteriesOf(build)) {
      const { view, store } = battery;
      const { subject } = view;
      const facts = factsOf(view);
      const vents = recordOfFacts(facts, "vents", ["to", "low", "high"]);
      const to = saysWord(vents, "to", ["outside", "room", "none"]);
      const box = saysWord(facts, "box", ["none", "vented", "sealed"]);
      const chemistry = store.unit.chemistry ?? "unknown";
      const isWet = chemistry === "flooded" || chemistry === "unknown";
      const words = { words: { chemistry: chemistry === "unknown" ? "its chemistry is not known" : chemistry } };
      if (store.curve === "LFP" && subject.set !== "iso-small-craft")
        report.notApplicable(subject, "lithium gives off no gas in use");
      else if (to === "unknown") report.cannotTell(subject, [needed("where its gas goes", subject)]);
      // A sealed box is open to outside air alone.
      else if (to === undefined && box === "sealed") report.pass(subject);
      else if (to === undefined && !isWet && store.curve === "lead" && box !== "vented")
        report.notApplicable(subject, "it is sealed, and stands in open air");
      else if (to === undefined) silent.push(battery);
      else if (to === "none") report.fail(subject, "none", words);
      else if (to === "room" && (isWet || store.curve === "LFP") && saysYes(facts, "in living space") !== false)
        report.fail(subject, "none", words);
      else if (to === "room" || subject.set !== "us-rv") report.pass(subject);
      else {
        const ends = (["low", "high"] as const).map((end) => ({ end, area: saysFigure(vents, end) }));
        const small = ends.find(({ area }) => area !== undefined && area !== "unknown" && area.high < OPENING);
        const open = ends.filter(({ area }) => area === undefined || area === "unknown");
        if (small !== undefined && typeof small.area === "object")
          report.fail(subject, "small", {
            measured: small.area.high,
            limit: OPENING,
            unit: "mm²",
            margin: above(small.area.high, OPENING),
            words: { ...words.words, end: small.end === "low" ? "bottom" : "top" },
          });
        else if (open.length > 0) report.cannotTell(subject, [needed("the size of its vents", subject)]);
        else report.pass(subject);
      }
    }
    askOnce(
      report,
      silent,
      () => true,
      (names) => `where the gas of ${names} goes`,
    );
  },
});
