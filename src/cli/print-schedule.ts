import { isVerified, printTrust } from "../explain/index.ts";
import type { CircuitDesign, Design, DeviceDesign } from "../size/index.ts";
import { ampacityOf, ampsOf, counted, limitOf, metresOf, NOTHING, percentOf, voltsOf } from "./figures.ts";
import { printRows, uncut } from "./stack-rows.ts";
import { printTable, type Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

type C = Column<CircuitDesign>;

/** A length in the unit of the plan: feet where its wire is sold by American gauges. */
const lengthIn = (metres: number, inFeet: boolean): string => metresOf(inFeet ? metres / FOOT : metres);
const FOOT = 0.3048; // m, by definition

/** `5.2`, or `2.4…3.1` where a range was given. */
function lengthOf({ lengthM }: CircuitDesign, inFeet: boolean): string {
  if (lengthM.origin === "unknown") return "unknown";
  if (lengthM.low === lengthM.high) return lengthIn(lengthM.high, inFeet);
  return `${lengthIn(lengthM.low, inFeet)}…${lengthIn(lengthM.high, inFeet)}`;
}

const eachDevice = (circuit: CircuitDesign, say: (device: DeviceDesign) => string): string | readonly string[] =>
  circuit.devices.length === 0 ? NOTHING : circuit.devices.map(say);

const ratingOf = (device: DeviceDesign): string => (device.ratingA === null ? "?" : ampsOf(device.ratingA));
const kindOf = (device: DeviceDesign): string =>
  `${device.familyName ?? device.kind}${device.by === "given" ? " *" : ""}`;
const placeOf = (device: DeviceDesign, inFeet: boolean): string =>
  device.distanceM > 0 ? `${device.at} +${lengthIn(device.distanceM, inFeet)} ${inFeet ? "ft" : "m"}` : device.at;

function sizeOf({ size, make, nothingIsEnough }: CircuitDesign): string {
  if (size === null) return NOTHING;
  return `${make.parallel > 1 ? `${make.parallel}× ` : ""}${size.label}${nothingIsEnough ? " !" : ""}`;
}

function deciderOf(circuit: CircuitDesign): string {
  const failed = circuit.constraints.some((c) => c.outcome === "not met") ? " !" : "";
  return `${circuit.decidedBy ?? circuit.outcome}${failed}`;
}

/** `RD BK`; in brackets what is only proposed. */
function coloursOf({ colours }: CircuitDesign): string {
  const given = colours.filter(({ by }) => by === "plan").map(({ letters }) => letters);
  const proposed = colours.filter(({ by }) => by === "proposed").map(({ letters }) => letters);
  return [...given, ...(proposed.length === 0 ? [] : [`(${proposed.join(" ")})`])].join(" ");
}

const wire: C = { head: "wire", cell: (c) => c.id, least: 6 };
const from: C = { head: "from", cell: (c) => c.from, least: 6 };
const to: C = { head: "to", cell: (c) => c.to, least: 8 };
const size: C = { head: "size", cell: sizeOf };
const runIn = (inFeet: boolean): C => ({
  head: ["run", inFeet ? "ft" : "m"],
  cell: (c) => lengthOf(c, inFeet),
  align: "number",
});
/** What the labels say: columns that stand beside the size only where a plan has them. */
const labels: readonly C[] = [
  { head: "bought", cell: ({ bought }) => (bought === null ? "" : (bought.size?.label ?? "not told")), least: 8 },
  { head: "cable by core", cell: ({ cable }) => cable?.makeUp ?? cable?.label ?? cable?.name ?? "", least: 12 },
  { head: "colours", cell: coloursOf },
];
const wiresIn = (inFeet: boolean): readonly C[] => [wire, from, to, runIn(inFeet), size];

/** Columns of labels that have something to say of a circuit. */
const labelsOf = (rows: readonly CircuitDesign[]): readonly C[] =>
  labels.filter(({ cell }) => rows.some((c) => cell(c) !== ""));
// Never cut: 30 mm or 51 mm is what is bought.
const devicesIn = (inFeet: boolean): readonly C[] => [
  { head: ["device", "A"], cell: (c) => eachDevice(c, ratingOf), align: "number" },
  { head: "device", cell: (c) => eachDevice(c, kindOf) },
  { head: "at", cell: (c) => eachDevice(c, (d) => placeOf(d, inFeet)), least: 6 },
];
const band: readonly C[] = [
  { head: ["load asks", "A"], cell: (c) => eachDevice(c, (d) => ampsOf(d.leastA)), align: "number" },
  { head: ["wire allows", "A"], cell: (c) => eachDevice(c, (d) => ampacityOf(d.mostA)), align: "number" },
];
const why: readonly C[] = [
  { head: ["current", "A"], cell: (c) => ampsOf(c.steadyA), align: "number" },
  { head: ["greatest", "when"], cell: (c) => c.steadyIn ?? NOTHING, least: 10 },
  { head: ["Iz", "A"], cell: (c) => ampacityOf(c.ampacityA), align: "number" },
  { head: ["drop", "V"], cell: (c) => voltsOf(c.dropV), align: "number" },
  { head: ["drop", "%"], cell: (c) => percentOf(c.dropShare), align: "number" },
  { head: ["limit", "%"], cell: (c) => limitOf(c.dropLimitShare), align: "number" },
  { head: ["least", "V"], cell: (c) => voltsOf(c.leastVolts), align: "number" },
  { head: ["start", "V"], cell: (c) => voltsOf(c.startVolts), align: "number" },
  { head: ["decided", "by"], cell: deciderOf },
];

/** Every column of the schedule that has something to say, for pages that are wide enough. */
export const scheduleColumns = (rows: readonly CircuitDesign[], inFeet: boolean): readonly C[] => [
  ...wiresIn(inFeet),
  ...labelsOf(rows),
  ...devicesIn(inFeet),
  ...why,
];

/**
 * The schedule: every circuit with its wire and devices and how it stands to its limits; then what cannot be told, and the ends that have no
 * device. One table where it fits, two or three where it does not.
 *
 * @param inFeet lengths in feet, else in metres
 */
export function printSchedule(design: Design, width: number, paint: Paint, inFeet: boolean): string[] {
  const [wires, devices] = [wiresIn(inFeet), devicesIn(inFeet)];
  const told = design.circuits.filter((c) => c.outcome !== "cannot tell");
  const untold = design.circuits.filter((c) => c.outcome === "cannot tell");
  const lines: string[] = [];
  const put = (
    head: string,
    rows: readonly CircuitDesign[],
    columns: readonly C[],
    ...shorter: readonly (readonly C[])[]
  ): void => {
    lines.push(paint("bold", head), ...printRows(columns, rows, width, paint, ...shorter));
  };
  if (told.length > 0) {
    const labelled = labelsOf(told);
    const all = printTable(uncut([...wires, ...labelled, ...devices, ...why], width), told, width, paint);
    const both = printTable(uncut([...wires, ...labelled, ...devices], width), told, width, paint);
    if (all !== null) lines.push(paint("bold", "Schedule"), ...all);
    else {
      if (both !== null) lines.push(paint("bold", "Schedule"), ...both, "");
      else {
        put("Wires", told, [...wires, ...labelled], wires);
        lines.push("");
        const guarded = told.filter((c) => c.devices.length > 0);
        if (guarded.length > 0) {
          put("Devices", guarded, [wire, ...devices, ...band], [wire, ...devices]);
          lines.push("");
        }
      }
      put("How each stands to its limits", told, [wire, to, size, ...why], [wire, size, ...why], [wire, ...why]);
    }
    lines.push(...printKey(told, width), "");
  }
  if (untold.length > 0) lines.push(...printUntold(untold, width, paint, inFeet), "");
  const bare = printBareEnds(told, width);
  if (bare.length > 0) lines.push(...bare, "");
  while (lines.at(-1) === "") lines.pop();
  return lines;
}

/** What stands in the columns, and how far it can be leaned on: once for a column, not in every cell. */
function printKey(told: readonly CircuitDesign[], width: number): string[] {
  const columns =
    "run: one way. current: greatest steady current. Iz: what the wire may carry after heat and bundling. drop: of the worst load behind, source to load and back. least: least volts at a load behind. start: least volts while a load starts.";
  const trust = printIzTrust(told);
  const marked = told.some((c) => c.nothingIsEnough || c.constraints.some((x) => x.outcome === "not met"));
  return [
    ...wrap(columns, width),
    ...printLabelKey(told, width),
    ...(trust === null ? [] : wrap(trust, width)),
    ...(told.some((c) => c.devices.some((d) => d.by === "given"))
      ? wrap("*: as the plan gives it; the others are proposed", width)
      : []),
    ...(marked ? wrap('!: not met; see "Look at these first"', width) : []),
  ];
}

/** What stands in the columns of labels, and what follows from wire that was bought otherwise than drawn. */
function printLabelKey(told: readonly CircuitDesign[], width: number): string[] {
  const says = [
    ...(told.some((c) => c.bought !== null)
      ? ["bought: by the label that the plan gives; size is what is drawn."]
      : []),
    ...(told.some((c) => c.colours.some((x) => x.by === "proposed"))
      ? ["colours in brackets: proposed by the rule set's scheme, no fact."]
      : []),
  ];
  return [
    ...(says.length === 0 ? [] : wrap(says.join(" "), width)),
    ...told.flatMap(({ id, bought }) =>
      (bought?.question == null ? (bought?.follows ?? []) : [bought.question]).flatMap((line) =>
        wrap(`- ${id}: ${line}`, width, 2),
      ),
    ),
  ];
}

function printIzTrust(told: readonly CircuitDesign[]): string | null {
  const rated = told.filter((c) => c.ampacityTrust !== null && c.ampacityA !== null);
  const words = new Map<string, string[]>();
  for (const { id, ampacityTrust } of rated) {
    if (ampacityTrust === null || isVerified(ampacityTrust)) continue;
    const word = printTrust(ampacityTrust);
    words.set(word, [...(words.get(word) ?? []), id]);
  }
  if (words.size === 0) return null;
  const parts = [...words].map(([word, ids]) => (ids.length === rated.length ? word : `${word} for ${ids.join(", ")}`));
  return `Iz: ${parts.join("; ")}; check it against the edition in force.`;
}

/** What cannot be told, by what is missing: said once for all that lack the same. */
function printUntold(untold: readonly CircuitDesign[], width: number, paint: Paint, inFeet: boolean): string[] {
  const columns: readonly C[] = [
    wire,
    from,
    to,
    runIn(inFeet),
    size,
    { head: ["current", "A"], cell: (c) => ampsOf(c.steadyA), align: "number" },
  ];
  const byReason = new Map<string, CircuitDesign[]>();
  for (const circuit of untold) {
    const reason = circuit.cannotTell.join("; ");
    byReason.set(reason, [...(byReason.get(reason) ?? []), circuit]);
  }
  return [...byReason].flatMap(([reason, circuits], i) => {
    const used = [...columns, ...labelsOf(circuits)].filter((column) =>
      circuits.some((c) => column.cell(c) !== NOTHING),
    );
    return [
      ...(i === 0 ? [] : [""]),
      ...wrap(`Cannot be told, ${counted(circuits.length, "circuit")}: ${reason}`, width).map((line) =>
        paint("bold", line),
      ),
      ...printRows(used, circuits, width, paint),
    ];
  });
}

function printBareEnds(told: readonly CircuitDesign[], width: number): string[] {
  // Ends with the same reason share a line.
  const ends = new Map<string, string[]>();
  for (const c of told) {
    for (const { end, why } of c.bareEnds) {
      const place = `${c.id} at ${end === "from" ? c.from : c.to}`;
      ends.set(why, [...(ends.get(why) ?? []), place]);
    }
  }
  if (ends.size === 0) return [];
  return [
    "Ends without a device of their own",
    ...[...ends].flatMap(([why, places]) => wrap(`- ${places.join(", ")}: ${why}`, width, 2)),
  ];
}
