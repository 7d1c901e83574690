import {
  gatesOf,
  interruptRating,
  openingBand,
  preArcing,
  readDeviceFamily,
  type DeviceFamilyId,
} from "../device/index.ts";
import type { Guard, Opens } from "../fault/index.ts";
import { amps, volts as asVolts } from "../quantity/index.ts";
import { settingOf } from "./device-setting.ts";
import type { FaultDevice } from "./fault-study.ts";
import type { Settled } from "./settled.ts";
import { solarVoltsBy } from "./solar-volts.ts";

/** A device and where it stands, without what it breaks. */
export type StandingDevice = Omit<FaultDevice, "interrupt"> & {
  /** What its volts are at least, where the cold that solar modules meet is not known. */
  readonly leastVolts?: number;
};

/** Every device of a build: those in conductors and panel ways, and those that are parts of their own. */
export function listDevices(build: Pick<Settled, "model" | "devices">): FaultDevice[] {
  const { system } = build.model;
  const panels = new Map(system.parts.flatMap((p) => (p.wayInterrupt === undefined ? [] : [[p.id, p.wayInterrupt]])));
  /** What a panel says of the devices in its ways goes before what is usual of their family. */
  const markedOnPanel = ({ part, way, volts }: StandingDevice): FaultDevice["interrupt"] => {
    const marked = way === undefined ? undefined : panels.get(part);
    if (marked === undefined) return null;
    return marked === "unknown"
      ? { state: "not known", current: null, upToVolts: null, trust: "missing" }
      : { state: "rated", current: amps(marked.low), upToVolts: asVolts(volts), trust: "read" };
  };
  return listStanding(build).map(({ leastVolts, ...device }) => {
    const { family, rating, volts } = device;
    const at = (v: number) => (family === null || rating === null ? null : interruptRating(family, v, { rating }));
    const found = markedOnPanel(device) ?? at(volts);
    if (found === null) return { ...device, interrupt: null };
    const { state, current, upToVolts, trust } = found;
    // Too many volts in the greatest cold that there is need not be too many in that of this place.
    if (state === "too many volts" && leastVolts !== undefined && at(leastVolts)?.state !== state)
      return { ...device, interrupt: { state: "not known", current: null, upToVolts: null, trust: "missing" } };
    return { ...device, interrupt: { state, current, upToVolts, trust } };
  });
}

/** The same without what each breaks: settling asks again and again. */
export function listStanding({ model, devices }: Pick<Settled, "model" | "devices">): StandingDevice[] {
  const { grid, circuits, system } = model;
  const { places } = settingOf(model);
  const solar = solarVoltsBy(model);
  /** Volts that an edge may stand at: those of its system, or of the modules that feed it. */
  const voltsIn = (edge: number, ofSystem = 14.6): { readonly volts: number; readonly leastVolts?: number } => {
    const cold = solar(grid.edges[edge]?.a ?? -1);
    if (cold === undefined) return { volts: ofSystem };
    return { volts: Math.max(ofSystem, cold.high), leastVolts: Math.max(ofSystem, cold.low) };
  };
  const list: StandingDevice[] = [];
  circuits.forEach((c, i) => {
    const place = places[i];
    if (c.circuit.devices === "unknown") {
      for (const end of ["from", "to"] as const) {
        const edge = place?.edge[end] ?? -1;
        const { part } = c.circuit[end];
        const nothing = { family: null, rating: null, isPresent: "unknown" } as const;
        if (edge >= 0)
          list.push({
            ...{ circuit: c.circuit.id, part, end, ...nothing, edge, at: end === "from" ? "a" : "b" },
            ...voltsIn(edge, c.supply?.highestVolts),
          });
      }
      return;
    }
    for (const { end, part, way, family, rating } of devices.circuits[i]?.devices ?? []) {
      const contact = way === undefined ? undefined : place?.way[end]?.edge;
      const edge = contact ?? place?.edge[end];
      if (edge === undefined || edge < 0) continue;
      const volts = voltsIn(edge, c.supply?.highestVolts);
      const isPresent = "yes" as const;
      // The contact of a way has the bar at its a, whichever end of the circuit lands on the way.
      const at = end === "from" || contact !== undefined ? "a" : "b";
      const common = { circuit: c.circuit.id, part, end, family, rating, edge, ...volts, isPresent };
      list.push(way === undefined ? { ...common, at } : { ...common, way, at });
    }
  });
  const ofParts = new Map(system.parts.flatMap((p) => (p.device === undefined ? [] : [[p.id, p] as const])));
  const supplies = new Map(system.supplies.map((s) => [s.id, s]));
  grid.edges.forEach(({ contact }, edge) => {
    const part = contact === null ? undefined : ofParts.get(contact.part);
    const device = part?.device;
    if (part === undefined || device === undefined) return;
    const rating = device.rating === "unknown" ? null : device.rating.high;
    const family = device.family === undefined ? usualFamily(device.kind) : readDeviceFamily(device.family);
    const volts = voltsIn(edge, supplies.get(part.supply ?? "")?.highestVolts);
    list.push({ circuit: null, part: part.id, end: null, family, rating, edge, at: "a", ...volts, isPresent: "yes" });
  });
  return list;
}

/** Of a fuse that says no family nobody knows how it opens. */
const usualFamily = (kind: "fuse" | "breaker"): DeviceFamilyId | null =>
  kind === "breaker" ? "thermal_breaker" : null;

/** How a device opens, by current. */
export function guardOf({ edge, at, family, rating }: FaultDevice): Guard {
  if (rating === null || family === null) {
    const opens = (amps: number): Opens =>
      rating !== null && amps <= rating ? WITHIN : { least: 0, most: null, why: "not published" };
    return { edge, at, opens };
  }
  return { edge, at, opens: opensOf(family, rating) };
}

const WITHIN: Opens = { least: Infinity, most: null, why: "within its rating" };
const known = new Map<string, (amps: number) => Opens>();

/** Between two gates a band stays the same, unless it follows from an energy: it is worked out once for each. */
function opensOf(family: DeviceFamilyId, rating: number): (amps: number) => Opens {
  const key = `${family} ${rating}`;
  let opens = known.get(key);
  if (opens === undefined) {
    const hasEnergy = preArcing(family, rating).min !== null;
    const steps = gatesOf(family, rating).map((gate) => gate.multiple * rating);
    const between: (Opens | undefined)[] = [];
    opens = (amps) => {
      if (amps <= rating) return WITHIN;
      if (hasEnergy || steps.includes(amps)) return opensAt(family, rating, amps);
      let step = 0;
      for (const at of steps) if (amps > at) step++;
      return (between[step] ??= opensAt(family, rating, amps));
    };
    if (known.size > 5000) known.clear(); // ratings come from plans
    known.set(key, opens);
  }
  return opens;
}

function opensAt(family: DeviceFamilyId, rating: number, amps: number): Opens {
  const { min, max, lacks } = openingBand(family, rating, amps);
  return {
    least: min?.s ?? 0,
    most: max?.s ?? null,
    why: max !== null ? "opens" : lacks.includes("max") ? "not published" : "may stay closed",
  };
}
