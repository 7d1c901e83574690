import { coordinate, seriesIn } from "../../coordinate/index.ts";
import type { Citation } from "../../explain/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";
import type { EndFault, FaultDevice, EndFaults } from "../../size/fault-study.ts";
import type { Settled } from "../../size/index.ts";
import { studyEnds } from "../../size/study-faults.ts";
import { plotDevice } from "./plot-device.ts";
import type { PlotConductor, PlotDevice, PlotMarker, PlotPoint, PlotPulse, TimeCurrentPlot } from "./plot.ts";

/** Within it heat stays in the metal, so that I²t is a straight line. */
const ADIABATIC_S = 5;
const SOONEST_S = 1e-3;

/** As short as it can be said: `PNL:1`, `W04`. */
export const deviceName = ({ circuit, part, way }: Pick<FaultDevice, "circuit" | "part" | "way">): string =>
  way !== undefined ? `${part}:${way}` : (circuit ?? part);

const print = (value: number): string => decimalText(value, { figures: 3 });

/**
 * Lays out the chain of devices that feeds a circuit for the time–current drawing: from its own device to the batteries, with the faults at its ends, what its wires
 * bear, and what its loads draw when they start.
 *
 * @returns null where there is no such circuit, or none of direct current, or no fault current reaches it
 */
export function plotCircuit(settled: Settled, id: string): TimeCurrentPlot | null {
  const study = studyEnds(settled);
  const index = settled.model.system.circuits.findIndex((c) => c.id === id);
  const faults = study.circuits[index] ?? null;
  const c = settled.model.circuits.find((m) => m.circuit.id === id);
  const [near, far] = nearAndFar(faults?.ends ?? []);
  if (c === undefined || far?.greatest == null) return null;
  const { whole, parts } = seriesIn(settled.model.grid, study.devices)(far, far.greatest);
  const chain = [...whole, ...parts].map(({ device }) => device);
  const volts = c.supply?.highestVolts ?? 0;
  const devices = chain.flatMap((d) => (study.devices[d] === undefined ? [] : [plotted(study.devices[d])]));
  const shown = new Set(chain);
  const { pairs } = coordinate(settled);
  const said = pairs.filter((p) => p.isNext && shown.has(p.upstream) && shown.has(p.downstream));
  return {
    title: `${id}: when what feeds it opens`,
    unit: "A DC",
    volts: `${print(volts)} V DC`,
    devices,
    markers: markersOf(near, far),
    conductors: wiresOf(settled, study, [id, ...chain.flatMap((d) => study.devices[d]?.circuit ?? [])]),
    pulses: pulsesOf(settled, id),
    notes: [
      ...said.map(({ upstream, downstream, judgement }) => {
        const [up, down] = [study.devices[upstream], study.devices[downstream]];
        const pair = `${down === undefined ? "" : deviceName(down)} below ${up === undefined ? "" : deviceName(up)}`;
        const to = judgement.upTo === null ? "" : ` ${print(judgement.upTo)} A`;
        return `${pair}: ${judgement.verdict}${to}; ${judgement.because}.`;
      }),
      ...(far.cannotTell === null ? [] : [`The least fault at its end cannot be told: ${far.cannotTell}.`]),
    ],
    sources: publishedIn(said.flatMap(({ judgement }) => judgement.sources)),
  };
}

/** The documents that are somebody else's. */
const publishedIn = (sources: readonly Citation[]): string[] => [
  ...new Set(
    sources.flatMap(({ id, document }) => (id === "own-derivation" || id === "trade-practice" ? [] : [document])),
  ),
];

/** The end that sources are nearer to, and the one that is farther: where less flows. */
function nearAndFar(ends: readonly EndFault[]): readonly [EndFault | undefined, EndFault | undefined] {
  const ofLive = ends.filter(({ greatest, to }) => greatest !== null && to === "return");
  const sorted = [...ofLive].sort((a, b) => (b.greatest?.amps.high ?? 0) - (a.greatest?.amps.high ?? 0));
  return [sorted[0], sorted.at(-1)];
}

function plotted(device: FaultDevice): PlotDevice {
  const { circuit, part, family, rating, volts, interrupt } = device;
  const about = circuit === null ? `parts.${part}` : `circuits.${circuit}`;
  if (family === null || rating === null) {
    return {
      about,
      label: deviceName(device),
      says: "a device whose kind or rating is not known",
      min: null,
      max: null,
      missing: "its kind and rating",
      trust: "missing",
      opensTo: null,
    };
  }
  const marked = interrupt?.current == null ? {} : { interruptAmps: interrupt.current };
  return plotDevice({ about, name: deviceName(device), family, rating, volts, supply: "DC", ...marked });
}

function markersOf(near: EndFault | undefined, far: EndFault): PlotMarker[] {
  const about = `circuits.${far.circuit}`;
  const markers: PlotMarker[] = [];
  const least = far.least[0];
  if (least !== undefined) {
    const amps = least.amps.low;
    markers.push({ about, amps, label: `Ik− ${print(amps)} A, far end` });
  }
  const greatest = far.greatest?.amps.high ?? 0;
  markers.push({ about, amps: greatest, label: `Ik+ ${print(greatest)} A, far end` });
  if (near?.greatest != null && near !== far) {
    const amps = near.greatest.amps.high;
    markers.push({ about, amps, label: `Ik+ ${print(amps)} A, near end` });
  }
  return markers;
}

function wiresOf(settled: Settled, study: EndFaults, ids: readonly string[]): PlotConductor[] {
  const { system } = settled.model;
  return [...new Set(ids)].flatMap((id): PlotConductor[] => {
    const index = system.circuits.findIndex((c) => c.id === id);
    const own = study.circuits[index]?.conductors.find(({ role }) => role === "live");
    const limit = own?.withstand.limit ?? null;
    const m = settled.model.circuits.findIndex((c) => c.circuit.id === id);
    const size = settled.model.circuits[m]?.rungs?.ladder.makes[settled.chosen.rungs[m] ?? -1]?.size.label;
    if (limit === null || size === undefined) return [];
    const points = [ADIABATIC_S, SOONEST_S].map((s): PlotPoint => [Math.sqrt(limit / s), s]);
    const says = `k²S² ${print(limit / 1000)} kA²s, insulation at its rating before and at its limit after, to 5 s`;
    return [{ about: `circuits.${id}`, label: `${id} ${size}`, says, points, trust: "derived" }];
  });
}

function pulsesOf(settled: Settled, id: string): PlotPulse[] {
  const c = settled.model.circuits.find((m) => m.circuit.id === id);
  const { draws } = settled.model.grid;
  const own = [...new Set((c?.judged ?? []).flatMap(({ draw }) => (draw >= 0 ? [draw] : [])))];
  return own.flatMap((d): PlotPulse[] => {
    const element = draws[d]?.element;
    const starts = element?.levels.find(({ name }) => name === "starting")?.amps.high;
    if (element === undefined || starts === undefined) return [];
    const running = element.levels.find(({ name }) => name === "running")?.amps.high ?? null;
    const seconds = element.startSeconds.high;
    const says = `${element.part} draws ${print(starts)} A for ${print(seconds)} s when it starts`;
    return [
      { about: `parts.${element.part}`, label: `${element.part} starts`, says, start: [starts, seconds], running },
    ];
  });
}
