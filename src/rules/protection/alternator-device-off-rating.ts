import { cite } from "../../explain/index.ts";
import { isBoat, isRoad } from "../battery/batteries.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf } from "../stated.ts";
import { guardsOf } from "./guards.ts";
import { tightest } from "./tightest.ts";
import { alternatorsOf, type Alternator } from "../charging/alternators.ts";

/** A device may be rated so many times the greatest output. */
const MOST = 1.2;

const charged = (fuse: string, limits = "no"): string =>
  `rules: { DC: us-small-craft ABYC E-11 }\nparts:\n  ALT: { kind: alternator, rated: 100 A, self-limited: ${limits} }\ncircuits:\n  W20: { path: ALT → B1, length: 1 m, wire: 50 mm², fuse: ${fuse} at B1, return: B1 }`;

export const alternatorDeviceOffRating = defineRule({
  id: "protection/alternator-device-off-rating",
  title: "Alternator's device off its rating",
  severity: "should",
  danger: "a fuse that opens on a cold morning takes the battery from the alternator, and the surge kills its diodes",
  why: `The device in the cable of a machine that does not limit itself is rated above its greatest output, so that it never opens in service, and at
    most 1.2 times that, so that it opens when the machine pushes into a fault. What its conductor may carry is judged by
    protection/oversized-device.`,
  silent: [
    "machines that limit themselves, by their maker's word, or of which the plan says nothing of it",
    "sets for buildings",
    "cables of alternators without a device",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.460(b)", "memory"), sets: ["us-small-craft"] },
    { cite: cite("abyc-e-11", "devices of alternators", "article") },
  ],
  messages: {
    above: "{place}: its device of {measured} is more than 1.2 times the {output} of {machine}, which is {limit}",
    below: "{place}: its device of {measured} is no more than the {limit} that {machine} can give",
  },
  cures: ["smaller-device", "larger-device"],
  examples: {
    good: [
      { says: "a step above its output", plan: charged("110 A class T") },
      { says: "it limits itself", plan: charged("150 A class T", "yes") },
    ],
    bad: [
      { says: "far above its output", plan: charged("150 A class T"), fails: "above", about: "circuits.W20" },
      { says: "no more than its output", plan: charged("100 A class T"), fails: "below", about: "circuits.W20" },
      {
        says: "nobody knows whether it limits itself",
        plan: charged("150 A class T", "unknown"),
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    for (const machine of alternatorsOf(build)) {
      const { id } = machine.view;
      for (const view of build.circuits) {
        if (view.circuit.from.part === id || view.circuit.to.part === id) judgeCable(build, machine, view, report);
      }
    }
  },
});

function judgeCable(build: Build, machine: Alternator, view: CircuitView, report: Report<"above" | "below">): void {
  const { subject } = view;
  const c = guardsOf(build).of(view);
  const { amps: output, selfLimited } = machine.feed;
  if (c === null) return;
  if (!isBoat(subject.set) && !isRoad(subject.set)) {
    report.notApplicable(subject, "its set says nothing of alternators");
    return;
  }
  if (factsOf(machine.view)["self-limited"] === undefined) {
    report.notApplicable(subject, `nothing is stated of how ${machine.view.id} behaves in a fault`);
    return;
  }
  if (selfLimited === true || c.guards.length === 0) {
    const why = selfLimited === true ? `${machine.view.id} limits itself` : "it has no device of its own";
    if (c.untold && selfLimited !== true) report.cannotTell(subject, [needed("its fuse", subject)]);
    else report.notApplicable(subject, why);
    return;
  }
  const { low, high } = tightest(c.guards);
  const needs = [
    ...(output.origin === "unknown" ? [needed(`the output of ${machine.view.id}`, machine.view.subject)] : []),
    ...(Number.isFinite(high) ? [] : [needed("the rating of its device", subject)]),
  ];
  if (needs.length > 0) {
    report.cannotTell(subject, needs);
    return;
  }
  const most = MOST * output.high;
  const words = { machine: machine.view.id, output: figure(output.high, "A") };
  const isOff = low > most || high <= output.low;
  if (low > output.high && high <= MOST * output.low)
    report.pass(subject, {
      measured: high,
      limit: most,
      unit: "A",
      margin: Math.min(1 - high / most, low / output.high - 1),
    });
  else if (selfLimited === "unknown") {
    report.cannotTell(subject, [needed(`whether ${machine.view.id} limits its own output`, machine.view.subject)]);
  } else if (!isOff) report.cannotTell(subject, [needed("its rating, closer,", subject)]);
  else if (low > most)
    report.fail(subject, "above", { measured: low, limit: most, unit: "A", margin: 1 - low / most, words });
  else
    report.fail(subject, "below", {
      measured: high,
      limit: output.high,
      unit: "A",
      margin: high / output.high - 1,
      words,
    });
}
