import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysFigure } from "../stated.ts";
import { airAt } from "./air-at.ts";
import { batteriesOf } from "./batteries.ts";
import { banksOf } from "./banks.ts";
import { chargersOfBank } from "./chargers.ts";

/** Least temperature at which each chemistry may be charged, °C: `charge_min_temperature` of the battery table. */
const COLDEST = { LFP: 0, lead: -20 } as const;

const LFP = (more: string): string =>
  `  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, ${more} }\n  CHG: { kind: charger, output: 20 A }`;
const wire = "circuits:\n  W20: { path: CHG:out → BP, length: 1 m }";

export const coldCharging = defineRule({
  id: "battery/cold-charging",
  title: "Cold charging",
  severity: "must",
  danger: "lithium that is charged while frozen plates metal inside: it loses capacity for good, and may short later",
  why: `The coldest air around a battery is no colder than it may be charged in (LFP 0 °C, lead −20 °C), or its management is stated to block charging
    below that: \`management: { charging above: 0 °C }\`. A heater alone blocks nothing. The air is the battery's own \`ambient\` range, else that of
    the zones of its place, else the record low of the plan.`,
  silent: ["batteries that nothing charges", "lead start batteries: they take from their alternator what they accept"],
  sources: [
    { cite: cite("abyc-e-13", "charging temperature", "article"), sets: ["us-small-craft"] },
    { cite: cite("data-sheets", "least charging temperature", "article") },
  ],
  messages: {
    open: "{place} may be charged at {measured}; {limit} is the least for {chemistry}, and nothing is said to block it",
    late: "{place} may be charged at {measured}: its management blocks charging below {block} only; {limit} is the least for {chemistry}",
  },
  cures: ["charge-block"],
  examples: {
    good: [
      { says: "nothing charges it", plan: "" },
      {
        says: "its management blocks it",
        plan: `parts:\n${LFP("management: { continuous: 200 A, charging above: 2 °C }")}\n${wire}`,
      },
      {
        says: "it stands where it is warm",
        plan: `parts:\n${LFP("management: { continuous: 200 A }, ambient: 5…30 °C")}\n${wire}`,
      },
      {
        says: "a lead battery in the frost",
        plan: `parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }\n  CHG: { kind: charger, output: 20 A }\n${wire}`,
      },
    ],
    bad: [
      {
        says: "frost, and no block",
        plan: `parts:\n${LFP("management: { continuous: 200 A }, heater: 50 W")}\n${wire}`,
        fails: "open",
        about: "parts.B1",
      },
      {
        says: "a block that comes too late",
        plan: `parts:\n${LFP("management: { continuous: 200 A, charging above: -10 °C }")}\n${wire}`,
        fails: "late",
        about: "parts.B1",
      },
      {
        says: "nobody knows whether it is blocked",
        plan: `parts:\n${LFP("management: { continuous: 200 A, charging above: unknown }")}\n${wire}`,
        fails: "cannot tell",
        about: "parts.B1",
      },
      {
        says: "nobody knows how cold it gets",
        plan: `climate: { ambient: 30 °C, lowest: unknown }\nparts:\n${LFP("management: { continuous: 200 A }")}\n${wire}`,
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const charged = new Set(
      banksOf(build).list.flatMap((b) => (chargersOfBank(build, b).length > 0 ? b.parts.map((p) => p.id) : [])),
    );
    for (const { view, store } of batteriesOf(build)) {
      const { subject } = view;
      const least = COLDEST[store.curve];
      const chemistry = store.unit.chemistry ?? store.curve;
      const { lowest } = airAt(build, view);
      const block = saysFigure(recordOfFacts(factsOf(view), "management", ["charging above"]), "charging above");
      if (!charged.has(view.id)) report.notApplicable(subject, "nothing charges it");
      else if (store.curve === "lead" && store.unit.crankingAmps !== undefined)
        report.notApplicable(subject, "a start battery takes what it accepts");
      else if (block !== undefined && block !== "unknown" && block.low >= least)
        report.pass(subject, { measured: block.low, limit: least, unit: "°C" });
      else if (typeof lowest === "number" && lowest >= least)
        report.pass(subject, { measured: lowest, limit: least, unit: "°C" });
      else if (lowest === undefined && store.curve === "lead")
        report.notApplicable(subject, "the plan does not say how cold it gets");
      else if (block === "unknown") report.cannotTell(subject, [needed("below what it does not charge", subject)]);
      else if (typeof lowest !== "number")
        report.cannotTell(subject, [needed(`how cold it gets around ${view.id}`, subject)]);
      else
        report.fail(subject, block === undefined ? "open" : "late", {
          measured: lowest,
          limit: least,
          unit: "°C",
          margin: -1,
          ...(store.curve === "lead" ? ({ severity: "should", trust: "memory" } as const) : {}),
          words: { chemistry, ...(block === undefined ? {} : { block: { value: block.low, unit: "°C" } }) },
        });
    }
  },
});
