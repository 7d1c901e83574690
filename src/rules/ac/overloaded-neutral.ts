import { cite } from "../../explain/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { alternatingOf } from "./as-designed.ts";

const split = (lines: string, loads = "12 A", neutral = ""): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: us-cabin NEC 2023 }\nsystems:\n  AC: { kind: AC, nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE] }\nparts:\n  INV: { kind: inverter, rated: 6 kVA, neutral–earth join: always${lines} }\n  LC: { kind: load centre, ways: 4, rated: 60 A }\n  kitchen: { kind: outlet, running: ${loads} }\ncircuits:\n  W19: { path: BP → INV:in, length: 1 m }\n  W20: { path: INV:out → LC, length: 1 m }\n  W21: { path: LC:1 → kitchen, length: 5 m, cores: [L1, L2, N, PE], wire: 14 AWG${neutral} }\nstates:\n  cooking: { on: [INV, kitchen], charge: 80 % }`;

export const overloadedSharedNeutral = defineRule({
  id: "ac/overloaded-shared-neutral",
  title: "Overloaded shared neutral",
  severity: "must",
  danger: "the neutral carries the sum of both lines and burns, and no breaker stands in it",
  why: `Two lines that swing against each other share a neutral that carries the difference of what flows in them; two that swing together, as one inverter of 120 V feeds both, share one that carries the sum.
    The current of the neutral is solved in every state of the plan, with the angle of each source, and is no more than the conductor carries.`,
  silent: ["circuits of one line, whose neutral carries what the line does", "circuits that no state loads"],
  sources: [
    { cite: cite("nfpa-70-2023", "710.15(C)", "read"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "a shared neutral carries what the angles of its lines leave", "derived") },
  ],
  messages: {
    beyond: "{place}: its shared neutral carries {measured} ({state}), and the conductor is good for {limit}",
  },
  cures: ["next-size"],
  examples: {
    good: [
      { says: "12 A and 12 A against each other", plan: split(", lines: opposite") },
      { says: "together they are within the wire, however they swing", plan: split("", "6 A") },
    ],
    bad: [
      {
        says: "one output of 120 V on both lines",
        plan: split(", lines: in phase"),
        fails: "beyond",
        about: "circuits.W21",
      },
      { says: "nobody says how they swing", plan: split(""), fails: "cannot tell", about: "circuits.W21" },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits) {
      const { circuit, subject, design } = view;
      if (circuit.current !== "AC") continue;
      const lines = circuit.conductors.filter((k) => k.role === "live" && k.fn !== "N");
      const neutral = circuit.conductors.find((k) => k.fn === "N");
      if (new Set(lines.map((k) => k.fn)).size < 2 || neutral === undefined) {
        report.notApplicable(subject, "its neutral is its own");
        continue;
      }
      const limit = design.ampacityA;
      if (limit === null) {
        report.cannotTell(subject, [needed("its wire", subject)]);
        continue;
      }
      const ids = new Set(lines.map((k) => k.id));
      for (const state of alternatingOf(build).states) {
        const carried = state.conductors.find((k) => k.conductor === neutral.id)?.amps ?? 0;
        const sum = state.conductors.reduce((all, k) => all + (ids.has(k.conductor) ? (k.amps ?? 0) : 0), 0);
        const assumed = state.sources.find((s) => s.phaseAssumed && s.condition !== "idle");
        const said = { measured: carried, limit, unit: "A", margin: below(carried, limit), state: state.id } as const;
        if (carried > limit * (1 + 1e-9)) report.fail(subject, "beyond", said);
        // However they swing, no more than the sum flows.
        else if (assumed !== undefined && sum > limit)
          report.cannotTell(subject, [needed(`whether the lines of ${assumed.part} swing together`, `parts.${assumed.part}`)], { state: state.id }); // prettier-ignore
        else report.pass(subject, said);
      }
    }
  },
});
