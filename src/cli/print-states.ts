import type { Design, StateDesign } from "../size/index.ts";
import { ampsOf, NOTHING, voltsOf } from "./figures.ts";
import { printRows, stackRows, uncut } from "./stack-rows.ts";
import { printTable, stackedHead, type Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** A load that is on in some state. */
export interface LoadRow {
  readonly part: string;
  readonly circuit: string | null;
}

/** Every load that is on in some state, in the order in which they first appear in the schedule. */
export function loadsOf(design: Design): LoadRow[] {
  const order = new Map(design.circuits.map(({ id }, i) => [id, i]));
  const rows = new Map<string, LoadRow>();
  for (const state of design.states) {
    for (const { part, circuit } of state.loads) if (!rows.has(part)) rows.set(part, { part, circuit });
  }
  const place = ({ circuit }: LoadRow): number => (circuit === null ? Infinity : (order.get(circuit) ?? Infinity));
  return [...rows.values()].sort((a, b) => (place(a) === place(b) ? 0 : place(a) - place(b)));
}

/** Volts at a load in a state, or the word for why there are none. */
export function voltsIn(state: StateDesign, part: string): string {
  const load = state.loads.find((l) => l.part === part);
  if (load === undefined) return NOTHING;
  if (state.dead.includes(part)) return "dead";
  if (load.condition === "collapsed") return "collapsed";
  return voltsOf(load.volts);
}

/** Most columns that the name of a state takes in the head of its column. */
const HEAD = 11;

/** Volts at every load in every state, then what every source gives in every state. */
export function printStates(design: Design, width: number, paint: Paint): string[] {
  if (design.states.length === 0) return [];
  const rows = loadsOf(design);
  const lines: string[] = [paint("bold", "Volts at the loads, state by state")];
  if (rows.length === 0) lines.push("no load is on in any state");
  else
    lines.push(
      ...printVolts(design.states, rows, width, paint),
      `${NOTHING}: not on`,
      ...printNeverOn(design, width),
      ...printUncounted(design, width),
    );
  lines.push("", paint("bold", "Sources, state by state"), ...printSources(design.states, width, paint));
  return lines;
}

/** At most so many wires are named. */
const MOST_NAMES = 8;

/** Loads that no state names are judged alone; their volts stand in the schedule. */
function printNeverOn(design: Design, width: number): string[] {
  const on = new Set(loadsOf(design).map((row) => row.part));
  const never = [...new Set(design.circuits.flatMap((c) => c.loads.map((l) => l.part)))].filter(
    (part) => !on.has(part),
  );
  return never.length === 0
    ? []
    : wrap(`On in no state of the plan, so judged alone, in the schedule: ${never.join(", ")}`, width);
}

/** A wire that cannot be told takes no part in the network, so what it loses is missing from the volts. */
function printUncounted({ circuits }: Design, width: number): string[] {
  const untold = circuits.filter((c) => c.current === "DC" && c.outcome === "cannot tell").map((c) => c.id);
  if (untold.length === 0) return [];
  const names = untold.length > MOST_NAMES ? [...untold.slice(0, MOST_NAMES), "…"] : untold;
  return wrap(
    `These volts are too high: what is lost in wires that cannot be told is not in them (${names.join(", ")}).`,
    width,
  );
}

/** As many states side by side as fit; the rest below. */
function printVolts(states: readonly StateDesign[], rows: readonly LoadRow[], width: number, paint: Paint): string[] {
  const fixed: readonly Column<LoadRow>[] = [
    { head: "load", cell: (row) => row.part, least: 12 },
    { head: "wire", cell: (row) => row.circuit ?? NOTHING, least: 8 },
  ];
  const columns = states.map((state): Column<LoadRow> => ({
    head: [...stackedHead(state.id, HEAD), "V"],
    cell: (row) => voltsIn(state, row.part),
    align: "number",
  }));
  const lines: string[] = [];
  for (let first = 0; first < columns.length;) {
    let count = columns.length - first;
    let table = printTable(uncut([...fixed, ...columns.slice(first)], width), rows, width, paint);
    while (table === null && count > 1) {
      count--;
      table = printTable(uncut([...fixed, ...columns.slice(first, first + count)], width), rows, width, paint);
    }
    if (lines.length > 0) lines.push("");
    // Where not even one state fits, all that are left stand below each other.
    if (table === null) return [...lines, ...stackRows([...fixed, ...columns.slice(first)], rows, width)];
    lines.push(...table);
    first += count;
  }
  return lines;
}

interface SourceRow {
  readonly state: string;
  readonly part: string;
  readonly volts: number | null;
  readonly amps: number;
  readonly condition: string;
}

/** What a condition of the network means for a source. */
const meaning: Readonly<Record<string, string>> = {
  pushing: "",
  taking: "is charged",
  resting: "rests",
  holding: "holds its volts",
  limited: "at its limit",
  blocked: "pushed back by higher volts",
  passing: "passes on what it gets",
  "input limited": "at the limit of its input",
};

function printSources(states: readonly StateDesign[], width: number, paint: Paint): string[] {
  const rows = states.flatMap((state) =>
    state.sources.map((source, i): SourceRow => ({ state: i === 0 ? state.id : "", ...source })),
  );
  const columns: readonly Column<SourceRow>[] = [
    { head: "state", cell: (r) => r.state, least: 12 },
    { head: "source", cell: (r) => r.part, least: 8 },
    { head: ["volts", "V"], cell: (r) => voltsOf(r.volts), align: "number" },
    { head: ["gives", "A"], cell: (r) => ampsOf(r.amps), align: "number" },
    { head: "", cell: (r) => meaning[r.condition] ?? r.condition, least: 8 },
  ];
  return printRows(columns, rows, width, paint);
}
