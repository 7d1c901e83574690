import { cite } from "../../explain/index.ts";
import { known, type Fact, type MeasureIn } from "../../plan/index.ts";
import { vaPerAmp, type Draw } from "../../system/index.ts";
import type { PartView } from "../build.ts";
import { figure } from "../figure.ts";
import { above, below, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";

/**
 * How far the power that a load takes may exceed its label before one of the two is doubted. Of direct current the charging volts explain a quarter; of
 * alternating current a bad power factor explains three fifths; the label of a motor is what its shaft gives, and small ones take more than twice that.
 */
const MOST = { DC: 1.35, AC: 1.65, motor: 2.75 } as const;
/** What takes less than half of its label is asked about: it may have been measured at rest, or be a slip of the pen. */
const LEAST = 0.5;
/** Networks hold their volts within a tenth. */
const NETWORK = 0.1;

const lamp = (facts: string): string => `parts:\n  lamp: { kind: light, ${facts} }`;

export const contradictingLoadFigures = defineRule({
  id: "record/contradicting-load-figures",
  title: "Contradicting load figures",
  severity: "should",
  danger: "the wire and its device are chosen for the wrong one of two figures: they trip in use, or burn",
  why: `A load may state what it takes and what its label says, in amps or watts. Made comparable by its volts (those it is \`rated at\`, else those between its conductors) the one explains the other: it takes at most 1.35 times
    the watts of its label on direct current, 1.65 times on alternating current for its power factor, 2.75 times where it is a motor, whose label tells what the shaft gives. A start takes no less than the run. The limits are
    common practice. What is counted is always \`running\`. Less than half of the label is asked about in a note.`,
  silent: ["loads that state one figure alone", "the label of a motor that takes less than it says"],
  sources: [{ cite: cite("trade-practice", "amps, volts and watts of a label agree", "practice") }],
  messages: {
    more: "{place} takes {running} by `running`, which is {measured} at {volts}, and its label (`rated`) says {rated}; `running` is what is counted: look which of the two is right",
    less: "{place} takes {running} by `running`, which is {measured} at {volts}, and its label (`rated`) says {rated}; `running` is what is counted: look whether it never takes more",
    start: "{place} takes {measured} while it starts and {limit} while it runs; a start takes no less",
    volts: "{place} is made for {made} by `volts`, and its figures are those at {measured} by `rated at`",
  },
  cures: [],
  examples: {
    good: [
      { says: "watts and amps that agree", plan: lamp("running: 2 A, rated: 24 W") },
      { says: "one figure", plan: lamp("rated: 24 W") },
      { says: "the label of a motor", plan: lamp("motor: DC, rated: 24 W, running: 4 A") },
    ],
    bad: [
      { says: "ten times its label", plan: lamp("rated: 24 W, running: 20 A"), fails: "more", about: "parts.lamp" },
      { says: "a fifth of its label", plan: lamp("rated: 24 W, running: 0.4 A"), fails: "less", about: "parts.lamp" },
      { says: "a start of less", plan: lamp("running: 2 A, starting: 1 A"), fails: "start", about: "parts.lamp" },
      {
        says: "two voltages",
        plan: lamp("running: 2 A, volts: 10…15 V, rated at: 24 V"),
        fails: "volts",
        about: "parts.lamp",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.parts) {
      if (view.part.traits.load !== true) continue;
      const draw = view.elements.find((e) => e.is === "draw");
      if (draw?.is !== "draw") continue;
      const told = [judgeVolts(view, report), judgeStart(view, draw, report), judgeLabel(view, draw, report)];
      if (!told.includes(true)) report.notApplicable(view.subject, "it states one figure alone");
    }
  },
});

type Message = "more" | "less" | "start" | "volts";

/** What a key of a load says in amps or watts. */
const stated = (view: PartView, key: string): MeasureIn<"current" | "power"> | undefined =>
  known(factsOf(view)[key] as Fact<MeasureIn<"current" | "power">> | undefined); // these keys of a load hold amps or watts

/** Whether the volts that it is made for and those of its figures are both stated, and told. */
function judgeVolts(view: PartView, report: Report<Message>): boolean {
  const made = known(view.plan?.facts.volts);
  const at = saysFigure(factsOf(view), "rated at");
  if (made === undefined || at === undefined || at === "unknown") return false;
  if (at.low > (1 + NETWORK) * made.high || at.high < (1 - NETWORK) * made.low)
    report.fail(view.subject, "volts", { measured: at.low, unit: "V", margin: -1, words: { made: made.text } });
  else report.pass(view.subject);
  return true;
}

function judgeStart(view: PartView, draw: Draw, report: Report<Message>): boolean {
  const starting = stated(view, "starting");
  const running = stated(view, "running");
  if (starting === undefined || running === undefined) return false;
  const amps = (m: MeasureIn<"current" | "power">, end: "low" | "high"): number =>
    m.dimension === "power" ? m[end] / vaPerAmp(draw) : m[end];
  const [measured, limit] = [amps(starting, "high"), amps(running, "low")];
  const said = { measured, limit, unit: "A", margin: above(measured, limit) } as const;
  if (measured < limit) report.fail(view.subject, "start", said);
  else report.pass(view.subject, said);
  return true;
}

function judgeLabel(view: PartView, draw: Draw, report: Report<Message>): boolean {
  const running = stated(view, "running");
  const rated = stated(view, "rated");
  if (running === undefined || rated === undefined) return false;
  const { subject, part } = view;
  const volts = draw.atVolts;
  const watts = (m: MeasureIn<"current" | "power">, end: "low" | "high"): number =>
    m.dimension === "power" ? m[end] : m[end] * vaPerAmp(draw);
  const factor = draw.alternating?.powerFactor;
  const share = factor === undefined || factor === "unknown" ? null : factor.low;
  const isMotor = part.traits.motor === true;
  // Where the power factor is stated, it is no longer what may explain the difference.
  const times = isMotor ? MOST.motor : draw.current === "DC" || share !== null ? MOST.DC : MOST.AC;
  const measured = watts(running, "low") * (running.dimension === "current" ? (share ?? 1) : 1);
  const limit = times * watts(rated, "high");
  const words = { running: running.text, rated: rated.text, volts: figure(volts, "V") };
  const said = { measured, limit, unit: draw.current === "AC" && share === null ? "VA" : "W", words } as const;
  if (measured > limit) report.fail(subject, "more", { ...said, margin: below(measured, limit) });
  else if (!isMotor && watts(running, "high") < LEAST * watts(rated, "low"))
    report.fail(subject, "less", { ...said, limit: LEAST * watts(rated, "low"), margin: -1, severity: "note" });
  else report.pass(subject, { ...said, margin: below(measured, limit) });
  return true;
}
