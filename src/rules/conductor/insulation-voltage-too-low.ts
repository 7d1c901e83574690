import { cite } from "../../explain/index.ts";
import { foldName, isUnknown, known } from "../../plan/index.ts";
import type { Build, CircuitView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { circuitsInCable, factOfCable } from "../cable/in-cable.ts";
import { circuitsByWay } from "../cable/ways.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { solarVolts } from "../solar-volts.ts";

/** No wire that is sold for power is made for less. Source: class of 60 V of ISO 6722, from memory. */
const POOREST = 60;

export const insulationVoltageTooLow = defineRule({
  id: "conductor/insulation-voltage-too-low",
  title: "Insulation voltage too low",
  severity: "must",
  danger: "insulation that is made for a car tracks on the volts of a solar string, and arcs",
  why: `Insulation is made for so many volts. They have to reach the most that its circuit comes to: the highest charging voltage, the open-circuit volts of
    the solar modules in the cold, the volts of the mains; and those of every circuit that it can touch, in one cable or, without a sheath between, in one conduit. The
    plan says the rating, or the label of the wire does; up to 60 V any wire that is sold for power will do. A wire that is chosen is bought to fit.`,
  silent: ["mains wire that is pinned, and of whose insulation the plan says nothing"],
  sources: [
    { cite: cite("iso-6722-1", "60 V and 600 V cables", "memory") },
    { cite: cite("nfpa-70-2023", "300.3(C)(1)", "article"), sets: ["us-cabin", "us-rv"] },
  ],
  messages: { low: "{place} has insulation for {measured}; {where} comes to {limit}" },
  cures: ["more-volts", "own-cable"],
  examples: {
    good: [
      {
        says: "vehicle wire on 12 V",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², voltage: 60 V }",
      },
      {
        says: "solar cable on a solar string",
        plan: `${solar()}\n  W20: { path: PV → MPPT:in, length: 6 m, wire: 4 mm², voltage: 1500 V }`,
      },
      { says: "chosen, so bought to fit", plan: `${solar()}\n  W20: { path: PV → MPPT:in, length: 6 m }` },
    ],
    bad: [
      {
        says: "vehicle wire on a solar string",
        plan: `${solar()}\n  W20: { path: PV → MPPT:in, length: 6 m, wire: 4 mm², voltage: 60 V }`,
        fails: "low",
        about: "circuits.W20",
      },
      {
        says: "nobody says what the wire of a solar string is made for",
        plan: `${solar()}\n  W20: { path: PV → MPPT:in, length: 6 m, wire: 4 mm² }`,
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  judge(build, report) {
    const neighbours = neighboursOf(build);
    for (const c of build.circuits) {
      const { subject } = c;
      const own = greatestVolts(build, c);
      let most = own;
      let other: CircuitView | null = null;
      for (const view of neighbours(c)) {
        const volts = greatestVolts(build, view);
        if (volts.high > most.high) [most, other] = [volts, view];
      }
      const made = madeFor(build, c);
      const said = (volts: number, limit: number) =>
        ({ measured: volts, limit, unit: "V", margin: above(volts, limit) }) as const;
      if (made === "not stated")
        report.notApplicable(
          subject,
          "the plan does not say what its insulation is made for; mains wire is bought for its volts",
        );
      else if (made === "bought to fit") report.pass(subject, { limit: most.high, unit: "V" });
      else if (made.low >= most.high) report.pass(subject, said(made.low, most.high));
      else if (made.high < most.low)
        report.fail(subject, "low", {
          ...said(made.high, most.low),
          words: { where: other === null ? "its circuit" : `${other.id}, which it can touch,` },
        });
      else
        report.cannotTell(subject, [
          ...(made.low < made.high ? [needed("the voltage rating of its insulation", subject)] : []),
          ...(made.high >= most.low && made.low < most.high ? most.needs : []),
        ]);
    }
  },
});

interface Volts {
  readonly low: number;
  readonly high: number;
  readonly needs: readonly Needed[];
}

/** The most volts that a circuit comes to. */
function greatestVolts(build: Build, view: CircuitView): Volts {
  const { supply, circuit } = view;
  const solar = circuit.current === "DC" ? solarVolts(build, view) : null;
  const nominal = circuit.current === "DC" ? supply?.highestVolts : supply?.nominal;
  const volts = nominal ?? 0;
  return {
    low: Math.max(volts, solar?.volts.low ?? 0),
    high: Math.max(volts, solar?.volts.high ?? 0),
    needs: solar?.needs ?? [],
  };
}

/** What the insulation of a circuit is made for, as far as anybody says it. */
function madeFor(
  build: Build,
  c: CircuitView,
): "bought to fit" | "not stated" | { readonly low: number; readonly high: number } {
  const { circuit, plan } = c;
  const fact = plan?.facts.voltage ?? factOfCable(circuitsInCable(build, c), "voltage");
  const stated = known(fact);
  if (stated !== undefined) return stated;
  const label = isUnknown(fact) ? null : (circuit.cable?.label?.make ?? known(plan?.facts.wire)?.make ?? null);
  if (label !== null && label.volts !== null) return { low: label.volts, high: label.volts };
  if (circuit.size === undefined && !circuit.asFound && !isUnknown(fact)) return "bought to fit";
  // Nobody buys vehicle wire for mains; solar strings are where it is met.
  if (circuit.current === "AC" && fact === undefined && !circuit.asFound) return "not stated";
  return { low: POOREST, high: Infinity };
}

/** Circuits whose cores a circuit can touch: in its cable, and in an undivided conduit where neither has a sheath. */
function neighboursOf(build: Build): (c: CircuitView) => readonly CircuitView[] {
  const ways = circuitsByWay(build);
  const closed = new Map(
    build.plan.ways.flatMap(({ key, facts }) => {
      const kind = known(facts.kind);
      const views = ways.get(foldName(key)) ?? [];
      return (kind === "conduit" || kind === "raceway") && known(facts.divided) !== true
        ? [[key, views.filter(isBare)] as const]
        : [];
    }),
  );
  return (c) => {
    const together = c.circuit.cable === undefined ? [] : circuitsInCable(build, c);
    if (closed.size === 0 || !isBare(c)) return together;
    return [...together, ...[...closed.values()].filter((views) => views.includes(c)).flat()];
  };
}

const isBare = ({ circuit }: CircuitView): boolean => circuit.sheathed !== true && circuit.cable === undefined;

/** A string of modules whose open-circuit volts are those of no car. */
function solar(): string {
  return "parts:\n  PV: { kind: solar module, rated: 400 W, Voc: 40 V, Vmp: 33 V, Isc: 12 A, Voc per kelvin: -0.28 %, in series: 2 }\n  MPPT: { kind: solar controller, output: 30 A, input limit: 150 V }\ncircuits:\n  W21: { path: MPPT:out → BP, length: 1 m }";
}
