import type { Compiled } from "../compile.ts";
import { isVerified, printTrust } from "../explain/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import {
  bearsOf,
  circuitRows,
  faultAmpsOf,
  openRows,
  outcomeSays,
  rangeOf,
  clearedOf,
  secondsOf,
  type CircuitFaultRow,
  type OpenRow,
} from "./fault-rows.ts";
import type { DeviceFaultOnPaper, FaultSourceOnPaper, FaultsOnPaper, TerminalFaultOnPaper } from "./faults-on-paper.ts";
import { ampsOf, counted, NOTHING, voltsOf } from "./figures.ts";
import { joinBlocks } from "./print-design.ts";
import { printRows, stackRows, uncut } from "./stack-rows.ts";
import { printTable, stackedHead, type Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

export const FAULT_CAUTION =
  "These figures rest on what the plan says of sources and wires. A short can burn copper, throw molten metal and burst a battery: never test one. Local law, the makers' figures and a licensed electrician or surveyor decide.";

/** Faults of a whole build: what goes on being fed first, then circuits, devices, terminals, and what was not studied. */
export function printFaults(compiled: Compiled, faults: FaultsOnPaper, width: number, paint: Paint): string {
  return joinBlocks([
    wrap(`Short circuits of ${compiled.plan.name === "" ? "the plan" : compiled.plan.name}`, width).map((line) =>
      paint("bold", line),
    ),
    printOpen(faults, width, paint),
    printCircuitFaults(circuitRows(faults, compiled.design.circuits), width, paint),
    printDeviceFaults(faults.devices, width, paint),
    printTerminals(faults.terminals, width, paint),
    printFaultSources(faults.sources, width, paint),
    printNotStudied(faults, width),
  ]);
}

/** Faults that go on being fed, the gravest first. */
export function printOpen({ open, circuits }: FaultsOnPaper, width: number, paint: Paint): string[] {
  const rows = openRows(open);
  if (circuits.length === 0) return wrap("No circuit of direct current can be studied.", width);
  if (rows.length === 0) return wrap("Every short that can be told is cleared: nothing goes on feeding one.", width);
  const columns: readonly Column<OpenRow>[] = [
    { head: "conductor", cell: (r) => r.at, least: 8 },
    { head: "end", cell: (r) => (r.ends.length > 1 ? "both" : (r.ends[0] ?? "")) },
    ...(rows.some((r) => r.to === "structure") ? [{ head: "to", cell: (r: OpenRow) => r.to }] : []),
    { head: "how it ends", cell: (r) => outcomeSays[r.outcome] },
    { head: ["goes on", "A"], cell: rangeOf, align: "number" },
    { head: "fed by", cell: (r) => r.sources.join(", "), least: 10 },
  ];
  return [
    ...wrap(
      `Open: ${counted(rows.length, "short")} that ${rows.length === 1 ? "a source goes" : "sources go"} on feeding`,
      width,
    ).map((line) => paint("bold", line)),
    ...printRows(columns, rows, width, paint),
    ...wrap(
      "nothing opens: no device stands between it and a battery. too little to open: the devices on the way may stay closed by their own standard. not proven: nothing is published of when they open, or nobody knows whether one stands there. limited sources go on: chargers, alternators and solar keep to their own limit. Currents of each source alone and of all together.",
      width,
    ),
  ];
}

const circuitColumns: readonly Column<CircuitFaultRow>[] = [
  { head: "wire", cell: (r) => r.id, least: 6 },
  { head: "to", cell: (r) => r.to, least: 8 },
  { head: ["greatest", "near, A"], cell: (r) => faultAmpsOf(r.nearA), align: "number" },
  { head: ["greatest", "far, A"], cell: (r) => faultAmpsOf(r.farA), align: "number" },
  { head: ["least", "A"], cell: (r) => faultAmpsOf(r.leastA), align: "number" },
  { head: ["last to", "open"], cell: (r) => r.guard ?? NOTHING },
  { head: ["cleared", "by, s"], cell: clearedOf, align: "number" },
  { head: ["bears", "%"], cell: (r) => bearsOf(r.bearsShare, r.bearsLeastShare), align: "number" },
];

/** Fault currents by circuit. */
export function printCircuitFaults(rows: readonly CircuitFaultRow[], width: number, paint: Paint): string[] {
  if (rows.length === 0) return [];
  const untold = rows.filter((r) => r.cannotTell !== null);
  const narrow = circuitColumns.filter((c) => c.head !== "to");
  return [
    paint("bold", "By circuit"),
    ...printRows(circuitColumns, rows, width, paint, narrow),
    ...wrap(
      "greatest: everything that can push, cold copper, at the ends near to and far from the sources. least: one battery or string alone, empty, cold and aged, hot copper. cleared by: when no battery feeds it any more, by the longest that is published, which for class T fuses is the time at twice the rating: minutes, where milliseconds are usual; limited: only sources with a limit go on; not proven: nothing is published of a device on the way. bears: what the hardest short that is cleared within 5 s lets through, of what the weakest conductor bears; unproven: by the greatest opening times more than that, and nobody can say that it is not burnt; burns: more even by the least; –: no short in it is cleared within 5 s.",
      width,
    ),
    ...untold.flatMap((r) => wrap(`- ${r.id}: the least cannot be told: ${r.cannotTell ?? ""}`, width, 2)),
  ];
}

const deviceColumns: readonly Column<DeviceFaultOnPaper>[] = [
  { head: "device", cell: (d) => d.device, least: 12 },
  { head: "A", cell: (d) => (d.ratingA === null ? "?" : ampsOf(d.ratingA)), align: "number" },
  { head: "kind", cell: (d) => d.kind, least: 12 },
  {
    head: ["through it", "A"],
    cell: (d) => faultAmpsOf(d.greatest?.amps.highA ?? null),
    align: "number",
  },
  { head: ["line side", "A"], cell: (d) => faultAmpsOf(d.prospectiveA), align: "number" },
  {
    head: ["to break", "A"],
    cell: (d) => (d.toBreak === null ? NOTHING : faultAmpsOf(d.toBreak.highA)),
    align: "number",
  },
  { head: ["breaks", "A"], cell: (d) => faultAmpsOf(d.breaksA), align: "number" },
  { head: "is", cell: (d) => (d.verdict === "nothing to break" ? NOTHING : d.verdict) },
];

/** What each device may have to break beside what it breaks. */
export function printDeviceFaults(devices: readonly DeviceFaultOnPaper[], width: number, paint: Paint): string[] {
  if (devices.length === 0) return [];
  const unsure = devices.filter((d) => d.trust !== null && !isVerified(d.trust));
  const words = [...new Set(unsure.flatMap((d) => (d.trust === null ? [] : [printTrust(d.trust)])))];
  const narrow = deviceColumns.filter(({ head }) => head[0] !== "through it");
  const table = printRows(deviceColumns, devices, width, paint, narrow);
  const isWhole = table.some((line) => line.includes("through it"));
  return [
    paint("bold", "By device"),
    ...table,
    ...wrap(
      `${!isWhole ? "" : "through it: the greatest of any short that is studied. "}line side: of a short at its own terminals, all sources together. to break: that as it comes through the device, itself a plain link. breaks: at the highest volts of its system, of the usual grade of its family unless the plan says what is marked on it${words.length === 0 ? "" : ` (${words.join(", ")})`}. not known: what its sources give, or which device it is, would tell.`,
      width,
    ),
    ...(devices.some((d) => d.isPresent === "unknown")
      ? wrap("?: nobody knows whether a device stands there.", width)
      : []),
  ];
}

/** States in which every terminal sees the same stand in one column. */
interface StateColumn {
  readonly states: readonly string[];
  readonly at: number;
}

function stateColumns(terminals: readonly TerminalFaultOnPaper[]): StateColumn[] {
  const columns = new Map<string, { at: number; states: string[] }>();
  (terminals[0]?.states ?? []).forEach(({ state }, at) => {
    const key = terminals
      .map((t) => `${faultAmpsOf(t.states[at]?.greatestA ?? 0)} ${faultAmpsOf(t.states[at]?.leastA ?? 0)}`)
      .join();
    const alike = columns.get(key);
    if (alike === undefined) columns.set(key, { at, states: [state] });
    else alike.states.push(state);
  });
  return [...columns.values()];
}

/** Prospective currents at each terminal, whatever the switches, and in each state. */
export function printTerminals(terminals: readonly TerminalFaultOnPaper[], width: number, paint: Paint): string[] {
  if (terminals.length === 0) return [];
  type C = Column<TerminalFaultOnPaper>;
  const fixed: readonly C[] = [
    { head: "terminal", cell: (t) => t.terminal, least: 10 },
    { head: "against", cell: (t) => t.against, least: 8 },
  ];
  const groups = stateColumns(terminals);
  const lettered = groups.map((group, i) => ({ ...group, letter: String.fromCharCode(97 + (i % 26)) }));
  const isLettered = groups.some(({ states }) => states.length > 1);
  const columns: readonly C[] = [
    {
      head: ["any", "A"],
      cell: (t) => rangeOf({ lowA: t.leastA ?? t.greatestA, highA: t.greatestA }),
      align: "number",
    },
    ...lettered.map(({ at, states, letter }): C => ({
      head: isLettered ? [letter, "A"] : [...stackedHead(states[0] ?? "", 11), "A"],
      cell: (t) => {
        const own = t.states[at];
        return own === undefined || own.greatestA === 0
          ? NOTHING
          : rangeOf({ lowA: own.leastA ?? own.greatestA, highA: own.greatestA });
      },
      align: "number",
    })),
  ];
  const lines = wrap("By terminal: least of one battery alone … greatest of everything", width).map((line) =>
    paint("bold", line),
  );
  for (let first = 0; first < columns.length;) {
    let count = columns.length - first;
    const lay = (): string[] | null =>
      printTable(uncut([...fixed, ...columns.slice(first, first + count)], width), terminals, width, paint);
    let table = lay();
    while (table === null && count > 1) {
      count--;
      table = lay();
    }
    if (first > 0) lines.push("");
    // Where not even one state fits, all that are left stand below each other.
    lines.push(...(table ?? stackRows([...fixed, ...columns.slice(first)], terminals, width)));
    first += table === null ? columns.length : count;
  }
  const key = isLettered
    ? lettered.flatMap(({ letter, states }) => wrap(`${letter}: ${states.join(", ")}`, width, 3))
    : [];
  return [...lines, ...wrap("any: whatever the switches and sources.", width), ...key];
}

/** What pushes, and what that rests on. */
export function printFaultSources(sources: readonly FaultSourceOnPaper[], width: number, paint: Paint): string[] {
  if (sources.length === 0) return [];
  const columns: readonly Column<FaultSourceOnPaper>[] = [
    { head: "source", cell: (s) => s.part, least: 8 },
    { head: "", cell: (s) => s.kind },
    { head: ["volts", "V"], cell: (s) => voltsOf(s.volts), align: "number" },
    { head: ["into a short", "A"], cell: (s) => rangeOf(s.amps), align: "number" },
    {
      head: "rests on",
      cell: (s) => wrap(`${s.says}${isVerified(s.trust) ? "" : ` (${printTrust(s.trust)})`}`, Math.max(24, width - 50)),
      least: 16,
    },
  ];
  return [paint("bold", "What pushes"), ...printRows(columns, sources, width, paint)];
}

/** What was left out, and the caution. */
export function printNotStudied({ notStudied }: FaultsOnPaper, width: number): string[] {
  return [
    "Not studied",
    ...[...notStudied, "arcs, and the heating of wires while a short lasts"].flatMap((says) =>
      wrap(`- ${says}`, width, 2),
    ),
    "",
    ...wrap(FAULT_CAUTION, width),
  ];
}

/** A number of seconds as it stands in a sentence. */
export const withinSays = ({ leastS, mostS }: { readonly leastS: number; readonly mostS: number | null }): string =>
  mostS === null
    ? "nobody can say by when"
    : `after ${leastS < 0.0005 ? "0" : decimalText(leastS, { figures: 2 })} to ${secondsOf(mostS)} s`;
