import { cite, findRow } from "../../explain/index.ts";
import { isUnknown, known, type CircuitFacts } from "../../plan/index.ts";
import { glands } from "../../reference/glands.ts";
import type { CircuitView } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { circuitsInCable, factOfCable, speaksForCable } from "./in-cable.ts";

/** Metres, from the least to the most. */
interface Range {
  readonly low: number;
  readonly high: number;
}

export const outsideDiameterOffItsGland = defineRule({
  id: "cable/outside-diameter-off-its-gland",
  title: "Outside diameter off its gland",
  severity: "should",
  danger: "water follows the cable into the box",
  why: `A gland seals within a range of diameters only. The diameter over the jacket is measured or taken from the data sheet: no standard fixes it for boat cable
    and battery cable, so it is never worked out here. A gland that the plan names by its thread closes on the range that is usual for plastic glands; makers
    differ by a millimetre at either end.`,
  silent: [
    "cables for which the plan names no gland",
    "circuits that share their cable with another one, which is judged",
  ],
  sources: [{ cite: cite("trade-practice", "usual clamping range of a gland", "practice") }],
  messages: {
    thin: "{place} is {measured} thick, and its gland closes on {limit} at least",
    thick: "{place} is {measured} thick, and its gland opens to {limit} at most",
  },
  cures: ["fitting-gland"],
  examples: {
    good: [
      {
        says: "9 mm in a gland for 8 to 13",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, outside diameter: 9 mm, gland: 8…13 mm }",
      },
      {
        says: "9 mm in M20",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, outside diameter: 9 mm, gland: M20 }",
      },
    ],
    bad: [
      {
        says: "6 mm in a gland for 8 to 13",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, outside diameter: 6 mm, gland: 8…13 mm }",
        fails: "thin",
        about: "circuits.W10",
      },
      {
        says: "12 mm in M16",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, outside diameter: 12 mm, gland: M16 }",
        fails: "thick",
        about: "circuits.W10",
      },
      {
        says: "a cable that nobody measured",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 14/2 boat duplex, gland: M16 }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject } = c;
      const together = circuitsInCable(build, c);
      const fact = factOfCable(together, "gland");
      if (fact === undefined) report.notApplicable(subject, "the plan names no gland for it");
      else if (!speaksForCable(c)) report.notApplicable(subject, "it is judged with the first circuit of its cable");
      else {
        const gland = rangeOf(fact);
        const outside = outsideOf(c, together);
        if (gland === null || outside === null)
          report.cannotTell(subject, [
            ...(gland === null ? [needed("what its gland closes on", subject)] : []),
            ...(outside === null ? [needed("its diameter over the jacket", subject)] : []),
          ]);
        else {
          const { low, high } = outside;
          const spare = Math.min(low - gland.low, gland.high - high) / gland.high;
          if (high < gland.low - EDGE)
            report.fail(subject, "thin", { measured: high, limit: gland.low, unit: "m", margin: high / gland.low - 1 });
          else if (low > gland.high + EDGE)
            report.fail(subject, "thick", {
              measured: low,
              limit: gland.high,
              unit: "m",
              margin: 1 - low / gland.high,
            });
          else if (low < gland.low - EDGE || high > gland.high + EDGE)
            report.cannotTell(subject, [needed("its diameter over the jacket", subject)]);
          else report.pass(subject, { measured: high, limit: gland.high, unit: "m", margin: Math.max(0, spare) });
        }
      }
    }
  },
});

/** Millimetres are brought to metres with a rounding error. */
const EDGE = 1e-9;
const MM = 1e-3;

/** What a gland closes on; null: nobody knows. */
function rangeOf(fact: NonNullable<CircuitFacts["gland"]>): Range | null {
  const written = known(fact);
  if (written === undefined) return null;
  if (typeof written !== "string") return written;
  const row = findRow(glands, written);
  return row === null ? null : { low: row.leastMm * MM, high: row.mostMm * MM };
}

/** The diameter of a cable as the plan or its label says it; null: neither does. */
function outsideOf({ circuit }: CircuitView, together: readonly CircuitView[]): Range | null {
  const fact = factOfCable(together, "outside diameter");
  if (fact !== undefined) return isUnknown(fact) ? null : (known(fact) ?? null);
  const mm = circuit.cable?.label?.make.outsideMm ?? null;
  return mm === null ? null : { low: mm * MM, high: mm * MM };
}
