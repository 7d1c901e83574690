import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import { caseName } from "../../size/index.ts";
import type { PartView } from "../build.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { eachLoad, isFed } from "./loads-at-ends.ts";
import { starvedByAStart } from "./starved-by-a-start.ts";
import { doubtOnTheWay } from "./volts-on-the-way.ts";

// A tenth of a microvolt is rounding.
const SLACK = 1e-7;
const MOTOR = cite("trade-practice", "a motor starts at three quarters of its volts", "practice");

export const failingStart = defineRule({
  id: "conductor/failing-start",
  title: "Failing start",
  severity: "should",
  danger: "a windlass, pump or compressor stalls at the moment it is needed, and heats up where it stands",
  why: `While a load starts it has to have the volts that its maker states for it, or three quarters of nominal where it is a motor and nothing is
    stated: in each state in which it is on, and alone with the bank as empty as it may be. And no load that runs with it may fall below
    what it needs itself, in any state in which both are on.`,
  silent: [
    "loads that state no starting current",
    "loads other than motors that state no least volts for their start, unless they starve another",
    "alternating-current loads, which are not studied yet",
  ],
  sources: [{ cite: cite("own-derivation", "volts at the terminals of a load, from the solved network", "derived") }],
  messages: {
    stalls: "{place} has {measured} at its terminals while it starts ({state}); it starts above {limit}",
    starves: "{place} leaves {other} with {measured} while it starts ({state}); {other} runs above {limit}",
  },
  cures: ["next-size", "upstream-size"],
  examples: {
    good: [
      {
        says: "motor behind thick wire",
        plan: "parts:\n  fridge: { kind: load, motor: DC, running: 10 A, starting: 40 A }\ncircuits:\n  W11: { path: PNL:2 → fridge, length: 5 m, wire: 10 mm² }",
      },
      { says: "nothing starts", plan: "parts:\n  fridge: { kind: load, running: 4 A }" },
    ],
    bad: [
      {
        says: "motor behind thin wire",
        plan: "parts:\n  fridge: { kind: load, motor: DC, running: 10 A, starting: 60 A }\ncircuits:\n  W11: { path: PNL:2 → fridge, length: 5 m, wire: 2.5 mm² }",
        fails: "stalls",
        about: "parts.fridge",
      },
      {
        says: "compressor that drags the radio down",
        plan: "parts:\n  fridge: { kind: load, motor: DC, running: 10 A, starting: 80 A, starts above: 6 V }\n  lamp: { kind: load, running: 1 A, runs above: 12 V }\ncircuits:\n  W04: { path: BP → PNL, length: 3 m, wire: 16 mm², demand: 20 A }\n  W11: { path: PNL:2 → fridge, length: 2 m, wire: 10 mm² }",
        fails: "starves",
        about: "parts.fridge",
      },
      {
        says: "nobody knows what it takes to start",
        plan: "parts:\n  fridge: { kind: load, motor: DC, running: 4 A, starting: unknown }",
        fails: "cannot tell",
        about: "parts.fridge",
      },
    ],
  },
  judge(build, report) {
    eachLoad(build, report, startsNot, (at) => {
      const { load, model, worst } = at;
      const { subject } = load;
      const facts = load.plan?.kindFacts ?? {};
      const doubt = doubtOnTheWay(build, model);
      const asked = load.elements.find((e) => e.is === "draw")?.startsAbove;
      if (isUnknown(facts["starting"])) report.cannotTell(subject, [needed("what it takes while it starts", subject)]);
      else if (isUnknown(facts["starts above"]))
        report.cannotTell(subject, [needed("the volts that it starts above", subject)]);
      else if (!isFed(build, at)) report.notApplicable(subject, "no source reaches it");
      else if (doubt.wires.length > 0) report.cannotTell(subject, doubt.wires);
      else {
        const other = starvedByAStart(build, at);
        if (other !== null)
          report.fail(subject, "starves", {
            measured: other.volts,
            limit: other.runsAbove,
            unit: "V",
            margin: above(other.volts, other.runsAbove),
            state: other.state,
            words: { other: other.part },
          });
        if (asked === undefined) {
          if (other === null)
            report.notApplicable(subject, "no least volts are stated for its start, and it starves nothing else");
          return;
        }
        const volts = worst.startVolts;
        const measured = {
          measured: volts,
          limit: asked.high,
          unit: "V",
          margin: above(volts, asked.high),
          state: caseName(build.settled, model, worst.startCase),
        } as const;
        if (volts >= asked.high - SLACK) {
          if (other !== null) return;
          if (doubt.more.length > 0) report.cannotTell(subject, doubt.more);
          else report.pass(subject, measured);
        } else if (volts + savedByRanges(doubt.savesVolts, worst.judged) < asked.low - SLACK)
          report.fail(subject, "stalls", { ...measured, ...(asked.origin === "default" ? { source: MOTOR } : {}) });
        else
          report.cannotTell(subject, [
            ...(asked.low < asked.high ? [needed("the volts that it starts above, closer", subject)] : []),
            ...doubt.ranges,
          ]);
      }
    });
  },
});

/** Why no start is asked of a load. */
function startsNot({ plan }: PartView): string | null {
  return plan?.kindFacts["starting"] === undefined ? "no starting current is stated" : null;
}

/** What shorter runs could save, scaled from the steady current to that of the start. */
const savedByRanges = (steadyVolts: number, judged: { steadyExtra: number; startExtra: number }): number =>
  judged.steadyExtra > 0 && judged.startExtra > judged.steadyExtra
    ? steadyVolts * (judged.startExtra / judged.steadyExtra)
    : steadyVolts;
