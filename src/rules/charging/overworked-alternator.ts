import { cite } from "../../explain/index.ts";
import type { Case } from "../../size/index.ts";
import type { Build } from "../build.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { alternatorsOf, enginesRun, piecesIn, stateName, storesBeside, type Alternator } from "./alternators.ts";

const alternator = (facts: string, to: string, more = ""): string =>
  `parts:\n  ALT: { kind: alternator, ${facts} }\n${more}circuits:\n  W20: { path: ALT → ${to}, length: 1 m }`;
const start = `  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }\n`;
const converter = (input: string): string => `${start}  DCDC: { kind: DC-DC charger, output: 60 A, input: ${input} }\n`;
const through = `\n  W21: { path: B3 → DCDC:in, length: 1 m }\n  W22: { path: DCDC:out → BP, length: 1 m }\n  W23: { path: B3:− → BN, length: 1 m }\nstates:\n  motoring: { engine: running, on: [lamp] }`;

export const overworkedAlternator = defineRule({
  id: "charging/overworked-alternator",
  title: "Overworked alternator",
  severity: "should",
  danger: "a small machine that is held at full output burns its windings, and the boat",
  why: `What an alternator gives for long, in every state with the engine running, is no more than it gives when hot: what its maker states, else three
    quarters of its rating. A lithium bank on it takes all that it gives, for hours; a lead battery soon takes less, so there the converters behind
    it and the loads that are on count. With lithium on it this is a must. At idle it gives half of that or less.`,
  silent: ["what a lead battery takes in the first minutes"],
  sources: [{ cite: cite("trade-practice", "three quarters of the rating when hot", "memory") }],
  messages: {
    lithium: "{place} gives all that it can, {measured}, to {banks} for hours ({state}); hot it gives {limit}",
    loaded: "{place} is asked for {measured} for long ({state}); hot it gives {limit}",
  },
  cures: ["limited-alternator", "less-charge"],
  examples: {
    good: [
      { says: "no alternator", plan: "" },
      {
        says: "a regulator that limits it",
        plan: alternator("rated: 80 A, hot: 55 A, limit: 50 A, regulator: external", "BP"),
      },
      {
        says: "a converter that takes less than it gives hot",
        plan: alternator("rated: 80 A", "B3", converter("50 A")) + through,
      },
    ],
    bad: [
      { says: "straight onto lithium", plan: alternator("rated: 80 A", "BP"), fails: "lithium", about: "parts.ALT" },
      {
        says: "a converter that takes more than it gives hot",
        plan: alternator("rated: 80 A, hot: 50 A", "B3", converter("70 A")) + through,
        fails: "loaded",
        about: "parts.ALT",
      },
      {
        says: "nobody knows what it gives hot",
        plan: alternator("rated: 80 A, hot: unknown", "BP"),
        fails: "cannot tell",
        about: "parts.ALT",
      },
    ],
  },
  judge(build, report) {
    for (const one of alternatorsOf(build)) {
      const { view, hot, feed, isHotStated } = one;
      const { subject } = view;
      const asks = enginesRun(build).map((at) => askedOf(build, one, at));
      const worst = asks.reduce<Asks | null>((a, b) => (a === null || b.amps > a.amps ? b : a), null);
      if (worst === null) {
        report.notApplicable(subject, "the engine never runs");
        continue;
      }
      const severity = worst.lithium.length > 0 ? ("must" as const) : ("should" as const);
      if (feed.amps.origin === "unknown") report.cannotTell(subject, [needed("its rating", subject)], { severity });
      else if (hot === "unknown") report.cannotTell(subject, [needed("what it gives when hot", subject)], { severity });
      else {
        const measured = {
          measured: worst.amps,
          limit: hot.low,
          unit: "A",
          margin: below(worst.amps, hot.low),
          state: worst.state,
        } as const;
        if (worst.amps > hot.high)
          report.fail(subject, worst.lithium.length > 0 ? "lithium" : "loaded", {
            ...measured,
            severity,
            trust: isHotStated ? null : "memory",
            words: { banks: worst.lithium.join(" and ") },
          });
        else if (worst.amps > hot.low)
          report.cannotTell(subject, [needed("what it gives when hot, closer", subject)], { ...measured, severity });
        else report.pass(subject, measured);
      }
    }
  },
});

interface Asks {
  readonly amps: number;
  readonly state: string;
  /** Lithium batteries that take all there is. */
  readonly lithium: readonly string[];
}

/** What is asked of an alternator for long in a case. */
function askedOf(build: Build, { plus, minus, feed }: Alternator, one: Case): Asks {
  const { grid } = build.settled.model;
  const pieces = piecesIn(build, one);
  const own = pieces[plus];
  const lithium = storesBeside(build, { plus, minus }, pieces)
    .filter((s) => s.curve === "LFP")
    .map((s) => s.part);
  const state = stateName(one);
  if (lithium.length > 0) return { amps: feed.amps.high, state, lithium };
  const draws = grid.draws.reduce((sum, d, i) => sum + (pieces[d.plus] === own ? (one.drawAmps[i] ?? 0) : 0), 0);
  const converters = grid.converters.reduce((sum, { element: c, in: input }) => {
    const runs = c.runsWith === "engine" || c.runsWith === "load";
    if (input === null || !runs || pieces[input.plus] !== own) return sum;
    const watts = (c.amps.high * c.volts.high) / c.efficiency.low;
    return sum + (c.inputAmps?.high ?? watts / Math.max(1, feed.volts.low));
  }, 0);
  return { amps: draws + converters, state, lithium };
}
