import { shownDrawing } from "../../act/wire-card/drawings.ts";
import { bankPicture, drawBankSharing } from "../../draw/bank-sharing/index.ts";
import { defaultPaper } from "../../draw/one-line/index.ts";
import { titleOf } from "../../draw/one-line/title-of.ts";
import { drawTimeCurrent, plotCircuit } from "../../draw/time-current/index.ts";
import { bankSharing } from "../../size/bank-sharing.ts";
import { coordinate } from "../../coordinate/index.ts";
import { studyFaults } from "../../size/study-faults.ts";
import { studyHeat } from "../../size/study-heat.ts";
import type { FaultStudy } from "../../size/fault-study.ts";
import type { Compiled } from "../../judge.ts";
import { circuitFaults } from "./circuit-faults.ts";
import type {
  FaultAnswerOf,
  FaultAsked,
  FaultCircuitRow,
  FaultDeviceRow,
  FaultsAnswer,
  Prospective,
} from "./fault-answers.ts";
import { gravest, nameDevices, pairRow, partNames, terminalText } from "./name-faults.ts";

/** Answers what is asked of faults. */
export function answerFaults(compiled: Compiled, asked: FaultAsked): FaultAnswerOf[FaultAsked["ask"]] {
  switch (asked.ask) {
    case "faults":
      return allFaults(compiled, asked.operatingState);
    case "circuit-faults":
      return circuitFaults(compiled, asked.circuit);
    case "curves-sheet":
      return curvesSheet(compiled, asked.circuit);
  }
}

/** The curves of a circuit with a title block. */
function curvesSheet(compiled: Compiled, circuit: string): FaultAnswerOf["curves-sheet"] {
  const { plan, system, runs, design, judgement, settled } = compiled;
  const plot = plotCircuit(settled, circuit);
  if (plot === null) return null;
  const { variant, paper } = defaultPaper(system);
  const on = paper === "Letter" ? "Letter" : "A4";
  const build = { plan, system, runs, design, findings: judgement.findings };
  const fields = { ...titleOf(build, { variant, paper: on }), documentType: "Time–current curves" };
  return shownDrawing(drawTimeCurrent(plot, { on, fields }));
}

/** Faults of the whole build. */
function allFaults(compiled: Compiled, state: string | null): FaultsAnswer {
  const { system, runs, design, settled } = compiled;
  const study = studyFaults(settled);
  const { pairs, feeders } = coordinate(settled);
  const names = nameDevices(study.devices);
  const named = (device: number) => names[device] ?? NO_DEVICE;
  const partName = partNames(system);
  const heat = studyHeat(settled, runs, design);
  return {
    circuits: circuitRows(compiled, study, named),
    devices: deviceRows(compiled, study, named),
    pairs: pairs.map((pair) => pairRow(pair, named, partName)),
    feeders: feeders.map(({ device, rating, demand, branchRatings, branches }) => ({
      ...named(device),
      rating,
      demand,
      branchRatings,
      branches: branches.map((d) => named(d).name),
    })),
    terminals: study.terminals.flatMap((_, node) => prospectiveAt(study, node) ?? []),
    conductors: study.circuits.flatMap((circuit) =>
      (circuit?.conductors ?? []).map(({ conductor, greatest, least, outcome, seconds, withstand }) => ({
        conductor,
        circuit: circuit?.circuit ?? "",
        greatest,
        least,
        outcome,
        seconds,
        share: withstand.share,
      })),
    ),
    heat: settled.model.circuits.flatMap(({ position }) => {
      const own = heat.circuit(position);
      return own === null ? [] : [{ id: own.id, worst: own.worst, atDesign: own.atDesign, ratingC: own.ratingC }];
    }),
    banks: bankSharing(settled).map((bank) => ({
      units: bank.units.map(partName),
      drawing: shownDrawing(drawBankSharing(bankPicture(compiled, bank, state))),
    })),
    notStudied: study.notStudied,
  };
}

/** A place in the list of devices that holds none; there is no such place. */
const NO_DEVICE = { name: "", about: "plan", what: "" } as const;

