import { cite } from "../../explain/index.ts";
import { studyEnds, type CircuitFaults, type EndFaults } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { below, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { judgeFaulted } from "./faulted-circuits.ts";
import { worstThrough, type WorstThrough } from "./opens-in-time.ts";
import { KIND_ASKED_THERE, possibleDevice } from "./possible-devices.ts";

/** Of a fault's current a device that carries so much of it carries all. */
const ALL = 0.99;

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
  // A short in one of several in parallel, near its source, goes through that one alone.
  const limits = faults.conductors.map((c) => c.withstand.leg);
  if (limits.includes(null)) {
    report.cannotTell(subject, [wireNeeded(view)]);
    return;
  }
  const limit = Math.min(...limits.map((l) => l ?? Infinity));
  const ends = shorts.flatMap((e) => e.greatest ?? []);
  const most = Math.max(0, ...ends.map((g) => g.amps.high));
  const least = Math.min(most, ...shorts.flatMap((e) => e.least.map((l) => l.amps.low)));
  const greatest = ends.find((g) => g.amps.high === most);
  const seen = (greatest?.course.sees ?? [])
    .filter(({ amps }) => amps >= ALL * most)
    .map(({ device }) => possibleDevice(build, study, device))
    .filter(({ kinds }) => kinds.length > 0);
  if (seen.length === 0) {
    report.notApplicable(subject, "no device sees the whole of a fault in it, or it is not known what it is");
    return;
  }
  const named = seen.flatMap(({ kinds, needs }) => (needs === null ? kinds : []));
  const [unnamed, ...others] = seen
    .filter(({ needs }) => needs !== null)
    .sort((x, y) => (x.kinds[0]?.rating ?? 0) - (y.kinds[0]?.rating ?? 0));
  const sets = unnamed === undefined ? [named] : unnamed.kinds.map((kind) => [...named, kind]);
  const worst = sets.map((devices) => worstThrough(devices, { low: least, high: most }));
  // Left out, a further fuse of no stated kind can only have made it worse: what passes without it passes.
  const isBurnt = ({ allowed }: WorstThrough) => allowed !== null && allowed.amps ** 2 * allowed.seconds > limit;
  const isBorne = (w: WorstThrough) => w.atMost !== null && w.atMost <= limit && !isBurnt(w);
  const needs = unnamed?.needs ?? null;
  const isSure = worst.every(isBorne) || (worst.every(isBurnt) && others.length === 0);
  if (needs !== null && !isSure) {
    if (needs.about === subject.path) report.cannotTell(subject, [needs]);
    else report.notApplicable(subject, KIND_ASKED_THERE);
    return;
  }
  const { allowed = null, atMost = null } = worst[0] ?? {};
  if (allowed !== null && allowed.amps ** 2 * allowed.seconds > limit) {
    const bears = limit / allowed.amps ** 2;
    report.fail(subject, "burnt", {
      measured: allowed.seconds,
      limit: bears,
      unit: "s",
      margin: below(allowed.seconds, bears),
      words: { amps: figure(allowed.amps, "A"), size: design.size?.label ?? "its wire" },
    });
  } else if (atMost !== null && atMost <= limit) report.pass(subject, { margin: 1 - atMost / limit });
  else report.notApplicable(subject, "nothing is published of what its devices let through");
}
