import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import { caseName } from "../../size/index.ts";
import type { Build } from "../build.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { eachLoad, isFed } from "./loads-at-ends.ts";
import { doubtOnTheWay, leastShareOfAmps, unknownAmps } from "./volts-on-the-way.ts";

// A tenth of a microvolt is rounding.
const SLACK = 1e-7;

export const starvedLoad = defineRule({
  id: "conductor/starved-load",
  title: "Starved load",
  severity: "should",
  danger: "it quits while the bank is still half full; a critical one quits when it is needed",
  why: `A load that states the least volts it runs at has to have them at its own terminals while it runs, in the state that leaves it the
    fewest: the bank as empty as it may be, every conductor, joint and device on the way counted, whatever else runs then.
    A must where people depend on the load.`,
  silent: ["loads whose maker states no least volts", "alternating-current loads, which are not studied yet"],
  sources: [{ cite: cite("own-derivation", "volts at the terminals of a load, from the solved network", "derived") }],
  messages: {
    starved: "{place} has {measured} at its terminals while it runs ({state}); it runs above {limit}",
  },
  cures: ["next-size", "upstream-size"],
  examples: {
    good: [
      {
        says: "short run, low need",
        plan: "parts:\n  lamp: { kind: load, running: 5 A, runs above: 10.5 V }",
      },
      {
        says: "nothing stated",
        plan: "parts:\n  lamp: { kind: load, running: 5 A }",
      },
    ],
    bad: [
      {
        says: "fridge that wants 12.4 V behind thin wire",
        plan: "parts:\n  fridge: { kind: load, running: 6 A, runs above: 12.4 V }\ncircuits:\n  W11: { path: PNL:2 → fridge, length: 5 m, wire: 1.5 mm² }",
        fails: "starved",
        about: "parts.fridge",
      },
      {
        says: "nobody knows what it needs",
        plan: "parts:\n  fridge: { kind: load, running: 4 A, runs above: unknown }",
        fails: "cannot tell",
        about: "parts.fridge",
      },
    ],
  },
  judge(build, report) {
    const practice = leansOnLowestCharge(build) ? ("practice" as const) : null;
    eachLoad(
      build,
      report,
      (load) => (load.plan?.kindFacts["runs above"] === undefined ? "its maker states no least volts" : null),
      (at) => {
        const { load, model, worst } = at;
        const { subject, part } = load;
        const severity = part.critical ? ("must" as const) : ("should" as const);
        const facts = load.plan?.kindFacts ?? {};
        const asked = load.elements.find((e) => e.is === "draw")?.runsAbove;
        const doubt = doubtOnTheWay(build, model);
        if (isUnknown(facts["runs above"]) || asked === undefined)
          report.cannotTell(subject, [needed("the volts that it runs above", subject)], { severity });
        else if (!isFed(build, at)) report.notApplicable(subject, "no source reaches it");
        else if (doubt.wires.length > 0) report.cannotTell(subject, doubt.wires, { severity });
        else {
          const volts = worst.leastVolts;
          const measured = {
            measured: volts,
            limit: asked.high,
            unit: "V",
            margin: above(volts, asked.high),
            state: caseName(build.settled, model, worst.leastCase),
          } as const;
          const amps = unknownAmps(build, load.id);
          const more = [...doubt.more, ...(amps === null ? [] : [amps])];
          const share = leastShareOfAmps(build, load.id);
          const most = volts + doubt.savesVolts + Math.max(0, worst.dropVolts - doubt.savesVolts) * (1 - share);
          if (volts >= asked.high - SLACK)
            if (more.length > 0) report.cannotTell(subject, more, { severity });
            else report.pass(subject, measured);
          else if (most < asked.low - SLACK)
            report.fail(subject, "starved", { ...measured, severity, trust: practice });
          else
            report.cannotTell(
              subject,
              [
                ...(asked.low < asked.high ? [needed("the volts that it runs above, closer", subject)] : []),
                ...(share < 1 ? [needed("what it takes, closer", subject)] : []),
                ...doubt.ranges,
              ],
              { severity },
            );
        }
      },
    );
  },
});

/** Whether how empty a bank may be is custom rather than the plan's word. */
const leansOnLowestCharge = ({ system }: Build): boolean =>
  system.elements.some((e) => e.is === "store" && e.lowestCharge.origin === "default");
