import type { Compiled } from "../compile.ts";
import type { CircuitDesign, Design, DeviceDesign } from "../size/index.ts";
import { csvNumber, printCsv, snakeCase, type CsvCell } from "./csv.ts";
import { faultSchedule, type FaultScheduleRow } from "./fault-schedule.ts";
import { NOTHING } from "./figures.ts";
import { loadsOf, voltsIn } from "./print-states.ts";

const share = (x: number | null): CsvCell => csvNumber(x === null ? null : 100 * x, 2);

const devicesAt = (circuit: CircuitDesign, end: "from" | "to"): readonly DeviceDesign[] =>
  circuit.devices.filter((d) => d.end === end);

const joined = (devices: readonly DeviceDesign[], say: (d: DeviceDesign) => string | number | null): CsvCell =>
  devices.length === 0 ? null : devices.map((d) => say(d) ?? "?").join(" + ");

/** `+ RD, − BK` */
const coloursBy = ({ colours }: CircuitDesign, by: "plan" | "proposed"): string =>
  colours
    .filter((c) => c.by === by)
    .map(({ core, letters }) => (core === "" ? letters : `${core} ${letters}`))
    .join(", ");

const columns: readonly (readonly [head: string, cell: (c: CircuitDesign) => CsvCell])[] = [
  ["wire", (c) => c.id],
  ["current", (c) => c.current],
  ["supply", (c) => c.supply],
  ["from", (c) => c.from],
  ["to", (c) => c.to],
  ["outcome", (c) => c.outcome],
  ["length_m", (c) => (c.lengthM.origin === "unknown" ? null : csvNumber(c.lengthM.high, 3))],
  ["length_least_m", (c) => (c.lengthM.origin === "unknown" ? null : csvNumber(c.lengthM.low, 3))],
  ["size", (c) => c.size?.label],
  ["area_mm2", (c) => csvNumber(c.size?.areaMm2, 3)],
  ["bought_as", (c) => c.bought?.label],
  ["bought_size", (c) => c.bought?.size?.label],
  ["bought_area_mm2", (c) => csvNumber(c.bought?.size?.areaMm2, 3)],
  ["cable", (c) => c.cable?.label],
  ["cable_name", (c) => c.cable?.name],
  ["cable_cores", (c) => c.cable?.makeUp],
  ["colours", (c) => coloursBy(c, "plan")],
  ["colours_proposed", (c) => coloursBy(c, "proposed")],
  ["parallel", (c) => csvNumber(c.make.parallel, 0)],
  ["metal", (c) => c.make.metal],
  ["strands", (c) => c.make.strands],
  ["insulation_c", (c) => csvNumber(c.make.insulationC, 0)],
  ["from_device_a", (c) => joined(devicesAt(c, "from"), (d) => d.ratingA)],
  ["from_device", (c) => joined(devicesAt(c, "from"), (d) => d.familyName ?? d.kind)],
  ["from_device_at", (c) => joined(devicesAt(c, "from"), (d) => d.at)],
  ["to_device_a", (c) => joined(devicesAt(c, "to"), (d) => d.ratingA)],
  ["to_device", (c) => joined(devicesAt(c, "to"), (d) => d.familyName ?? d.kind)],
  ["to_device_at", (c) => joined(devicesAt(c, "to"), (d) => d.at)],
  ["without_device", (c) => c.bareEnds.map(({ end, why }) => `${end === "from" ? c.from : c.to}: ${why}`).join("; ")],
  ["current_a", (c) => csvNumber(c.steadyA, 3)],
  ["greatest_when", (c) => c.steadyIn],
  ["start_a", (c) => csvNumber(c.startA, 3)],
  ["ampacity_a", (c) => csvNumber(c.ampacityA, 2)],
  ["ampacity_trust", (c) => c.ampacityTrust],
  ["ampacity_zone", (c) => c.ampacityZone],
  ["conductor_c", (c) => csvNumber(c.conductorC, 1)],
  ["drop_v", (c) => csvNumber(c.dropV, 3)],
  ["drop_percent", (c) => share(c.dropShare)],
  ["drop_limit_percent", (c) => share(c.dropLimitShare)],
  ["drop_when", (c) => c.dropIn],
  ["least_volts_v", (c) => csvNumber(c.leastVolts, 3)],
  ["start_volts_v", (c) => csvNumber(c.startVolts, 3)],
  ["decided_by", (c) => c.decidedBy],
  ["not_met", (c) => c.constraints.flatMap((x) => (x.outcome === "not met" ? [x.id] : [])).join(" ")],
  ["cannot_tell", (c) => c.cannotTell.join("; ")],
];

const seconds = (x: number | null | undefined): CsvCell => csvNumber(x, 4);

/** What governs a circuit, its heat by the model, what shorts draw and what ends them. */
const faultColumns: readonly (readonly [head: string, cell: (row: FaultScheduleRow | undefined) => CsvCell])[] = [
  ["governed_by", (r) => r?.governing.id],
  ["margin_percent", (r) => share(r?.governing.margin ?? null)],
  ["model_least_c", (r) => csvNumber(r?.heat?.atDesign.lowC, 1)],
  ["model_most_c", (r) => csvNumber(r?.heat?.atDesign.highC, 1)],
  ["fault_least_a", (r) => csvNumber(r?.fault?.leastA, 1)],
  ["fault_greatest_near_a", (r) => csvNumber(r?.fault?.nearA, 1)],
  ["fault_greatest_far_a", (r) => csvNumber(r?.fault?.farA, 1)],
  ["fault_last_to_open", (r) => r?.fault?.guard],
  ["fault_cleared_by_s", (r) => (r?.fault?.outcome === "cleared" ? seconds(r.fault.withinS) : null)],
  ["fault_outcome", (r) => r?.fault?.outcome],
  ["fault_let_through_percent_of_withstand", (r) => share(r?.fault?.bearsShare ?? null)],
];

/** The schedule, one line a circuit. */
export function scheduleCsv(compiled: Compiled): string {
  const faults = new Map(faultSchedule(compiled).map((row) => [row.circuit.id, row]));
  return printCsv(
    [...columns, ...faultColumns].map(([head]) => head),
    compiled.design.circuits.map((circuit) => [
      ...columns.map(([, cell]) => cell(circuit)),
      ...faultColumns.map(([, cell]) => cell(faults.get(circuit.id))),
    ]),
  );
}

/** Volts at the loads: a line a load, a column a state; empty where it is not on, a word where there are no volts. */
export function voltagesCsv(design: Design): string {
  const heads: string[] = ["load", "wire"];
  for (const { id } of design.states) {
    const stem = snakeCase(id) || "state";
    let head = `${stem}_v`;
    for (let n = 2; heads.includes(head); n++) head = `${stem}_${n}_v`;
    heads.push(head);
  }
  const rows = loadsOf(design).map(({ part, circuit }): CsvCell[] => [
    part,
    circuit,
    ...design.states.map((state): CsvCell => {
      const load = state.loads.find((l) => l.part === part);
      const word = voltsIn(state, part);
      if (load === undefined || word === NOTHING) return null;
      return /^[a-z]+$/.test(word) ? word : csvNumber(load.volts, 3);
    }),
  ]);
  return printCsv(heads, rows);
}
