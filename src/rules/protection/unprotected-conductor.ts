import { cite } from "../../explain/index.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { guardsOf, type EndName, type GuardedCircuit, type Guards } from "./guards.ts";
import { distanceLimits, lookAtEnd, sourcesInWords, type FedBy } from "./look-at-end.ts";
import { guardedOrTold } from "./not-asked.ts";

const ENDS = ["from", "to"] as const;

export const unprotectedConductor = defineRule({
  id: "protection/unprotected-conductor",
  title: "Unprotected conductor",
  severity: "must",
  danger: "a chafed wire on a battery becomes a heater in the wall",
  why: `From every source that can push into a live conductor, through any position of the switches, a protective device stands between, within
    what the conductor may carry; or all that can push there limit themselves to less. A circuit without a device of its own may lean on those
    behind it as long as together they let no more through than it carries. The first short way from a source to a device is judged by
    protection/distant-device.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "the main cable of a starter, from the battery to it and no further",
    "returns of the earthed pole, and links between units of one string",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.455(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "12.1", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "240.21", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-4-43", "433, 434", "read"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("trade-practice", "a device for every source", "practice") },
  ],
  messages: {
    bare: "{place} has no device: {sources} can push into it at {end}, and nothing would open",
    tap: "{place} has no device of its own: what stands behind it lets {measured} through at {end}, and it may carry {limit}",
    beyondOutput: "{place} has no device: {sources} can push {measured} into it at {end}, and it may carry {limit}",
  },
  cures: ["device-at-source", "next-size"],
  examples: {
    good: [
      {
        says: "a charger that limits itself, its device at the bar",
        plan: "parts:\n  CHG: { kind: charger, output: 30 A, input: 3 A }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1.2 m, wire: 10 mm², fuse: 40 A at BP }",
      },
      {
        says: "a starter's main cable",
        plan: "parts:\n  M1: { kind: starter, running: 180 A }\ncircuits:\n  W20: { path: B1 → M1, length: 1 m, wire: 50 mm², fuse: none, cranking: yes }",
      },
      {
        says: "a solar module that pushes less than its wire carries",
        plan: "parts:\n  PV1: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }\n  MPPT: { kind: solar controller, output: 30 A }\ncircuits:\n  W20: { path: PV1 → MPPT:in, length: 7 m, wire: 6 mm², fuse: none }\n  W21: { path: MPPT:out → BP, length: 1 m }",
      },
    ],
    bad: [
      {
        says: "a lead on a battery of its own without a device",
        plan: "parts:\n  B2: { kind: battery, chemistry: AGM, capacity: 75 Ah }\n  USB: { kind: outlet, running: 5 A }\ncircuits:\n  W20: { path: B2 → USB, length: 3 m, wire: 2.5 mm², fuse: none, return: B2 }",
        fails: "bare",
        about: "circuits.W20",
      },
      {
        says: "a thin wire tapped off a bar behind the main fuse",
        plan: "parts:\n  USB: { kind: outlet, running: 5 A }\ncircuits:\n  W20: { path: BP → USB, length: 3 m, wire: 1 mm², fuse: none }",
        fails: "tap",
        about: "circuits.W20",
      },
      {
        says: "a charger that pushes more than its wire carries",
        plan: "parts:\n  B2: { kind: battery, chemistry: AGM, capacity: 75 Ah }\n  CHG: { kind: charger, output: 30 A, input: 3 A }\n  CHG2: { kind: charger, output: 30 A, input: 3 A }\n  SW2: { kind: switch }\ncircuits:\n  W20: { path: CHG:out → SW2, length: 1.2 m, wire: 1 mm², fuse: none }\n  W21: { path: SW2 → B2, length: 1 m, wire: 25 mm², fuse: 40 A at B2 }",
        fails: "beyondOutput",
        about: "circuits.W20",
      },
      {
        says: "it is not known whether there is one",
        plan: "parts:\n  USB: { kind: outlet, running: 5 A }\ncircuits:\n  W20: { path: BP → USB, length: 3 m, wire: 1 mm², fuse: unknown, as found: yes }",
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    for (const view of build.circuits) {
      const c = guardedOrTold(build, view, report);
      if (c === null) continue;
      if (c.guards.length > 0) report.pass(view.subject);
      else judgeWithoutDevice(guards, c, report);
    }
  },
});

type Message = "bare" | "tap" | "beyondOutput";

function judgeWithoutDevice(guards: Guards, c: GuardedCircuit, report: Report<Message>): void {
  const { subject } = c.view;
  const looks = ENDS.map((end) => ({ end, look: lookAtEnd(guards, c, end) }));
  const needs = looks.flatMap(({ look }) => (look.is === "untold" ? look.needs : []));
  const bare = looks
    .flatMap(({ end, look }) => (look.is === "bare" ? [{ end, push: look.push }] : []))
    // Of two ends the one that is sure to be fed without limit is named.
    .sort((a, b) => Number(isSure(guards, c, b.end)) - Number(isSure(guards, c, a.end)));
  // Without a limit is worse than beyond it.
  const worst = bare.reduce<(typeof bare)[number] | null>(
    (a, b) => (a === null || b.push.amps > a.push.amps ? b : a),
    null,
  );
  if (worst !== null && c.untold) report.cannotTell(subject, [...needs, needed("its fuse", subject)]);
  else if (worst !== null) {
    for (const { end, push } of bare) if (push.amps === worst.push.amps) judgeBare(guards, c, end, push, report, needs);
  } else if (needs.length > 0) report.cannotTell(subject, needs);
  else {
    for (const { look } of looks) {
      if (look.is !== "limited" && look.is !== "within") continue;
      report.pass(subject, { measured: look.amps, limit: look.iz, unit: "A", margin: below(look.amps, look.iz) });
    }
    report.pass(subject);
  }
}

const isSure = (guards: Guards, c: GuardedCircuit, end: EndName): boolean =>
  guards.push(c.node[end], c.edge[end], "sure").leastAmps === Infinity;

function judgeBare(
  guards: Guards,
  c: GuardedCircuit,
  end: EndName,
  push: FedBy,
  report: Report<Message>,
  others: readonly Needed[],
): void {
  const { subject, design, circuit } = c.view;
  const place = end === "from" ? circuit.fromText : circuit.toText;
  const limit = design.ampacityA ?? 0;
  if (Number.isFinite(push.amps)) {
    const limited = guards.push(c.node[end], c.edge[end], "sure").limited;
    const isOutput = push.sources.every((s) => limited.includes(s));
    report.fail(subject, isOutput ? "beyondOutput" : "tap", {
      measured: push.amps,
      limit,
      unit: "A",
      margin: below(push.amps, limit),
      trust: design.ampacityTrust,
      words: { sources: sourcesInWords(push.sources), end: place },
    });
    return;
  }
  const other = end === "from" ? "to" : "from";
  if (guards.meetsDeviceBeyond(c, other)) {
    report.notApplicable(subject, "its device stands further on: protection/distant-device measures how far");
    return;
  }
  // So close to its source a conductor may lie before the devices of what hangs on it.
  const point = guards.back(c, end);
  const metres = { low: point.metres.low + c.metres.low, high: point.metres.high + c.metres.high };
  const near = distanceLimits(c, point).map((rule) => {
    if (rule === null || !guards.allGuardedBeyond(c, other)) return false;
    if (rule.limit === null) return true;
    return metres.high <= rule.limit ? true : metres.low > rule.limit ? false : null;
  });
  if (near.every((n) => n === true)) report.pass(subject, { measured: metres.high, unit: "m" });
  else if (near.every((n) => n === false)) {
    const sources = sourcesInWords(guards.unguardedSources(c.node[end], c.edge[end]));
    report.fail(subject, "bare", { words: { sources, end: place } });
  } else {
    report.cannotTell(subject, [
      ...others,
      ...(point.sheathed === "unknown" ? [needed("whether it lies in a sheath", subject)] : []),
      ...(near.includes(null) ? [needed("its length", subject)] : []),
    ]);
  }
}
