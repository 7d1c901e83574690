import { cite } from "../../explain/index.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysFigure, saysWord, saysYes } from "../stated.ts";
import { batteriesOf, isBoat } from "./batteries.ts";

/** Metal of the fuel system nearer than this above the top of a battery is shielded, m: 12 in. */
const ABOVE = 0.3;

const near = (fuel: string): string =>
  `parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, fuel: { ${fuel} } }`;

export const batteryByFuel = defineRule({
  id: "battery/battery-by-fuel",
  title: "Battery by fuel",
  severity: "must",
  danger: "a dropped spanner makes an arc that lights the fuel line",
  why: `No battery stands straight above or below a fuel tank, filter or fitting unless a deck or a shield is between them, and metal of the fuel system
    within 300 mm above its top is shielded.`,
  silent: ["plans that name nothing of a fuel system near a battery", "buildings, and vehicles but for au-nz-vehicle"],
  sources: [
    { cite: cite("33-cfr-183", "183.420(c), (d)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "5.6, 5.7", "read"), sets: ["iso-small-craft"] },
    { cite: cite("as-nzs-3001-2", "5.4", "article") },
  ],
  messages: {
    straight: "{place} has fuel {where} it, and nothing between them",
    metal:
      "{place} has metal of the fuel system {measured} above its top, not shielded; {limit} is the least without a shield",
  },
  cures: ["shield-fuel"],
  examples: {
    good: [
      { says: "nothing of it near", plan: near("where: none near") },
      { says: "a deck between", plan: near("where: straight below, shielded: yes") },
      { says: "metal far above", plan: near("where: beside, metal above: 600 mm") },
    ],
    bad: [
      {
        says: "a tank straight below",
        plan: near("where: straight below, shielded: no"),
        fails: "straight",
        about: "parts.B1",
      },
      {
        says: "a fuel line over its posts",
        plan: near("where: beside, metal above: 150 mm, shielded: no"),
        fails: "metal",
        about: "parts.B1",
      },
      { says: "nobody knows what is near", plan: near("where: unknown"), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    for (const { view } of batteriesOf(build)) {
      const { subject } = view;
      const facts = factsOf(view);
      const fuel = recordOfFacts(facts, "fuel", ["where", "metal above", "shielded"]);
      const where = saysWord(fuel, "where", ["straight above", "straight below", "beside", "none near"]);
      const metal = saysFigure(fuel, "metal above");
      const shielded = saysYes(fuel, "shielded");
      const isStraight = where === "straight above" || where === "straight below";
      if (!isBoat(subject.set) && subject.set !== "au-nz-vehicle")
        report.notApplicable(subject, "the set does not ask it");
      else if (facts["fuel"] === undefined)
        report.notApplicable(subject, "the plan names nothing of a fuel system near it");
      else if (where === "none near" || shielded === true) report.pass(subject);
      else if (where === "unknown") report.cannotTell(subject, [needed("what of the fuel system is near it", subject)]);
      else if (shielded === "unknown" && (isStraight || metal !== undefined))
        report.cannotTell(subject, [needed("whether a deck or a shield stands between", subject)]);
      else if (isStraight) report.fail(subject, "straight", { words: { where: where } });
      else if (metal === "unknown") report.cannotTell(subject, [needed("how far above it fuel metal is", subject)]);
      else if (metal !== undefined && metal.low < ABOVE)
        report.fail(subject, "metal", {
          measured: metal.low,
          limit: ABOVE,
          unit: "m",
          margin: above(metal.low, ABOVE),
        });
      else
        report.pass(
          subject,
          metal === undefined ? {} : { measured: metal.low, limit: ABOVE, unit: "m", margin: above(metal.low, ABOVE) },
        );
    }
  },
});
