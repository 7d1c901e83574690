import type { CircuitDesign, ConstraintId } from "../../size/index.ts";
import type { PagePlan } from "../worker/protocol.ts";
import type { Units } from "../contract.ts";
import { NOTHING, printAmps, printShare, printVolts } from "../look/print-in-units.ts";
import { boughtCell, coloursCell, deviceEdit, deviceText, lengthCell, number, sizeCell, words } from "./cells.ts";
import { circuitStatuses, type CircuitStatus } from "./circuit-status.ts";
import type { Cell, ColumnHead, Table, TableRow } from "./table.ts";

const columns: readonly ColumnHead[] = [
  { id: "circuit", head: "circuit", isName: true },
  { id: "status", head: "found", says: "gravest finding", least: 16, onCard: true },
  { id: "from", head: "from" },
  { id: "to", head: "to" },
  { id: "length", head: "one way", says: "length one way", isNumber: true, onCard: true },
  { id: "wire", head: "wire", isNumber: true, onCard: true },
  { id: "bought", head: "bought", says: "size on the label that the plan gives", least: 8 },
  { id: "cable", head: "cable", says: "cable by what its cores do", least: 12 },
  { id: "colours", head: "colours", says: "colours in the letters of IEC 60757; what is proposed stands in brackets" },
  { id: "device", head: "device", least: 10, onCard: true },
  { id: "amps", head: "for long", says: "greatest steady current", isNumber: true },
  { id: "ampacity", head: "may carry", says: "ampacity after heat and bundling", isNumber: true },
  { id: "drop", head: "drop", says: "drop of the worst load", isNumber: true, onCard: true },
  { id: "limit", head: "limit", says: "drop that is allowed", isNumber: true },
  { id: "volts", head: "least", says: "least volts while it runs", isNumber: true },
  { id: "start", head: "at start", says: "least volts while it starts", isNumber: true },
  { id: "decides", head: "decided by" },
];

/** What labels say: left out where no circuit has any. */
const LABELS: ReadonlySet<string> = new Set(["bought", "cable", "colours"]);

/** Every circuit, the gravest on top. */
export function circuitsTable(plan: PagePlan, units: Units): Table {
  const statuses = circuitStatuses(plan);
  const rows = plan.design.circuits
    .map((circuit, place) => ({ circuit, place, status: statuses.get(circuit.id) }))
    .sort((a, b) => (a.status?.rank ?? 9) - (b.status?.rank ?? 9) || a.place - b.place)
    .map(({ circuit, status }) => rowOf(circuit, status, units));
  const said = columns.map(({ id }, i) => !LABELS.has(id) || rows.some((r) => r.cells[i]?.by !== null));
  return {
    id: "circuits",
    title: "Circuits",
    columns: columns.filter((_, i) => said[i]),
    rows: rows.map((row) => ({ ...row, cells: row.cells.filter((_, i) => said[i]) })),
    empty: "No circuit yet. Pull one on the one-line.",
    notes: [
      "Lengths are one way. Drop is of the worst load, from source to load and back. Figures are of the worst state for each circuit.",
      notJudged(plan),
    ].filter((n) => n !== ""),
  };
}

function rowOf(c: CircuitDesign, status: CircuitStatus | undefined, units: Units): TableRow {
  return {
    id: c.id,
    about: `circuits.${c.id}`,
    subject: c.id,
    cells: [
      words(c.id, { about: `circuits.${c.id}`, field: "designation", text: c.id, label: `designation of ${c.id}` }),
      status === undefined ? words("") : { text: status.says, by: status.rank, status: status.status },
      words(c.from),
      words(c.to),
      lengthCell(c, units),
      sizeCell(c, units),
      boughtCell(c),
      words(c.cable?.makeUp ?? c.cable?.label ?? c.cable?.name ?? ""),
      coloursCell(c),
      firstDevice(c, units),
      number(printAmps(c.steadyA, units), c.steadyA),
      number(printAmps(c.ampacityA, units), c.ampacityA),
      number(dropText(c, units), c.dropShare),
      number(printShare(c.dropLimitShare, units), c.dropLimitShare),
      number(printVolts(c.leastVolts, units), c.leastVolts),
      number(printVolts(c.startVolts, units), c.startVolts),
      words(c.decidedBy === null ? "" : constraintWords[c.decidedBy]),
    ],
  };
}

const dropText = ({ dropV, dropShare }: CircuitDesign, units: Units): string =>
  dropV === null ? NOTHING : dropShare === null ? printVolts(dropV, units) : printShare(dropShare, units);

function firstDevice(c: CircuitDesign, units: Units): Cell {
  const [first, ...others] = c.devices;
  const more = others.length > 0 ? `, and ${others.length} more` : "";
  return {
    text: first === undefined ? NOTHING : `${deviceText(first, units)}${more}`,
    by: first?.ratingA ?? null,
    edit: deviceEdit(c, 0, units),
    ...(first === undefined && c.bareEnds[0] !== undefined ? { more: c.bareEnds[0].why } : {}),
  };
}

/** What a constraint is called by people. */
export const constraintWords: Readonly<Record<ConstraintId, string>> = {
  ampacity: "ampacity",
  drop: "drop, running",
  start: "drop at start",
  "least-volts": "least volts",
  device: "device",
  mechanical: "mechanical",
  bond: "bond",
  withstand: "fault withstand",
  terminal: "terminal",
  "earth-loop": "earth loop",
  stock: "least on sale",
};

/** What circuits were not judged for, so that no row looks as if it had been. */
export function notJudged({ design }: PagePlan): string {
  const circuitsBy = new Map<ConstraintId, string[]>();
  for (const { id: circuit, constraints } of design.circuits)
    for (const { id, outcome } of constraints)
      if (outcome === "not judged yet") circuitsBy.set(id, [...(circuitsBy.get(id) ?? []), circuit]);
  const says = [...circuitsBy].map(
    ([id, circuits]) =>
      `${constraintWords[id]} of ${circuits.length === design.circuits.length ? "any size" : circuits.join(", ")}`,
  );
  return says.length === 0 ? "" : `Not judged: ${says.join("; ")}.`;
}
