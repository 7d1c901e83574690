import { cite } from "../../explain/index.ts";
import { deviceFamily } from "../../device/index.ts";
import type { EarthFault, EarthFaultStudy } from "../../size/study-earth-faults-shapes.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure, printFigure } from "../figure.ts";
import { above, below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { isLoopAsked, stiffFaults, whyNoLoopIsAsked } from "./asked-of-loop.ts";
import { earthFaultsAt, earthFaultsOf } from "./as-designed.ts";
import { tellUnsureJoin, untoldTime } from "./untold-faults.ts";

const hut = (inlet: string, circuit: string, main = "breaker 40 A 2-pole", set = "iec-cabin 2009"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 32 A, ${inlet} }\n  CU: { kind: consumer unit, main: ${main}, ways: { 1: breaker } }\n  heater: { kind: load, rated: 2 kW, running: 9 A }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m, wire: 10 mm² }\n  W21: { path: CU:1 → heater, ${circuit} }`;
/** A transformer of two wires between the inlet and the board. */
const isolated = (transformer: string, supply: string): string =>
  hut("loop impedance: 0.5 Ω", "length: 4 m, breaker: 10 A MCB B at CU", RESIDUAL)
    .replace("\n  CU:", `\n  IT: { kind: isolation transformer, rated: 32 A, neutral–earth join: always${transformer} }\n  CU:`)
    .replace("W20: { path: INL → CU:in, length: 1 m, wire: 10 mm² }", `W20: { path: INL → IT:in, length: 1 m, wire: 10 mm²${supply} }\n  W22: { path: IT:out → CU:in, length: 2 m, wire: 10 mm² }`); // prettier-ignore
const RESIDUAL = "{ residual device: 30 mA, poles: 2 }";

export const slowFaultDisconnection = defineRule({
  id: "ac/slow-fault-disconnection",
  title: "Slow disconnection of a fault",
  severity: {
    otherwise: "should",
    sets: { "iec-cabin": "must", "iec-caravan": "must", "au-nz-vehicle": "must" },
  },
  danger: "the case of what has failed stays live for seconds, and a hand that holds it cannot let go",
  why: `A line touches a case at the far end of a circuit. The current through line and protective conductor, hot and with 95 % of the volts, opens the device in 0.4 s at 230 V, in 0.8 s at 120 V, and in 5 s where the circuit feeds a board; where the
    soil leads back (TT) in half of that. A device that opens on leakage counts: where the soil leads back, by the resistance of the electrode aboard (to 50 V at its rated current) and its time, whatever the supply drives. Each source that feeds the circuit is taken by itself; those that limit their own current are judged by
    ac/source-that-cannot-trip. A breaker ahead of a transformer of two wires carries what its output drives, and counts; a residual device there sees nothing of it. A device that is left to be chosen is taken as proposed.`,
  silent: [
    "circuits from an inlet to the first device aboard, which what stands ashore protects",
    "circuits without a join of neutral and earth, or without a protective conductor, which are faults of their own",
    "breakers of American make, of which no times below minutes are published: the American code asks for a low impedance and names no time",
  ],
  sources: [
    { cite: cite("iec-60364-4-41", "Table 41.1", "read"), sets: ["iec-cabin", "iec-caravan", "au-nz-vehicle"] },
    { cite: cite("trade-practice", "the times of IEC 60364-4-41", "read") },
    { cite: cite("nfpa-70-2023", "240.21(C)(1)", "memory"), sets: ["us-cabin", "us-rv"] },
  ],
  messages: {
    slow: "{place}: a line that touches a case draws {amps} from {source}; {opens} what guards it within {time}",
    bare: "{place}: no device is on its way from {source}, and nothing opens when a line touches a case",
  },
  cures: ["residual-way", "next-size"],
  examples: {
    good: [
      {
        says: "a loop of half an ohm",
        plan: hut("loop impedance: 0.5 Ω", "length: 10 m, wire: 2.5 mm², breaker: 16 A MCB B at CU"),
      },
      {
        says: "30 mA ahead, whatever the loop",
        plan: hut("prospective current: unknown", "length: 10 m, breaker: 16 A at CU", RESIDUAL),
      },
      {
        says: "the breaker ahead of a transformer of two wires opens on what its output drives",
        plan: isolated(", prospective current: 0.5…0.8 kA", ", breaker: 32 A MCB B 2-pole at INL"),
      },
      {
        says: "a rod of 100 Ω and 30 mA where the soil leads back, whatever the supply drives",
        plan: `${hut("prospective current: 1…2 kA, earthing: TT", "length: 10 m, breaker: 16 A at CU", RESIDUAL).replace("\ncircuits:", "\n  ROD: { kind: earth electrode, resistance to earth: 100 Ω }\ncircuits:")}\n  W29: { path: CU:PE → ROD, length: 2 m, cores: [PE], wire: 16 mm² }`,
      },
    ],
    bad: [
      {
        says: "nothing ahead of the secondary of a transformer",
        plan: isolated("", ", breaker: none").replace("length: 2 m", "length: 2 m, breaker: none"),
        fails: "bare",
        about: "circuits.W22",
      },
      {
        says: "a breaker ahead of a transformer of which nobody says what it drives",
        plan: isolated("", ", breaker: 32 A MCB B 2-pole at INL"),
        fails: "cannot tell",
        about: "parts.IT",
      },
      {
        says: "60 m of 1.5 mm² behind 16 A that opens late",
        plan: hut("loop impedance: 0.5 Ω", "length: 60 m, wire: 1.5 mm², breaker: 16 A MCB D at CU, drop: 20 %"),
        fails: "slow",
        about: "circuits.W21",
      },
      {
        says: "nobody knows the loop of the supply",
        plan: hut("prospective current: unknown", "length: 10 m, wire: 2.5 mm², breaker: 16 A MCB B at CU"),
        fails: "cannot tell",
        about: "parts.INL",
      },
      {
        says: "a breaker at the far end leaves the cable ahead of it late",
        plan: hut(
          "loop impedance: 0.5 Ω",
          "length: 60 m, wire: 1.5 mm², drop: 20 %, breaker: [16 A MCB D at CU, 6 A MCB B at heater]",
        ),
        fails: "slow",
        about: "circuits.W21",
      },
      {
        says: "nobody says how the supply is earthed",
        plan: hut("loop impedance: 0.5 Ω, earthing: unknown", "length: 10 m, wire: 2.5 mm², breaker: 16 A MCB B at CU"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    const study = earthFaultsOf(build);
    for (const view of build.circuits) {
      const found = view.circuit.current === "AC" ? earthFaultsAt(build, view.id) : undefined;
      if (found === undefined) continue;
      const faults = stiffFaults(study, found.faults);
      let isTold = false;
      for (const fault of faults) isTold = judgeFault(build, view, fault, study, report) || isTold;
      if (!isTold) report.notApplicable(view.subject, whyNoLoopIsAsked(faults, study));
    }
  },
});

/** @returns whether something was told */
function judgeFault(
  build: Build,
  view: CircuitView,
  fault: EarthFault,
  study: EarthFaultStudy,
  report: Report<"slow" | "bare">,
): boolean {
  const { subject } = view;
  const source = study.sources[fault.source];
  if (fault.loop === "unknown") {
    // Without a join nothing is asked, so that what is quick enough with one is right either way.
    if (fault.ifJoined?.outcome === "in time") return judgeFault(build, view, fault.ifJoined, study, report);
    tellUnsureJoin(build, fault, report);
    return true;
  }
  const { limit, outcome, disconnection, least } = fault;
  if (!isLoopAsked(fault, study) || limit === null || disconnection === null || source === undefined) return false;
  const words = { source: source.part };
  if (outcome === "in time") {
    const seconds = disconnection.seconds ?? 0;
    report.pass(subject, {
      measured: seconds,
      limit: limit.seconds,
      unit: "s",
      margin: below(seconds, limit.seconds),
      state: `fed by ${source.part}`,
    });
  } else if (outcome === "too late") {
    const need = disconnection.openingAmps;
    if (fault.devices.length === 0 && fault.residual.length === 0)
      report.fail(subject, "bare", { state: `fed by ${source.part}`, trust: limit.trust, words });
    else
      report.fail(subject, "slow", {
        state: `fed by ${source.part}`,
        trust: limit.trust,
        ...(need === null || least === null
          ? {}
          : { measured: least, limit: need, unit: "A", margin: above(least, need) }),
        words: {
          ...words,
          amps: least === null ? "too little" : figure(least, "A"),
          opens: need === null ? "nothing is sure to open" : `${printFigure(figure(need, "A"))} would open`,
          time: figure(limit.seconds, "s"),
        },
      });
  } else tellMissing(build, view, fault, study, report);
  return true;
}

const THROUGH_METAL = "the loop impedance, or the least prospective current, of the supply";
/** A prospective current says nothing where the soil leads back. */
const THROUGH_SOIL =
  "the resistance to earth of the electrode that its cases are joined to (with a residual device ahead nothing more is asked), or the loop impedance of the supply";

function tellMissing(
  build: Build,
  { subject }: CircuitView,
  { disconnection, untold, devices, least, source }: EarthFault,
  study: EarthFaultStudy,
  report: Report<"slow" | "bare">,
): void {
  const part = build.part(study.sources[source]?.part ?? "")?.subject;
  const circuits = untold.filter((id) => build.circuit(id) !== undefined);
  if (disconnection?.missing === "loop") {
    // Once for the supply, not once for each of its circuits.
    const open = circuits.flatMap((id) => build.circuit(id)?.subject ?? []);
    // Once for the circuit that is not known, not once for each behind it.
    if (open.length > 0) for (const one of open) report.cannotTell(one, [needed("its size or its length", one)]);
    else if (part !== undefined)
      report.cannotTell(part, [needed(study.sources[source]?.earthing === "TT" ? THROUGH_SOIL : THROUGH_METAL, part)]);
    return;
  }
  const at = devices.at(-1);
  const device = at === undefined ? undefined : study.devices[at];
  const family = device?.families[0];
  const amps = least === null ? "on a fault" : `at ${Number(least.toPrecision(3))} A`;
  const fact =
    disconnection?.missing === "residual device"
      ? "the residual current of its device"
      : disconnection?.missing === "device" || family === undefined
        ? "the rating and the kind of its device"
        : device !== undefined && device.families.length > 1
          ? `the curve of its ${device.rating ?? ""} A breaker`
          : untoldTime(deviceFamily(family).name, amps);
  report.cannotTell(subject, [needed(fact, subject)]);
}
