import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { above, below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import type { RuleSetId } from "../rule-set-id.ts";

/** A hand's breadth of error in measuring where two parts sit, m. Practice. */
const HAND = 0.05;
/** How much longer than the straight line a run is that goes along a hull or a wall. Practice. */
const USUAL = { least: 1.1, most: 3 } as const;
/** Below this straight distance a ratio says nothing, and metres beyond it are judged, m. Practice: two drops from a panel to the floor. */
const SHORT = 2;
const SPARE = SHORT * (USUAL.most - 1);

/** A wire with a terminal at each end is no shorter, m. Common practice. */
const TINY = 0.03;
/** What moves is no longer than 24 m by its standards, and no run in it is longer than so many metres. Common practice. */
const IN_WHAT_MOVES = 75;
/** In a building a run is asked about past so many metres, and past so many times the run in the middle of all. Common practice. */
const IN_A_BUILDING = { metres: 200, times: 30 } as const;
const BUILDINGS: ReadonlySet<RuleSetId> = new Set<RuleSetId>(["us-cabin", "iec-cabin"]);

export const impossibleLength = defineRule({
  id: "conductor/impossible-length",
  title: "Impossible length",
  severity: "should",
  danger: "a length that was guessed short buys thin wire, and a cable that does not reach",
  why: `A run cannot be shorter than the straight line between the places that its plan gives for its ends. One that is hardly longer than the straight line,
    or more than three times as long, is asked about; near the source, where the line is shorter than two metres, metres beyond it are what counts.
    A run whose legs or ways are drawn is explained by them. Where no places are given, a length is asked about that is shorter than two terminals (30 mm), longer than 75 m in a boat or a vehicle, or in a building longer than
    200 m and than thirty times the run in the middle of all.`,
  silent: ["runs whose length is not stated"],
  sources: [{ cite: cite("trade-practice", "length of a run beside the straight line", "practice") }],
  messages: {
    short: "{place} is {measured} long; its ends are {limit} apart in a straight line",
    straight:
      "{place} is {measured} long, hardly more than the {distance} between its ends in a straight line; a run along a hull or a wall is seldom so short",
    long: "{place} is {measured} long, its ends are {distance} apart in a straight line; nothing that is drawn explains more than {limit}",
    tiny: "{place} is {measured} long, less than the terminals at its two ends; was another unit meant?",
    odd: "{place} is {measured} long, where {limit} is more than any run {case}; was another unit meant?",
  },
  cures: [],
  examples: {
    good: [
      {
        says: "half as long again as the straight line",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [3 m, 0 m, 0 m] }",
      },
      {
        says: "round a mast step, as its legs say",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [3 m, 0 m, 0 m] }\ncircuits:\n  W10: { path: PNL:1 → lamp, legs: [12 m] }",
      },
    ],
    bad: [
      {
        says: "4 m of wire for 5 m of way",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [5 m, 0 m, 0 m] }",
        fails: "short",
        about: "circuits.W10",
      },
      {
        says: "straight through the hull",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [3.9 m, 0 m, 0 m] }",
        fails: "straight",
        about: "circuits.W10",
      },
      {
        says: "four times the straight line",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [2.5 m, 0 m, 0 m] }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 10 m }",
        fails: "long",
        about: "circuits.W10",
      },
      {
        says: "4 mm",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 mm }",
        fails: "tiny",
        about: "circuits.W10",
      },
      {
        says: "4 km in a boat",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4000 m }",
        fails: "odd",
        about: "circuits.W10",
      },
      {
        says: "nobody knows where the lamp is",
        plan: "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    const middle = middleOf(build.circuits.flatMap(({ run }) => (run.lengthM.origin === "given" ? [run.lengthM.low] : []))); // prettier-ignore
    for (const c of build.circuits) {
      const { subject, run, circuit, plan } = c;
      const { low, high, origin } = run.lengthM;
      const straight = run.straightM;
      if (origin !== "given") report.notApplicable(subject, "no length is stated");
      else if (straight === undefined || !Number.isFinite(straight)) {
        const unknown = unplaced(build, c);
        const inBuilding = subject.set === null || BUILDINGS.has(subject.set);
        const most = inBuilding ? Math.max(IN_A_BUILDING.metres, IN_A_BUILDING.times * middle) : IN_WHAT_MOVES;
        const isDrawn = plan?.facts.legs !== undefined || plan?.facts.ways !== undefined;
        const at = circuit.lengthSpan === undefined ? {} : { at: [circuit.lengthSpan] };
        if (high < TINY && !isDrawn)
          report.fail(subject, "tiny", { measured: high, limit: TINY, unit: "m", margin: above(high, TINY), ...at });
        else if (low > most && !isDrawn)
          report.fail(subject, "odd", {
            measured: low,
            limit: most,
            unit: "m",
            margin: below(low, most),
            words: { case: inBuilding ? "of such a build" : "in what floats or drives" },
            ...at,
          });
        else if (unknown.length > 0) report.cannotTell(subject, unknown);
        else report.notApplicable(subject, "the plan gives no place for an end of it");
      } else {
        const isDrawn = plan?.facts.legs !== undefined || plan?.facts.ways !== undefined;
        const most = Math.max(USUAL.most * straight, straight + SPARE);
        const least = straight < SHORT ? straight - HAND : USUAL.least * straight;
        const at = circuit.lengthSpan === undefined ? {} : { at: [circuit.lengthSpan] };
        const words = { distance: figure(straight, "m") };
        const closer = [needed("its length, closer", subject)];
        if (high < straight - HAND)
          report.fail(subject, "short", {
            measured: high,
            limit: straight,
            unit: "m",
            margin: above(high, straight),
            ...at,
          });
        else if (low < straight - HAND) report.cannotTell(subject, closer);
        else if (isDrawn)
          report.pass(subject, { measured: high, limit: straight, unit: "m", margin: above(low, straight) });
        else if (high < least)
          report.fail(subject, "straight", {
            measured: high,
            limit: least,
            unit: "m",
            margin: above(high, least),
            severity: "note",
            words,
            ...at,
          });
        else if (low > most)
          report.fail(subject, "long", {
            measured: low,
            limit: most,
            unit: "m",
            margin: below(low, most),
            severity: "note",
            words,
            ...at,
          });
        else report.pass(subject, { measured: high, limit: straight, unit: "m", margin: above(low, straight) });
      }
    }
  },
});

/** The one in the middle by size; 0: there is none. */
const middleOf = (all: readonly number[]): number => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)] ?? 0;

/** Ends whose place nobody knows, as the plan says; silence is no missing fact. */
function unplaced(build: Build, { circuit }: CircuitView): Needed[] {
  return [circuit.from.part, circuit.to.part].flatMap((id) => {
    const part = build.part(id);
    return part?.part.position === undefined && isUnknown(part?.plan?.facts.at)
      ? [needed(`where ${id} sits`, part?.subject ?? `parts.${id}`)]
      : [];
  });
}
