import { cite } from "../../explain/index.ts";
import type { EarthFault, EarthFaultSource } from "../../size/study-earth-faults-shapes.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { earthFaultsAt, earthFaultsOf } from "./as-designed.ts";
import { tellUnsureJoin, untoldTime } from "./untold-faults.ts";

const off = (inverter: string, circuit: string, more = ""): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: iec-cabin 2009 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n  INV: { kind: inverter, neutral–earth join: always, ${inverter} }\n  CU: { kind: consumer unit${more}, ways: { 1: breaker } }\n  heater: { kind: load, rated: 1 kW, running: 4 A }\ncircuits:\n  W19: { path: BP → INV:in, length: 1 m }\n  W20: { path: INV:out → CU:in, length: 1 m, wire: 4 mm² }\n  W21: { path: CU:1 → heater, ${circuit} }`;
const FAR = "length: 160 m, wire: 1.5 mm², drop: 30 %, breaker: 16 A MCB C at CU";

/** Volts that may stand on a case for good: IEC 60364-4-41 411.3.2.5. */
const HARMLESS = 50;

/** Of an inverter whose surge nobody states 1.5 times its rating is usual, and some with a transformer give 3 times: from memory. */
const UNSTATED = 2;

export const sourceThatCannotTrip = defineRule({
  id: "ac/source-that-cannot-trip",
  title: "Source that cannot trip its breakers",
  severity: "must",
  danger: "the breakers behind an inverter never open, and a case that is live stays so",
  why: `An inverter gives little more than its rating into a fault, a generator for long no more than that: less than what opens a breaker at once. What protects then is a device that opens on leakage, a source that
    shuts down in the time that is allowed, or that its volts fall with the fault: on a loop of metal the limited current leaves less than 50 V on the case, which is as good as off. Where that is what protects, the
    answer is told as limited by the source.`,
  silent: [
    "sources that do not limit their current, which ac/slow-fault-disconnection judges",
    "circuits without a join of neutral and earth in that state, or without a protective conductor",
  ],
  sources: [{ cite: cite("iec-60364-4-41", "411.3.2.5", "article") }],
  messages: {
    holds:
      "{place}: {source} drives no more than {amps} into a fault to a case and keeps {measured} on it; nothing opens within {time}, and {limit} is the most that may stand there",
  },
  cures: ["residual-way", "next-size"],
  examples: {
    good: [
      { says: "limited by the source", plan: off("rated: 3 kVA", "length: 5 m, wire: 1.5 mm², breaker: 16 A MCB C at CU") }, // prettier-ignore
      {
        says: "limited by the source, if there is a join at all",
        plan: off("rated: 3 kVA", "length: 5 m, wire: 1.5 mm², breaker: 16 A MCB C at CU").replace("join: always", "join: unknown"), // prettier-ignore
      },
      {
        says: "far away, behind 30 mA",
        plan: off("rated: 5 kVA", FAR, ", main: { residual device: 30 mA, poles: 2 }"),
      },
    ],
    bad: [
      {
        says: "far away behind a breaker alone",
        plan: off("rated: 5 kVA", FAR),
        fails: "holds",
        about: "circuits.W21",
      },
      {
        says: "far away, and nobody says whether there is a join",
        plan: off("rated: 5 kVA", FAR).replace("join: always", "join: unknown"),
        fails: "cannot tell",
        about: "parts.INV",
      },
      {
        says: "near the limit, and nobody states what the inverter drives into a fault",
        plan: off("rated: 3 kVA", "length: 60 m, wire: 1.5 mm², drop: 30 %, breaker: 16 A MCB C at CU"),
        fails: "cannot tell",
        about: "parts.INV",
      },
      {
        says: "nobody states the rating",
        plan: off("rated: unknown", FAR),
        fails: "cannot tell",
        about: "parts.INV",
      },
      {
        says: "nobody knows how far",
        plan: off("rated: 5 kVA", "length: unknown, wire: 1.5 mm², breaker: 16 A MCB C at CU"),
        fails: "cannot tell",
        about: "circuits.W21",
      },
    ],
  },
  judge(build, report) {
    const { sources } = earthFaultsOf(build);
    for (const view of build.circuits) {
      const found = view.circuit.current === "AC" ? earthFaultsAt(build, view.id) : undefined;
      if (found === undefined) continue;
      let isTold = false;
      for (const fault of found.faults) {
        const source = sources[fault.source];
        if (source === undefined || source.limit === null) continue;
        // Without a join nothing is asked, so that what is right with one is right either way.
        const joined = fault.loop === "unknown" ? fault.ifJoined : fault;
        const isRight = joined?.loop === "closed" && passFault(view, joined, source, report);
        if (isRight || fault.loop === "closed" || fault.loop === "unknown") isTold = true;
        if (isRight) continue;
        if (fault.loop === "unknown") tellUnsureJoin(build, fault, report);
        else if (fault.loop === "closed") judgeFault(build, view, fault, source, report);
      }
      if (!isTold)
        report.notApplicable(view.subject, "no source that limits its current drives one through a fault of it");
    }
  },
});

/** @returns whether something protects, which is told */
function passFault(
  { subject }: CircuitView,
  { limit, outcome, disconnection, sourceVolts }: EarthFault,
  source: EarthFaultSource,
  report: Report<"holds">,
): boolean {
  const pass = (measured: number, most: number, unit: "s" | "V", state: string): true => {
    report.pass(subject, { measured, limit: most, unit, margin: below(measured, most), state });
    return true;
  };
  const state = `fed by ${source.part}`;
  if (limit === null || outcome === "in time")
    return pass(disconnection?.seconds ?? 0, limit?.seconds ?? 0, "s", state);
  const shuts = source.limit?.seconds ?? null;
  const spread = source.from === "inverter" && !source.isDeclared ? UNSTATED : 1;
  if (sourceVolts !== null && sourceVolts * spread <= HARMLESS) return pass(sourceVolts, HARMLESS, "V", `${state}, limited by source`); // prettier-ignore
  return shuts !== null && shuts <= limit.seconds && pass(shuts, limit.seconds, "s", `${state}, which shuts down`);
}

function judgeFault(
  build: Build,
  { subject }: CircuitView,
  { limit, outcome, sourceVolts, untold, greatest }: EarthFault,
  source: EarthFaultSource,
  report: Report<"holds">,
): void {
  const state = `fed by ${source.part}`;
  if (limit === null) return;
  if (sourceVolts !== null && sourceVolts <= HARMLESS) {
    const about = build.part(source.part)?.subject ?? subject;
    report.cannotTell(about, [needed("what it drives into a fault", about)]);
  } else if (sourceVolts !== null && outcome === "too late")
    report.fail(subject, "holds", {
      measured: sourceVolts,
      limit: HARMLESS,
      unit: "V",
      margin: below(sourceVolts, HARMLESS),
      state,
      trust: source.limit?.trust ?? null,
      words: {
        source: source.part,
        amps: figure(greatest ?? source.limit?.high ?? 0, "A"),
        time: figure(limit.seconds, "s"),
      },
    });
  else {
    const circuits = untold.filter((id) => build.circuit(id) !== undefined);
    const about = build.part(source.part)?.subject ?? subject;
    const open = circuits.flatMap((id) => build.circuit(id)?.subject ?? []);
    // Once for the circuit that is not known, not once for each behind it.
    if (open.length > 0) for (const one of open) report.cannotTell(one, [needed("its size or its length", one)]);
    else if (sourceVolts === null) report.cannotTell(about, [needed("its rating", about)]);
    else report.cannotTell(subject, [needed(untoldTime("breaker", `on what ${source.part} gives`), subject)]);
  }
}
