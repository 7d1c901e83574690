import type { Compiled } from "../compile.ts";
import type { CircuitDesign } from "../size/index.ts";
import { bearsOf, circuitRows, clearedOf, faultAmpsOf, outcomeSays, type CircuitFaultRow } from "./fault-rows.ts";
import { faultsOnPaper } from "./faults-on-paper.ts";
import { degreesOf, NOTHING, percentOf } from "./figures.ts";
import { heatOnPaper, type HeatOnPaper } from "./heat-on-paper.ts";
import { governingOf, type Governing } from "../why/governing.ts";
import { printRows } from "./stack-rows.ts";
import type { Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** A circuit with what governs it, how warm it gets and what shorts do to it. */
export interface FaultScheduleRow {
  readonly circuit: CircuitDesign;
  readonly governing: Governing;
  readonly fault: CircuitFaultRow | null;
  readonly heat: HeatOnPaper | null;
}

/** A row for every circuit of direct current, in the order of the schedule. */
export function faultSchedule(compiled: Compiled): FaultScheduleRow[] {
  const { circuits } = compiled.design;
  const faults = new Map(circuitRows(faultsOnPaper(compiled), circuits).map((row) => [row.id, row]));
  const heats = new Map(heatOnPaper(compiled).map((heat) => [heat.id, heat]));
  return circuits
    .filter(({ current }) => current === "DC")
    .map((circuit) => {
      const fault = faults.get(circuit.id) ?? null;
      return {
        circuit,
        governing: governingOf(circuit, fault?.bearsShare ?? null),
        fault,
        heat: heats.get(circuit.id) ?? null,
      };
    });
}

/** Degrees by the model: one number, or a range where neighbours are not known. */
const modelOf = ({ heat }: FaultScheduleRow): string => {
  if (heat === null) return NOTHING;
  const [low, high] = [degreesOf(heat.atDesign.lowC), degreesOf(heat.atDesign.highC)];
  return low === high ? high : `${low}…${high}`;
};

type C = Column<FaultScheduleRow>;
const wire: C = { head: "wire", cell: ({ circuit }) => circuit.id, least: 6 };
const to: C = { head: "to", cell: ({ circuit }) => circuit.to, least: 8 };
const model: C = { head: ["by model", "°C"], cell: modelOf, align: "number" };
const near: C = {
  head: ["greatest", "fault, A"],
  cell: ({ fault }) => faultAmpsOf(fault?.nearA ?? null),
  align: "number",
};
const figures: readonly C[] = [
  { head: ["governed", "by"], cell: ({ governing }) => governing.id },
  { head: ["margin", "%"], cell: ({ governing }) => percentOf(governing.margin, 0), align: "number" },
  { head: ["metal", "°C"], cell: ({ circuit }) => degreesOf(circuit.conductorC), align: "number" },
];
const faulted: readonly C[] = [
  { head: ["least", "fault, A"], cell: ({ fault }) => faultAmpsOf(fault?.leastA ?? null), align: "number" },
  near,
  { head: ["last to", "open"], cell: ({ fault }) => fault?.guard ?? NOTHING },
  { head: ["cleared", "by, s"], cell: ({ fault }) => (fault === null ? NOTHING : clearedOf(fault)), align: "number" },
];
const bears: C = {
  head: ["bears", "%"],
  cell: ({ fault }) => (fault === null ? NOTHING : bearsOf(fault.bearsShare, fault.bearsLeastShare)),
  align: "number",
};

/** Columns for pages that are wide enough. */
export const faultScheduleColumns: readonly C[] = [wire, to, ...figures, model, ...faulted, bears];

/** The second table of the schedule: what governs each circuit, how warm it gets, what a short draws and what ends it. */
export function printFaultSchedule(compiled: Compiled, width: number, paint: Paint): string[] {
  const rows = faultSchedule(compiled).filter(
    ({ circuit, fault }) => circuit.outcome !== "cannot tell" || fault !== null,
  );
  if (rows.length === 0) return [];
  const choices = [
    [wire, ...figures, model, ...faulted, bears],
    [wire, ...figures, ...faulted],
    [wire, ...figures, ...faulted.filter(({ head }) => head[1] !== "open")],
  ];
  const table = printRows(faultScheduleColumns, rows, width, paint, ...choices);
  const withModel = table.some((line) => line.includes("model"));
  const open = rows.filter(({ fault }) => fault !== null && fault.outcome !== "cleared" && fault.outcome !== "none");
  const byOutcome = new Map<string, string[]>();
  for (const { circuit, fault } of open) {
    const says = fault === null ? "" : outcomeSays[fault.outcome];
    byOutcome.set(says, [...(byOutcome.get(says) ?? []), circuit.id]);
  }
  return [
    paint("bold", "Faults and devices"),
    ...table,
    ...wrap(
      `margin: room to the limit of what governs, as a share of the limit; negative: beyond it; –: what is behind it is judged, or it has no figure. metal: at the greatest steady current, by the table${withModel ? "; by model: by the balance of heat, which only checks it" : ""}. least fault: one battery alone, empty and cold; greatest: everything that can push. cleared by: by the longest that is published, which for class T fuses is the time at twice the rating: minutes, where milliseconds are usual; after it no battery feeds the short.`,
      width,
    ),
    ...[...byOutcome].flatMap(([says, ids]) => wrap(`- not cleared, ${says}: ${ids.join(", ")}`, width, 2)),
    ...wrap("`faults` and `selectivity` say more.", width),
  ];
}
