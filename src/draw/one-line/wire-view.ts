import { fromSi, metres } from "../../quantity/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";
import type { CircuitDesign, Design, DeviceDesign } from "../../size/index.ts";
import type { System, SystemCircuit, Value } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";

/** A device in a wire, as the one-line shows it. */
export interface DeviceView {
  readonly end: "from" | "to";
  readonly kind: "fuse" | "breaker";
  /** Its designation: `F12`. */
  readonly name: string;
  /** `100 A`, with a star where the plan gives it. */
  readonly rating: string;
  readonly given: boolean;
}

/** A circuit as the one-line shows it. */
export interface WireView {
  readonly id: string;
  readonly about: string;
  readonly number: string;
  /** `2 × 35 mm²`, with a star where the plan gives it. */
  readonly size: string;
  /** The same without the count of its cores, for where there is no room; what lies in parallel stays counted. */
  readonly sizeOfCore: string;
  readonly given: boolean;
  /** `4.2 m`, and the figure alone. */
  readonly length: string;
  readonly lengthFigure: string;
  readonly amps: string;
  /** Drop of each load by its part: percent and volts. */
  readonly drops: Readonly<Record<string, { readonly percent: string; readonly volts: string }>>;
  readonly devices: readonly DeviceView[];
  readonly from: SystemCircuit["from"];
  readonly to: SystemCircuit["to"];
  /** Parts that stand in its line between its ends. */
  readonly inline: readonly string[];
  readonly draws: readonly string[];
  readonly current: "DC" | "AC";
  /** Holds a conductor that carries current out; else it is a return or an earth lead. */
  readonly live: boolean;
  /** `B3 −`, where it does not land on the plus or the cores of its ends. */
  readonly fromSign: string;
  readonly toSign: string;
  readonly order: number;
  readonly says: string;
}

/** What stands where nothing is known. */
export const UNKNOWN = "?";
const NOTHING = "–";

/** Whether a build counts in feet: its wire is sold by American gauges. */
export const countsInFeet = (system: System): boolean => system.stock.system !== "mm²";

const one = (x: number): string => decimalText(x, { decimals: 1 });
const figure = (x: number): string =>
  x >= 100 ? decimalText(x, { decimals: 0 }) : decimalText(x, { figures: x >= 10 ? 3 : 2 });

function lengthOf({ low, high, origin }: Value, inFeet: boolean): string {
  if (origin === "unknown" || origin === "default") return UNKNOWN;
  const [a, b] = [low, high].map((x) => (inFeet ? fromSi(metres(x), "length", "ft") : x));
  if (a === undefined || b === undefined) return UNKNOWN;
  return one(a) === one(b) ? one(b) : `${one(a)}…${one(b)}`;
}

/** Reads what is shown of each circuit. */
export function viewWires(system: System, design: Design): WireView[] {
  const designs = new Map(design.circuits.map((circuit) => [circuit.id, circuit]));
  const parts = new Set(system.parts.map(({ id }) => id));
  const inFeet = countsInFeet(system);
  const letters = system.stock.system === "mm²" ? { fuse: "F", breaker: "Q" } : { fuse: "F", breaker: "CB" };
  return system.circuits.map((circuit, order) => {
    const of = designs.get(circuit.id);
    const number = cleanText(circuit.id);
    const length = lengthOf(of?.lengthM ?? circuit.length, inFeet);
    const given = of === undefined || of.outcome === "pinned" || of.outcome === "found";
    const many = countOf(circuit);
    const bare = sizeOf(circuit, of);
    const size = `${many > 1 ? `${many} × ` : ""}${bare}`;
    const devices = devicesOf(circuit, of, letters);
    return {
      id: circuit.id,
      about: `circuits.${circuit.id}`,
      number,
      size,
      sizeOfCore: many === circuit.parallel ? size : bare,
      given: size.endsWith("*"),
      length: `${length} ${inFeet ? "ft" : "m"}`,
      lengthFigure: length,
      amps: of?.steadyA === null || of === undefined ? NOTHING : figure(of.steadyA),
      drops: Object.fromEntries(
        (of?.loads ?? []).map((load) => [
          load.part,
          // More than all of them is a wire that no load can hang on; how much more says nothing.
          {
            percent: load.dropShare >= 0.9995 ? ">99" : one(100 * load.dropShare),
            volts: decimalText(load.dropV, { decimals: 2 }),
          },
        ]),
      ),
      devices,
      from: circuit.from,
      to: circuit.to,
      inline: inlineOf(circuit, parts),
      draws: circuit.draws,
      current: circuit.current,
      live: circuit.conductors.some(({ role }) => role === "live"),
      ...signsOf(circuit),
      order,
      says: [
        `${number} from ${cleanText(circuit.fromText)} to ${cleanText(circuit.toText)}`,
        `${size}${given ? " as given" : ""}`,
        `${length} ${inFeet ? "ft" : "m"}`,
        ...devices.map(({ kind, name, rating }) => `${kind} ${name} ${rating}`),
      ].join(", "),
    };
  });
}

