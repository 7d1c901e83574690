import { cite } from "../../explain/index.ts";
import { oneSource, shoreAndInverter } from "../ac/example-plans.ts";
import { sourcesOf, takersOf } from "../ac/fed.ts";
import { alternatingPart, statesOf } from "../ac/switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "../ac/tell-states.ts";
import { defineRule } from "../rule.ts";

const CHARGER = { CHG: "kind: charger, output: 20 A, input: 2 A" };

export const chargerOnItsOwnInverter = defineRule({
  id: "charging/charger-on-its-own-inverter",
  title: "Charger on its own inverter",
  severity: "must",
  danger: "the bank charges itself through two machines that each lose a tenth, until it is empty",
  why: `In no state that the switches can be set to may a charger be fed by an inverter that takes from the bank which the charger fills. A charger belongs ahead of the transfer, on the side of shore power.`,
  silent: ["builds without a charger", "an inverter on another bank than the charger's"],
  sources: [{ cite: cite("trade-practice", "a charger ahead of the transfer", "practice") }],
  messages: {
    circle:
      "with {state}, {place} is fed by {inverter} and charges the bank that it takes from; the way there: {steps}",
  },
  cures: [],
  examples: {
    good: [
      {
        says: "ahead of the transfer switch",
        plan: shoreAndInverter({
          parts: CHARGER,
          circuits: { W25: "path: CU:2 → CHG:in, length: 1 m", W26: "path: CHG:out → BP, length: 1 m" },
        }),
      },
      { says: "no charger", plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A" } }) },
    ],
    bad: [
      {
        says: "behind the transfer switch",
        plan: shoreAndInverter({
          parts: CHARGER,
          circuits: { W25: "path: TS:out → CHG:in, length: 1 m", W26: "path: CHG:out → BP, length: 1 m" },
        }),
        fails: "circle",
        about: "parts.CHG",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const takers = takersOf(build);
    const sources = sourcesOf(build);
    const verdicts = new Map<string, StateVerdict<"circle">>();
    for (const { id, part, kind } of takers.values())
      if (kind === "charger") verdicts.set(id, verdictOn(alternatingPart(build, part)));
    if (verdicts.size === 0) report.notApplicable(build.whole, "there is no charger");
    for (const state of statesOf(build))
      for (const { charger, inverter } of state.ownCharge) {
        const words = { inverter: sources.get(inverter)?.part ?? inverter };
        verdicts.get(charger)?.faults.push({ message: "circle", state, said: { words }, taker: charger });
      }
    tellStates(build, report, verdicts.values());
  },
});
