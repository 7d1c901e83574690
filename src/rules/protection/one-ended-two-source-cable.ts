import { cite } from "../../explain/index.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { guardsOf, type EndName, type GuardedCircuit, type Guards } from "./guards.ts";
import { isFedBeyond, isNear, lookAtEnd, sourcesInWords, type LookedAtEnd } from "./look-at-end.ts";
import { guardedOrTold } from "./not-asked.ts";

const ENDS = ["to", "from"] as const;

export const oneEndedTwoSourceCable = defineRule({
  id: "protection/one-ended-two-source-cable",
  title: "One-ended two-source cable",
  severity: "must",
  danger: "a charging cable with its fuse at one end burns from the other",
  why: `A cable that more than it may carry can enter from both ends has a device at each of them. What stands behind an end counts as long as it
    lets no more through than the cable carries; so does the device at the other end where the rule set allows it to stand that far. An end
    where all that pushes limits itself to what the cable carries asks for none, nor does an alternator's where the set says so.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "cables that are fed from one end only, or without any device: protection/unprotected-conductor",
    "ends of chargers, converters and solar parts that limit themselves to what the cable carries",
    "the main cable of a starter, returns of the earthed pole, links between units of one string",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.12.1.1 (2004 numbering)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "12.3", "read"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "a device at each fed end", "practice") },
  ],
  messages: {
    oneEnded: "{place}: {sources} can push {amps} into it at {end}, and its only device stands at the other end",
  },
  cures: ["device-at-source", "next-size"],
  examples: {
    good: [
      {
        says: "a solar controller with its fuse at the bar",
        plan: "parts:\n  MPPT: { kind: solar controller, output: 30 A }\n  PV1: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }\ncircuits:\n  W20: { path: MPPT:out → BP, length: 3 m, wire: 10 mm², fuse: 40 A at BP }\n  W21: { path: PV1 → MPPT:in, length: 7 m, wire: 6 mm² }",
      },
      {
        says: "a lead between two batteries, a fuse at each",
        plan: "parts:\n  B2: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }\ncircuits:\n  W20: { path: B2 → SW1, length: 1 m, wire: 50 mm², fuse: [100 A at B2, 100 A at SW1] }",
      },
    ],
    bad: [
      {
        says: "an alternator's cable with its fuse at the alternator",
        plan: "parts:\n  ALT: { kind: alternator, rated: 80 A, self-limited: no }\ncircuits:\n  W20: { path: ALT → B1, length: 3 m, wire: 35 mm², fuse: 100 A at ALT, return: B1 }",
        fails: "oneEnded",
        about: "circuits.W20",
      },
      {
        says: "it is not known whether the alternator limits itself",
        plan: "parts:\n  ALT: { kind: alternator, rated: 80 A, self-limited: unknown }\ncircuits:\n  W20: { path: ALT → B1, length: 3 m, wire: 35 mm², fuse: 100 A at B1, return: B1 }",
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    for (const view of build.circuits) {
      const c = guardedOrTold(build, view, report);
      if (c !== null) judgeCable(guards, c, report);
    }
  },
});

function judgeCable(guards: Guards, c: GuardedCircuit, report: Report<"oneEnded">): void {
  const { subject } = c.view;
  // The far end first: most conductors end at a load.
  for (const end of ENDS) {
    const push = guards.push(c.node[end], c.edge[end], "sure");
    if (push.sources.length === 0) {
      report.notApplicable(subject, "it is fed from one end only");
      return;
    }
  }
  if (!ENDS.every((end) => isFedBeyond(guards, c, end))) {
    // What a source of unknown output pushes is not nothing.
    const untold = ENDS.flatMap((end) =>
      isFedBeyond(guards, c, end)
        ? []
        : guards.push(c.node[end], c.edge[end], "sure").sources.filter((s) => guards.untoldOutput.has(s)),
    );
    if (untold.length > 0 && c.guards.length > 0) {
      report.cannotTell(
        subject,
        [...new Set(untold)].map((s) => needed(`the output of ${s}`, `parts.${s}`)),
      );
      return;
    }
    report.notApplicable(subject, "no more than it may carry comes to one of its ends");
    return;
  }
  if (c.guards.length === 0) {
    if (c.untold) report.cannotTell(subject, [needed("its fuse", subject)]);
    else report.notApplicable(subject, "it has no device of its own");
    return;
  }
  for (const end of ENDS) judgeOne(guards, c, end, lookAtEnd(guards, c, end), report);
}

function judgeOne(
  guards: Guards,
  c: GuardedCircuit,
  end: EndName,
  look: LookedAtEnd,
  report: Report<"oneEnded">,
): void {
  const { subject, circuit } = c.view;
  if (look.is === "untold") report.cannotTell(subject, look.needs);
  else if (look.is !== "guarded" || look.guard.end === end) report.pass(subject);
  else {
    const { metres, point, push } = look;
    const near = isNear(c, metres, point);
    if (near === true) report.pass(subject, { measured: metres.high, unit: "m" });
    else if (near === null) {
      report.cannotTell(subject, [
        point.sheathed === "unknown" ? needed("whether it lies in a sheath", subject) : needed("its length", subject),
      ]);
    } else {
      const bare = guards.unguardedSources(c.node[end], c.edge[end]);
      const isEndless = !Number.isFinite(push.amps);
      report.fail(subject, "oneEnded", {
        measured: push.amps,
        limit: c.view.design.ampacityA ?? undefined,
        unit: "A",
        words: {
          sources: sourcesInWords(isEndless && bare.length > 0 ? bare : push.sources),
          amps: isEndless ? "without limit" : `${Number(push.amps.toPrecision(3))} A`,
          end: end === "from" ? circuit.fromText : circuit.toText,
        },
      });
    }
  }
}
