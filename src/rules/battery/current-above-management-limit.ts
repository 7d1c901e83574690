import { cite } from "../../explain/index.ts";
import { defineRule } from "../rule.ts";
import { bankFlowsOf } from "./bank-flows.ts";
import { banksOf } from "./banks.ts";
import { openAmps } from "./open-amps.ts";
import { tellLoads } from "./tell-loads.ts";
import { limitsOf, type LimitFor } from "./unit-limits.ts";

const limited = (amps: number): string =>
  `chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: ${amps} A, peak: 400 A }`;
const two = `circuits:\n  W20: { path: B2 → SW1, length: 0.8 m }\n  W21: { path: B2:− → BN, length: 0.6 m }`;

export const currentAboveManagementLimit = defineRule({
  id: "battery/current-above-management-limit",
  title: "Current above the limit of the management",
  severity: "must",
  danger: "the management opens, and everything that hangs on the bank is dead at once",
  why: `The current that each unit gives or takes for long, as its bank divides it, may not exceed what its management lets through: in every state, with
    each load and inverter alone on the emptiest bank, and with each source at its rating. With one unit of several switched off by its management
    the others should carry what is left to them. What a maker allows to charge is a rule of its own.`,
  silent: ["batteries without a management, whose maker states no limits"],
  sources: [{ cite: cite("trade-practice", "limits of the makers of batteries, for each unit", "practice") }],
  messages: {
    gives: "{place} gives {measured} for long ({state}); its management lets {limit} through",
    takes: "{place} takes {measured} while it charges ({state}); its management lets {limit} through",
    lost: "{place} carries {measured} for long ({state}) with {off} switched off; its management lets {limit} through",
  },
  cures: ["another-unit", "stagger"],
  examples: {
    good: [
      { says: "within its limit", plan: "" },
      {
        says: "a lead battery that states nothing",
        plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }",
      },
    ],
    bad: [
      {
        says: "a heater of 60 A on a battery of 50 A",
        plan: `parts:\n  B1: { kind: battery, ${limited(50)} }\n  lamp: { kind: light, running: 60 A }`,
        fails: "gives",
        about: "parts.B1",
      },
      {
        says: "a charger of 80 A on a management of 50 A",
        plan: `parts:\n  B1: { kind: battery, ${limited(50)} }\n  CHG: { kind: charger, output: 80 A }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }`,
        fails: "takes",
        about: "parts.B1",
      },
      {
        says: "two units that can share what one alone cannot carry",
        plan: `parts:\n  B1: { kind: battery, ${limited(60)} }\n  B2: { kind: battery, ${limited(60)} }\n  lamp: { kind: light, running: 90 A }\n${two}`,
        fails: "lost",
        about: "parts.B1",
      },
      {
        says: "nobody knows the limit",
        plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, management: { continuous: unknown } }",
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const { stores } = build.settled.model.grid;
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const own = bank.units.flatMap((i) => stores[i]?.element ?? []);
      if (own.every((s) => limitsOf(s).out === undefined && limitsOf(s).into === undefined)) {
        report.notApplicable(subject, "its maker states no limits");
        continue;
      }
      const { steady, steadyWithout } = bankFlowsOf(build);
      tellLoads(build, report, bank, {
        flows: steady,
        without: steadyWithout,
        limitFor: steadyLimit,
        limit: "the limit",
        beyond: ({ charging }) => (charging ? "takes" : "gives"),
        lost: "lost",
        first: [],
        last: openAmps(build, stores[bank.top[0] ?? -1]?.plus ?? -1),
      });
    }
  },
});

const steadyLimit: LimitFor = (store, { charging }) => {
  const { out, into } = limitsOf(store);
  return charging
    ? { limit: into, fact: `what the management of ${store.part} lets through for long` }
    : { limit: out, fact: `what the management of ${store.part} lets through for long` };
};
