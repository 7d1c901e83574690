import { cite } from "../../explain/index.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { alternatingOf } from "./as-designed.ts";
import { inletsOf } from "./inlets.ts";

const pitch = (lead: string): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A, breaker: 16 A 2-pole, prospective current: 1…3 kA${lead} }\n  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2 }, ways: { 1: breaker 16 A 2-pole } }\n  heater: { kind: load, rated: 3 kW, running: 13 A }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m }\n  W21: { path: CU:1 → heater, length: 3 m }\nstates:\n  alongside: { shore: in, on: [heater], charge: 60 % }`;

/** IEC 60038: a supply may lose a tenth. */
const LEAST_SHARE = 0.9;

export const starvedSupplyLead = defineRule({
  id: "ac/starved-supply-lead",
  title: "Starved supply lead",
  severity: "should",
  danger: "compressors and chargers that run on a tenth too few volts draw more and die young",
  why: `Volts at the inlet, behind the supply lead, with everything on that a state has on and the site at its nominal volts: at least nine tenths of nominal. A site that has less
    itself makes it worse by as much.`,
  silent: ["inlets of which the plan states no lead", "plans that plug nothing in"],
  sources: [
    {
      cite: cite("trade-practice", "nine tenths of nominal volts at the inlet, as IEC 60038 bounds a supply", "memory"),
    },
  ],
  messages: {
    starved: "{place} has {measured} left behind {lead} ({state}); {limit} is the least",
  },
  cures: ["stagger"],
  examples: {
    good: [
      { says: "a lead of 25 m and 2.5 mm²", plan: pitch(", lead: 25 m, lead cable: 3G2.5 H07RN-F") },
      { says: "no lead is named", plan: pitch("") },
    ],
    bad: [
      {
        says: "80 m of 1.5 mm²",
        plan: pitch(", lead: 80 m, lead cable: 3G1.5 H07RN-F"),
        fails: "starved",
        about: "parts.INL",
      },
      {
        says: "a lead of unknown length",
        plan: pitch(", lead: unknown, lead cable: 3G2.5 H07RN-F"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    for (const { view, source } of inletsOf(build)) {
      const { subject } = view;
      let isAsked = false;
      for (const state of alternatingOf(build).states) {
        const at = state.sources.find((s) => s.id === source.id);
        if (at?.lead == null) continue;
        isAsked = true;
        const { lead, volts } = at;
        if (volts === null) {
          const fact = [...(lead.metres === null ? ["length"] : []), ...(lead.label === null ? ["cable"] : [])];
          report.cannotTell(subject, [needed(`the ${fact.length === 0 ? "size" : fact.join(" and the ")} of its supply lead`, subject)]); // prettier-ignore
          continue;
        }
        const limit = LEAST_SHARE * source.volts;
        const said = { measured: volts, limit, unit: "V", margin: above(volts, limit), state: state.id } as const;
        if (volts < limit * (1 - 1e-9))
          report.fail(subject, "starved", { ...said, words: { lead: `${lead.metres ?? 0} m of ${lead.label ?? "lead"}` } }); // prettier-ignore
        else report.pass(subject, said);
      }
      if (!isAsked) report.notApplicable(subject, "the plan states no supply lead, or plugs nothing in");
    }
  },
});
