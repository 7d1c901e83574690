import { ampacity } from "../../ampacity/index.ts";
import { cite } from "../../explain/index.ts";
import { celsius } from "../../quantity/index.ts";
import { solarAmps } from "../../size/charging.ts";
import type { Build, CircuitView } from "../build.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { arraysOf } from "./arrays.ts";
import { forHours, greatestCurrent } from "./string-formulas.ts";
import { wireNeeded } from "../wire-needed.ts";

const array = (set: string, wire: string, strings = 3): string => `rules: { DC: ${set} }
parts:
  MPPT: { kind: solar controller, output: 30 A }
  PV: { kind: solar module, rated: 200 W, Voc: 24.3 V, Vmp: 20.4 V, Isc: 10 A, strings in parallel: ${strings} }
circuits:
  W20: { path: PV → MPPT:in, length: 0.5 m, ${wire} }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const undersizedArrayConductor = defineRule({
  id: "charging/undersized-array-conductor",
  title: "Undersized array conductor",
  severity: "must",
  danger: "roof wires bake all summer",
  why: `Sun on a clear cold day, with light from snow or cloud edges, is brighter than the label's: strings are counted as 1.25 times their short-circuit current, and a
    conductor carries that after every correction at its hottest stretch. It flows for hours, so under the American code and on boats the table
    before any correction leaves another quarter: 1.25 × 1.25 = 1.56 times. Conductors behind a joint of strings count all of them.`,
  silent: [
    "circuits of other sources, and controllers' outputs",
    "raceways close above a sunlit roof, whose air a plan states as the zone's",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "690.8(B)", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-7-712", "712.433", "memory"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("trade-practice", "conductors of solar modules as the American code counts them", "practice") },
  ],
  messages: {
    after: "{place} may carry {measured} in bright sun; with all corrections it carries {limit}",
    before:
      "{place} may carry {amps} in bright sun, and for hours 1.25 times as much is asked of the table, {measured}; it gives {limit}",
  },
  cures: ["next-size", "hotter-insulation"],
  examples: {
    good: [
      { says: "chosen for its current", plan: array("us-cabin", "drop: 5 %") },
      { says: "a thick pinned wire", plan: array("iso-small-craft 2020+A1:2022", "wire: 10 mm²") },
    ],
    bad: [
      { says: "38 A on 14 AWG", plan: array("us-cabin", "wire: 14 AWG"), fails: "after", about: "circuits.W20" },
      {
        says: "18.8 A on 12 AWG, not for hours",
        plan: array("us-cabin", "wire: 12 AWG", 2).replace("Isc: 10 A", "Isc: 7.5 A"),
        fails: "before",
        about: "circuits.W20",
      },
      {
        says: "nobody knows the wire",
        plan: array("iso-small-craft 2020+A1:2022", "wire: unknown, as found: yes"),
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    const parts = new Map(build.system.parts.map((p) => [p.id, p]));
    const { grid } = build.settled.model;
    build.circuits.forEach((c) => {
      const { subject, design, model, circuit } = c;
      if (model === null) {
        report.notApplicable(subject, "alternating current: no module feeds it straight");
        return;
      }
      const unknown = arraysOf(build).modules.filter(
        ({ isc, view }) => isc.origin === "unknown" && [circuit.from.part, circuit.to.part].includes(view.id),
      );
      if (unknown.length > 0) {
        report.cannotTell(
          subject,
          unknown.map(({ view }) => needed(`Isc of ${view.id}`, view.subject)),
        );
        return;
      }
      const isc = solarAmps(circuit, model.index, grid, parts);
      if (isc <= 0) {
        report.notApplicable(subject, "it is no conductor of solar modules");
        return;
      }
      if (lacksNumbers(build, c, report)) return;
      if (design.ampacityA === null) {
        report.cannotTell(subject, [design.size === null ? wireNeeded(c) : needed("what it carries", subject)]);
        return;
      }
      const amps = greatestCurrent({ strings: 1, isc });
      const trust = design.ampacityTrust;
      const after = {
        measured: amps,
        limit: design.ampacityA,
        unit: "A",
        margin: below(amps, design.ampacityA),
      } as const;
      // What flows for hours is carried with a quarter to spare before any correction.
      const withQuarter = c.ruleSet?.solar?.forHours !== undefined || c.ruleSet?.ampacity.continuous != null;
      const table = withQuarter ? uncorrected(build, c) : null;
      if (amps > design.ampacityA + 1e-9) report.fail(subject, "after", { ...after, trust });
      else if (table === null) report.pass(subject, after);
      else {
        const measured = forHours({ amps });
        const before = { measured, limit: table, unit: "A", margin: below(measured, table) } as const;
        if (measured > table + 1e-9)
          report.fail(subject, "before", { ...before, trust, words: { amps: { value: amps, unit: "A" } } });
        else report.pass(subject, before.margin < after.margin ? before : after);
      }
    });
  },
});

/** What the table gives before any correction; null where there is no such figure. */
function uncorrected({ settled }: Build, { circuit, run, ruleSet, model }: CircuitView): number | null {
  const make = model?.rungs?.ladder.makes[settled.chosen.rungs[model.position] ?? 0];
  if (ruleSet === null || make === undefined) return null;
  const stretches = run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) }));
  const found = ampacity({
    ruleSet,
    make,
    insulationC: celsius(circuit.insulationC.low),
    installed: run.installed,
    stretches,
  });
  if (found.table === null) return null;
  // What the terminals hold it to counts before correction as well.
  const caps = found.caps.map((cap) => cap.amps);
  return circuit.parallel * Math.min(found.table.value, ...caps);
}
