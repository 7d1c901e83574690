import { compareFindings } from "../cure/try-edits.ts";
import { foldName } from "../plan/index.ts";
import { figure, printFigure, type FigureUnit } from "../rules/figure.ts";
import type { CircuitDesign, DeviceDesign, LoadDesign } from "../size/index.ts";
import type { ComparedRow, Comparison, RowId } from "./comparison.ts";
import type { KeyPath } from "./request.ts";
import type { CompiledPlan } from "./stand.ts";

/** Smaller differences are those of the reckoning. */
const SAME = 1e-6;
const NONE = "none";
const UNKNOWN = "not known";

/**
 * Tells two stands of a plan apart, row by row, with the figures as they are printed.
 *
 * @param about circuit or load whose figures are wanted, changed or not; left out: only what differs in the whole build
 */
export function compareStands(now: CompiledPlan, then: CompiledPlan, about?: KeyPath): Comparison {
  const own = about === undefined ? null : (subjectOf(then, about) ?? subjectOf(now, about));
  const others = now.design.circuits.flatMap((circuit) => {
    const other = circuitOf(then, circuit.id);
    if (circuit.id === own?.circuit) return [];
    return [row("size", circuit.id, sizeOf(circuit), sizeOf(other)), row("device", circuit.id, deviceOf(circuit), deviceOf(other))].filter((r) => r.changed); // prettier-ignore
  });
  const added = then.design.circuits.filter((c) => c.id !== own?.circuit && circuitOf(now, c.id) === undefined);
  const { clears, raises } = compareFindings(now, then);
  return {
    rows: [...(own === null ? [] : rowsOf(now, then, own)), ...wholeRows(now, then)],
    others: [...others, ...added.map((c) => row("size", c.id, { text: "not there", value: null }, sizeOf(c)))],
    clears,
    raises,
    says: `clears ${clears.length === 0 ? NONE : clears.length}, raises ${raises.length === 0 ? NONE : raises.length}`,
    nowTally: now.judgement.tally,
    thenTally: then.judgement.tally,
  };
}

/** A figure as a table shows it. */
interface Cell {
  readonly text: string;
  readonly value: number | null;
}

interface OfWhat {
  readonly circuit: string;
  /** A load on it whose volts are meant; null: the worst of all. */
  readonly load: string | null;
}

const circuitOf = ({ design }: CompiledPlan, id: string): CircuitDesign | undefined =>
  design.circuits.find((c) => c.id === id);

/** The circuit that a key path speaks of: itself, or what leads to a part. */
function subjectOf(plan: CompiledPlan, about: KeyPath): OfWhat | null {
  const [, section = "", rest = ""] = /^(\w+)\.(.*)$/s.exec(about) ?? [];
  const name = foldName(rest.replace(/\.(?:from|to)$/, ""));
  const { circuits } = plan.design;
  if (section === "circuits") {
    const circuit = circuits.find((c) => foldName(c.id) === name);
    return circuit === undefined ? null : { circuit: circuit.id, load: null };
  }
  if (section !== "parts") return null;
  for (const { id, loads } of circuits) {
    const load = loads.find(({ part }) => foldName(part) === name);
    if (load !== undefined) return { circuit: id, load: load.part };
  }
  const feeding = plan.system.circuits.find(({ to, from }) => [to, from].some(({ part }) => foldName(part) === name));
  return feeding === undefined ? null : { circuit: feeding.id, load: null };
}