/** How many conductors of its size it has: cores of alternating current, else those in parallel. */
function countOf({ conductors, current, parallel }: SystemCircuit): number {
  const cores = conductors.filter(({ fn }) => fn !== "+" && fn !== "−" && fn !== "pole");
  return current === "AC" && cores.length > 1 ? new Set(cores.map(({ fn }) => fn)).size : parallel;
}

function sizeOf(circuit: SystemCircuit, of: CircuitDesign | undefined): string {
  if (of?.size !== null && of?.size !== undefined) return `${of.size.label}${of.outcome === "chosen" ? "" : "*"}`;
  return circuit.size !== undefined && circuit.size !== "unknown" ? `${circuit.size.label}*` : UNKNOWN;
}

/** Digits of a circuit's number carry over to its devices: W12 holds F12. */
function devicesOf(
  circuit: SystemCircuit,
  of: CircuitDesign | undefined,
  letters: Readonly<Record<"fuse" | "breaker", string>>,
): DeviceView[] {
  const digits = /\d+\w*$/.exec(circuit.id)?.[0] ?? `-${cleanText(circuit.id)}`;
  const name = (kind: "fuse" | "breaker", i: number): string =>
    `${letters[kind]}${digits}${i === 0 ? "" : `.${i + 1}`}`;
  const designed = of?.devices ?? [];
  if (designed.length > 0) return designed.map((device, i) => viewDevice(device, name(device.kind, i)));
  if (circuit.devices === "propose" || circuit.devices === "unknown") {
    if (circuit.devices === "propose") return [];
    return [{ end: "from", kind: "fuse", name: name("fuse", 0), rating: UNKNOWN, given: true }];
  }
  return circuit.devices.map((device, i) => ({
    end: device.end,
    kind: device.kind,
    name: name(device.kind, i),
    rating: device.rating === "unknown" ? UNKNOWN : `${figure(device.rating.high)} A*`,
    given: true,
  }));
}

const viewDevice = ({ end, kind, ratingA, by }: DeviceDesign, name: string): DeviceView => ({
  end,
  kind,
  name,
  rating: `${ratingA === null ? UNKNOWN : `${figure(ratingA)} A`}${by === "given" ? "*" : ""}`,
  given: by === "given",
});

/** Parts on the way, in their order: those whose terminals the conductors touch and that are neither end. */
function inlineOf(circuit: SystemCircuit, parts: ReadonlySet<string>): string[] {
  const met: string[] = [];
  for (const { from, to } of circuit.conductors) {
    for (const terminal of [from, to]) {
      const part = partOf(terminal, parts);
      if (part === null || part === circuit.from.part || part === circuit.to.part || met.includes(part)) continue;
      // A return lands on a bar of its own, which stands in no line.
      if (circuit.conductors.some((c) => c.role !== "return" && (c.from === terminal || c.to === terminal)))
        met.push(part);
    }
  }
  return met;
}

/** The part of a terminal such as `PNL:3:+`; names of parts may hold colons. */
export function partOf(terminal: string, parts: ReadonlySet<string>): string | null {
  for (let end = terminal.length; end > 0; end = terminal.lastIndexOf(":", end - 1)) {
    const part = terminal.slice(0, end);
    if (parts.has(part)) return part;
  }
  return null;
}

const signsOf = ({ conductors, from, to }: SystemCircuit): { fromSign: string; toSign: string } => {
  const signs = (part: string): string => {
    const ends = conductors.flatMap((c) => [c.from, c.to]).filter((t) => t.startsWith(`${part}:`));
    if (ends.some((t) => t.endsWith(":+"))) return "";
    return ends.some((t) => t.endsWith(":−")) ? "−" : ends.some((t) => t.endsWith(":PE")) ? "PE" : "";
  };
  return conductors.length === 1
    ? { fromSign: signs(from.part), toSign: signs(to.part) }
    : { fromSign: "", toSign: "" };
};
