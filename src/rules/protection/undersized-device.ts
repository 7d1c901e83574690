import { cite } from "../../explain/index.ts";
import { steadyShareOf } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { alternatorsOf } from "../charging/alternators.ts";
import { hasUnknowns, unknownAmps } from "../conductor/volts-on-the-way.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { figure } from "../figure.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { isFeeder } from "./feeders.ts";
import type { GuardedCircuit } from "./guards.ts";
import { heldDownTo } from "./held-down.ts";
import { whyNotAsked } from "./not-asked.ts";
import { tightest } from "./tightest.ts";

/** Share of a current that is rounding, not load: currents come to rest within a millionth. */
const ROUNDING = 1e-6;

export const undersizedDevice = defineRule({
  id: "protection/undersized-device",
  title: "Undersized device",
  severity: "must",
  danger: "a fuse that is worked too hard ages and opens at night",
  why: `The design current of a circuit, the greatest that flows for long in any state, may not exceed the rating of its smallest device; what may
    flow for hours no more than 80 % of it. A breaker of alternating current under rule sets of the IEC carries its rating for good, and may be loaded with all of it. A load whose maker calls its duty intermittent may use the whole rating;
    an alternator gives its rated output cold, and for hours what it gives hot. A device larger than its
    load needs is no fault as long as its conductor may have it. Where the maker of a load allows no larger device, one that is chosen holds to that and is loaded with more than
    80 %: it is told with the maker's limit as the reason.`,
  silent: [
    "circuits without a device of their own",
    "feeders of panels and bars: protection/overdrawn-feeder",
    "the main cable of a starter",
  ],
  alternating: true,
  sources: [
    { cite: cite("nfpa-70-2023", "210.20, 215.3", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-4-43", "433.1", "read"), sets: ["iec-cabin", "iec-caravan"] },
    { cite: cite("trade-practice", "80 % of a rating for hours", "practice") },
  ],
  messages: {
    over: "{place} carries {measured} for long ({state}), more than its device of {limit}",
    continuous:
      "{place} carries {measured} for long ({state}), more than 80 % of its device of {rating}, which is {limit}",
    heldDown:
      "{place} carries {measured} for long ({state}), more than 80 % of its device of {rating}, which is {limit}; {load} allows none above {most} ahead of it",
    nothingOnSale:
      "{place} carries {measured} ({state}), and no device on sale for its place and {volts} carries that and its starts",
  },
  cures: ["larger-device"],
  examples: {
    good: [
      {
        says: "50 A before a small load on thick wire",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 4 m, wire: 70 mm², fuse: 50 A at BP }",
      },
      {
        says: "a windlass that runs for a minute",
        plan: "parts:\n  windlass: { kind: load, motor: DC, running: 90 A, duty: intermittent }\ncircuits:\n  W20: { path: BP → windlass, length: 4 m, wire: 70 mm², breaker: 100 A at BP }",
      },
    ],
    bad: [
      {
        says: "3 A before 4 A",
        plan: "circuits:\n  W11: { path: PNL:2 → fridge, length: 5 m, breaker: 3 A at PNL }",
        fails: "over",
        about: "circuits.W11",
      },
      {
        says: "4.5 A of a 5 A breaker for hours",
        plan: "parts:\n  fridge: { kind: load, running: 4.5 A }\ncircuits:\n  W11: { path: PNL:2 → fridge, length: 5 m, breaker: 5 A at PNL }",
        fails: "continuous",
        about: "circuits.W11",
      },
      {
        says: "a radio of 4.5 A whose maker allows a device of 5 A",
        plan: "parts:\n  radio: { kind: load, running: 4.5 A, largest fuse: 5 A }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m }",
        fails: "heldDown",
        about: "circuits.W20",
      },
      {
        says: "more than any panel breaker",
        plan: "parts:\n  heater: { kind: load, running: 120 A }\ncircuits:\n  W20: { path: PNL:3 → heater, length: 2 m }",
        fails: "nothingOnSale",
        about: "circuits.W20",
      },
      {
        says: "nobody knows what it takes",
        plan: "parts:\n  box: { kind: load, running: unknown }\ncircuits:\n  W20: { path: PNL:3 → box, length: 2 m, wire: 1.5 mm², breaker: 10 A at PNL }",
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits) {
      const c = whyNotAsked(build, view);
      if (typeof c === "string") report.notApplicable(view.subject, c);
      else if (c.untold) report.cannotTell(view.subject, [needed("its fuse", view.subject)]);
      else if (c.guards.length > 0) judgeCircuit(build, c, report);
      // Where nothing can be proposed, nothing is there yet.
      else if (view.circuit.devices !== "propose" || !lacksNumbers(build, view, report)) {
        report.notApplicable(view.subject, "it has no device of its own");
      }
    }
  },
});

function judgeCircuit(
  build: Build,
  c: GuardedCircuit,
  report: Report<"over" | "continuous" | "heldDown" | "nothingOnSale">,
): void {
  const { subject, design } = c.view;
  const steady = design.steadyA;
  if (steady === null) {
    report.cannotTell(subject, [needed("its current", subject)]);
    return;
  }
  const said = (limit: number, measured = steady) =>
    ({ measured, limit, unit: "A", margin: below(measured, limit), state: design.steadyIn }) as const;
  if (c.guards.some((g) => g.placed !== null && g.placed.given === null && g.rating === null)) {
    report.fail(subject, "nothingOnSale", {
      measured: steady,
      unit: "A",
      state: design.steadyIn,
      words: { volts: figure(c.view.supply?.highestVolts ?? 0, "V") },
    });
    return;
  }
  if (isFeeder(build, c)) {
    report.notApplicable(subject, "a feeder: protection/overdrawn-feeder judges what is on together");
    return;
  }
  const { low, high } = tightest(c.guards);
  const share = mayUseAll(build, c.view) ? 1 : steadyShareOf(c.model);
  const lasting = Math.min(steady, hotAmps(build, c.view));
  if (steady > high * (1 + ROUNDING)) {
    report.fail(subject, "over", said(high));
    return;
  }
  const needs = c.guards.some((g) => g.rating === null) ? [needed("the rating of its device", subject)] : [];
  if (hasUnknowns(build)) needs.push(...partsOf(build, c.view).flatMap((p) => unknownAmps(build, p) ?? []));
  if (needs.length > 0) report.cannotTell(subject, needs);
  else if (lasting <= share * low * (1 + ROUNDING) && steady <= low * (1 + ROUNDING)) {
    report.pass(subject, said(share * low, lasting));
  } else if (lasting <= share * high * (1 + ROUNDING)) {
    report.cannotTell(subject, [needed("the rating of its device", subject)]);
  } else {
    const binds = subject.set === "us-cabin" || subject.set === "us-rv";
    const heldTo = heldDownTo(build, c.guards);
    report.fail(subject, heldTo === null ? "continuous" : "heldDown", {
      ...said(share * high, lasting),
      severity: binds ? "must" : "should",
      words: { rating: { value: high, unit: "A" }, ...heldTo },
    });
  }
}

/** Parts whose own current decides what flows; an input that states its amps does not hang on the output. */
function partsOf(build: Build, { circuit }: CircuitView): readonly string[] {
  const statesInput = build
    .part(circuit.to.part)
    ?.elements.some((e) => e.is === "converter" && e.inputAmps !== undefined && e.inputAmps.origin !== "unknown");
  return [...new Set([circuit.from.part, ...(statesInput === true ? [] : [circuit.to.part]), ...circuit.draws])];
}

/** What the alternator at an end of a circuit gives for hours, A; Infinity where there is none. */
function hotAmps(build: Build, { circuit }: CircuitView): number {
  const machine = alternatorsOf(build).find(({ view }) => view.id === circuit.from.part || view.id === circuit.to.part);
  return machine === undefined || machine.hot === "unknown" ? Infinity : machine.hot.high;
}

/** Whether all that hangs on a circuit runs for minutes only. */
function mayUseAll(build: Build, { circuit }: CircuitView): boolean {
  return circuit.draws.length > 0 && circuit.draws.every((d) => build.part(d)?.part.duty === "intermittent");
}