function rowsOf(now: CompiledPlan, then: CompiledPlan, { circuit, load }: OfWhat): readonly ComparedRow[] {
  const [a, b] = [circuitOf(now, circuit), circuitOf(then, circuit)];
  const loadIn = (c: CircuitDesign | undefined): LoadDesign | undefined => c?.loads.find(({ part }) => part === load);
  const both = (id: RowId, of: (c: CircuitDesign | undefined) => Cell): ComparedRow => row(id, circuit, of(a), of(b));
  const rows = [
    both("size", sizeOf),
    both("device", deviceOf),
    both("length", (c) => cell(c?.lengthM.high, "m")),
    both("amps", (c) => cell(c?.steadyA, "A")),
    both("start-amps", (c) => cell(c?.startA, "A", NONE)),
    both("ampacity", (c) => cell(c?.ampacityA, "A")),
    both("drop", (c) => dropOf(c, loadIn(c))),
    both("least-volts", (c) => cell(loadIn(c)?.leastVolts ?? c?.leastVolts, "V")),
    both("start-volts", (c) => cell(loadIn(c)?.startVolts ?? c?.startVolts, "V", NONE)),
    both("temperature", (c) => cell(c?.conductorC, "°C")),
  ];
  // A row of which neither stand knows anything says nothing.
  return rows.filter((r) => r.changed || r.nowValue !== null || (r.now !== UNKNOWN && r.now !== NONE));
}

const LABELS: Readonly<Record<RowId, string>> = {
  size: "size",
  device: "device",
  length: "length",
  amps: "amps",
  "start-amps": "start amps",
  ampacity: "carries",
  drop: "drop",
  "least-volts": "least volts",
  "start-volts": "start volts",
  temperature: "metal",
  copper: "copper",
  must: "fail, must",
  should: "fail, should",
  note: "fail, note",
  "cannot-tell": "cannot tell",
};

function row(id: RowId, circuit: string | null, now: Cell, then: Cell): ComparedRow {
  const changed =
    now.text !== then.text ||
    (now.value !== null && then.value !== null && Math.abs(now.value - then.value) > SAME * Math.abs(now.value));
  return {
    id,
    label: LABELS[id],
    about: circuit === null ? "plan" : `circuits.${circuit}`,
    now: now.text,
    then: then.text,
    nowValue: now.value,
    thenValue: then.value,
    changed,
  };
}

function cell(value: number | null | undefined, unit: FigureUnit, absent = UNKNOWN): Cell {
  if (value === null || value === undefined || !Number.isFinite(value)) return { text: absent, value: null };
  return { text: printFigure(figure(value, unit)), value };
}

function sizeOf(circuit: CircuitDesign | undefined): Cell {
  if (circuit === undefined) return { text: "not there", value: null };
  const { size, make } = circuit;
  if (size === null) return { text: UNKNOWN, value: null };
  return make.parallel > 1
    ? { text: `${make.parallel} × ${size.label}`, value: make.parallel * size.areaMm2 }
    : { text: size.label, value: size.areaMm2 };
}

function deviceOf(circuit: CircuitDesign | undefined): Cell {
  const devices = circuit?.devices ?? [];
  if (devices.length === 0) return { text: NONE, value: null };
  return { text: devices.map(deviceText).join(" and "), value: devices[0]?.ratingA ?? null };
}

const deviceText = ({ kind, ratingA, at }: DeviceDesign): string =>
  `${kind} ${ratingA === null ? "of unknown rating" : `${ratingA} A`} at ${at}`;

function dropOf(circuit: CircuitDesign | undefined, load: LoadDesign | undefined): Cell {
  const volts = load?.dropV ?? circuit?.dropV;
  const share = load?.dropShare ?? circuit?.dropShare;
  if (volts == null || share == null || !Number.isFinite(volts)) return { text: UNKNOWN, value: null };
  return { text: `${printFigure(figure(volts, "V"))}, ${printFigure(figure(share, "share"))}`, value: share };
}

/** Of the whole build. */
function wholeRows(now: CompiledPlan, then: CompiledPlan): readonly ComparedRow[] {
  const copper = ({ design }: CompiledPlan): Cell => {
    const value = design.copperMm2M;
    return Number.isFinite(value)
      ? { text: `${Number(value.toPrecision(4))} mm²·m`, value }
      : { text: UNKNOWN, value: null };
  };
  const count = (value: number): Cell => ({ text: String(value), value });
  const [a, b] = [now.judgement.tally, then.judgement.tally];
  return [
    row("copper", null, copper(now), copper(then)),
    row("must", null, count(a.must), count(b.must)),
    row("should", null, count(a.should), count(b.should)),
    row("note", null, count(a.note), count(b.note)),
    row("cannot-tell", null, count(a.cannotTell), count(b.cannotTell)),
  ];
}
