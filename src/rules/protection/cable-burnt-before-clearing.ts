import { cite } from "../../explain/index.ts";
import { studyEnds, type CircuitFaults, type EndFaults } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { below, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { borneOf } from "./borne-of.ts";
import { judgeFaulted } from "./faulted-circuits.ts";

export const cableBurntBeforeClearing = defineRule({
  id: "protection/cable-burnt-before-clearing",
  title: "Cable burnt before its fault is cleared",
  severity: { otherwise: "should", sets: { "iec-cabin": "must", "iec-caravan": "must" } },
  danger: "the wire is ruined by the very fault that its fuse clears",
  why: `Until a fault is cleared, at most 5 s, a conductor keeps all its heat: the square of the current times the time stays within what its copper
    takes up on the way from its working temperature to the end of what its insulation bears. That holds for every short in it, from the least
    current to the greatest, with the greatest time that the standard of its device allows at each, and for the return as well. Where nothing is
    published above some current the energy of a fuse is taken as no greater there; that of a breaker is not known.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "faults that take longer than 5 s: protection/fault-too-small-to-clear",
    "devices of which nothing is published that could tell",
    "the main cable of a starter, a return that joins a battery to a bar by itself, links between units of one string",
  ],
  sources: [{ cite: cite("iec-60364-4-43", "434.5.2", "read") }],
  messages: {
    burnt: "{place}: its devices may let a short of {amps} flow for {measured}, and {size} bears it for {limit}",
  },
  cures: ["next-size", "smaller-device", "device-made-for-it"],
  examples: {
    good: [
      {
        says: "a blade fuse on thin wire",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 4 m, wire: 1.5 mm², fuse: 5 A blade at BP }",
      },
    ],
    bad: [
      {
        says: "a lamp wire on a strip fuse of 100 A",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 70 mm², sheathed: yes, fuse: 250 A class T at B1 }\n  W10: { path: BP → lamp, length: 3 m, wire: 2.5 mm², fuse: 100 A strip fuse 30 mm at BP }",
        fails: "burnt",
        about: "circuits.W10",
      },
      {
        says: "a thin return that is a circuit of its own",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 70 mm², sheathed: yes, fuse: 250 A class T at B1 }\n  W10: { path: BP → lamp, length: 1 m, wire: 35 mm², fuse: 100 A strip fuse 30 mm at BP, return: none }\n  W11: { path: lamp:− → BN, length: 1 m, wire: 2.5 mm² }",
        fails: "burnt",
        about: "circuits.W11",
      },
      {
        says: "a wire that nobody has seen",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 3 m, wire: unknown, fuse: 5 A blade at BP, as found: yes }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    judgeFaulted(build, report, (view, faults, study) => {
      judgeCircuit(build, study, view, faults, faults.ends, report);
    });
    // A return that is a circuit of its own bears the faults that come back through it.
    const study = studyEnds(build.settled);
    for (const view of build.circuits) {
      const faults = study.circuits.find((c) => c?.circuit === view.id);
      if (faults == null || faults.carries.length === 0 || view.circuit.cranking) continue;
      judgeCircuit(build, study, view, faults, faults.carries, report);
    }
  },
});

function judgeCircuit(
  build: Build,
  study: EndFaults,
  view: CircuitView,
  faults: CircuitFaults,
  shorts: CircuitFaults["ends"],
  report: Report<"burnt">,
): void {
  const { subject, design } = view;
  const borne = borneOf(build, study, view, faults, shorts);
  switch (borne.is) {
    case "not known":
      report.cannotTell(subject, [borne.needs]);
      return;
    case "not proven":
      report.notApplicable(subject, borne.why);
      return;
    case "borne":
      report.pass(subject, { margin: 1 - borne.share });
      return;
    case "burnt": {
      const { amps, seconds } = borne.through;
      const bears = seconds / borne.share;
      report.fail(subject, "burnt", {
        measured: seconds,
        limit: bears,
        unit: "s",
        margin: below(seconds, bears),
        words: { amps: figure(amps, "A"), size: design.size?.label ?? "its wire" },
      });
    }
  }
}