function prospectiveAt({ terminals }: FaultStudy, node: number): Prospective | null {
  const at = terminals[node] ?? null;
  return at === null ? null : { ...at, terminal: terminalText(at.terminal), against: terminalText(at.against) };
}

function circuitRows(
  { system, settled, design }: Compiled,
  study: FaultStudy,
  named: (device: number) => { readonly name: string },
): FaultCircuitRow[] {
  const { grid, circuits, at } = settled.model;
  const partName = partNames(system);
  const darkOf = new Map<string, Set<string>>();
  for (const { circuit, dark } of coordinate(settled).faults) {
    const list = darkOf.get(circuit) ?? new Set<string>();
    darkOf.set(circuit, list);
    for (const part of dark) list.add(partName(part));
  }
  const designs = new Map(design.circuits.map((c) => [c.id, c]));
  return study.circuits.flatMap((own, index): FaultCircuitRow[] => {
    if (own === null || own.ends.length === 0) return [];
    const { circuit, ends, conductors } = own;
    const live = circuits[at[index] ?? -1]?.edges.map((e) => grid.edges[e]).find((edge) => edge?.live === true);
    const courses = ends.flatMap((f) => [f.greatest?.course ?? [], ...f.least.map((l) => l.course)].flat());
    const highs = conductors.map(({ seconds }) => seconds.high);
    // Those that open when the least current flows that any end of it draws.
    const least = ends
      .filter(({ to }) => to === "return")
      .flatMap((f) => f.least[0] ?? [])
      .sort((a, b) => a.amps.low - b.amps.low)[0];
    const placed = designs.get(circuit);
    return [
      {
        circuit,
        from: placed?.from ?? "",
        to: placed?.to ?? "",
        start: live === undefined ? null : prospectiveAt(study, live.a),
        end: live === undefined ? null : prospectiveAt(study, live.b),
        outcome: gravest(courses.map((course) => course.outcome)),
        seconds: {
          low: Math.min(...conductors.map(({ seconds }) => seconds.low)),
          high: highs.includes(null) ? null : Math.max(0, ...highs.map((s) => s ?? 0)),
        },
        opens: (least?.course.opened ?? []).map(({ device }) => named(device).name),
        dark: [...(darkOf.get(circuit) ?? [])],
      },
    ];
  });
}

function deviceRows(
  { settled }: Compiled,
  study: FaultStudy,
  named: (device: number) => { readonly name: string; readonly about: string; readonly what: string },
): FaultDeviceRow[] {
  const sides = study.devices.map(() => new Map<string, number>());
  const outcomes: FaultDeviceRow["outcome"][] = study.devices.map(() => null);
  const all = study.circuits.flatMap((circuit) => circuit?.ends ?? []);
  for (const { greatest } of all) {
    for (const { device, amps, from } of greatest?.course.sees ?? []) {
      const own = sides[device];
      const side = terminalText(from);
      if (own !== undefined && amps > (own.get(side) ?? 0)) own.set(side, amps);
    }
  }
  // In the order of all ends that any current reaches.
  const reached = all.filter(({ greatest }) => greatest !== null);
  coordinate(settled).faults.forEach(({ whole }, i) => {
    const [nearest] = whole;
    const end = reached[i];
    if (nearest === undefined || end === undefined) return;
    const courses = [end.greatest?.course.outcome ?? "none", ...end.least.map(({ course }) => course.outcome)];
    outcomes[nearest] = gravest([outcomes[nearest] ?? "none", ...courses]);
  });
  return study.devices.map(({ circuit, interrupt }, d): FaultDeviceRow => {
    const { greatest = null, prospective = 0 } = study.deviceFaults[d] ?? {};
    return {
      ...named(d),
      circuit,
      name: named(d).name,
      sides: [...(sides[d] ?? [])].map(([from, amps]) => ({ from, amps })).sort((a, b) => b.amps - a.amps),
      through: greatest?.amps ?? null,
      at: greatest?.at ?? null,
      prospective,
      breaks: interrupt,
      outcome: outcomes[d] ?? null,
    };
  });
}
