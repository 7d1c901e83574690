import { deviceResistance } from "../device/index.ts";
import { resistancePerMetre20, type ConductorMake } from "../wire/index.ts";
import type { StandingDevice } from "./fault-devices.ts";
import { makeOf } from "./ladder.ts";
import type { CircuitModel, Model } from "./model.ts";

/** Resistances of the edges of a grid in one case, Ω. */
export interface EdgeOhms {
  readonly all: Float64Array;
  /** Of that what lies between each end and the wire itself: joint and devices. */
  readonly beforeA: Float64Array;
  readonly beforeB: Float64Array;
}

/** As good as none beside any wire, and within the reach of arithmetic. */
const LEAST_OHMS = 1e-6;

/** As much of a build as has to be settled for it. */
export interface FaultBuild {
  readonly model: Model;
  readonly chosen: { readonly rungs: Int32Array };
}

export const emptyOhms = (n: number): EdgeOhms => ({
  all: new Float64Array(n),
  beforeA: new Float64Array(n),
  beforeB: new Float64Array(n),
});

export function addOhms(into: Float64Array, e: number, ohms: number): void {
  into[e] = (into[e] ?? 0) + ohms;
}

/** Counts what stands at the ends of each edge into all of it. */
export function closeOhms(ohms: EdgeOhms): EdgeOhms {
  for (let e = 0; e < ohms.all.length; e++) {
    const sum = (ohms.all[e] ?? 0) + (ohms.beforeA[e] ?? 0) + (ohms.beforeB[e] ?? 0);
    ohms.all[e] = Math.max(LEAST_OHMS, sum);
  }
  return ohms;
}

/** The least resistances alone: all that the greatest fault asks for. */
export function coldEdges({ model, chosen }: FaultBuild, devices: readonly StandingDevice[]): EdgeOhms {
  const { grid, at, circuits } = model;
  const cold = emptyOhms(grid.edges.length);
  grid.edges.forEach(({ circuit, conductor, contact }, e) => {
    if (contact !== null) {
      addOhms(cold.all, e, contact.ohms.low);
      return;
    }
    const position = at[circuit] ?? -1;
    const c = circuits[position];
    const length = c?.circuit.conductors[conductor]?.length;
    if (c === undefined || length === undefined || length.origin === "unknown") return;
    const found = wireOf(c, chosen.rungs[position] ?? 0);
    if (found !== null) addOhms(cold.all, e, (found.ohmsPerMetre * length.low) / c.circuit.parallel);
  });
  for (const { edge, at: end, family, rating } of devices) {
    const ohms = family === null || rating === null ? null : deviceResistance(family, rating).cold;
    if (ohms !== null) addOhms(end === "a" ? cold.beforeA : cold.beforeB, edge, ohms);
  }
  return closeOhms(cold);
}

/** The wire of a circuit at 20 °C: as chosen, or as the plan has it where nothing can be chosen. */
export function wireOf(
  c: CircuitModel,
  rung: number,
): { readonly make: ConductorMake; readonly ohmsPerMetre: number } | null {
  if (c.circuit.size === "unknown") return null;
  const make = c.rungs?.ladder.makes[rung];
  if (c.rungs !== null && make !== undefined) {
    return { make, ohmsPerMetre: c.rungs.ladder.ohmsPerMetre20[rung] ?? 0 };
  }
  const { size } = c.circuit;
  if (size === undefined) return null;
  const written = { ...makeOf(c.circuit), size };
  return { make: written, ohmsPerMetre: resistancePerMetre20(written).ohmsPerMetre };
}
