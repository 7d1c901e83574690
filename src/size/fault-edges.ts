import { adiabaticK, faultLimit, usualFaultInsulation, withstandI2t } from "../ampacity/thermal/index.ts";
import { deviceResistance } from "../device/index.ts";
import { celsius, squareMillimetres } from "../quantity/index.ts";
import { resistancePerMetre20, resistanceRise, type ConductorMake } from "../wire/index.ts";
import type { StandingDevice } from "./fault-devices.ts";
import { makeOf } from "./ladder.ts";
import { JOINT_OHMS, type CircuitModel, type Model } from "./model.ts";

/** Resistances of the edges of a grid in one case, Ω. */
export interface EdgeOhms {
  readonly all: Float64Array;
  /** Of that what lies between each end and the wire itself: joint and devices. */
  readonly beforeA: Float64Array;
  readonly beforeB: Float64Array;
}

/** What a fault needs to know of the edges of a grid. */
export interface FaultEdges {
  /** Least: conductors at 20 °C and no longer than they may be, devices cold, joints without resistance. */
  readonly cold: EdgeOhms;
  /** Greatest: conductors at the temperature that their insulation bears, devices at their rating, joints counted. */
  readonly hot: EdgeOhms;
  /** Length of conductor, m; 0 for contacts. */
  readonly metres: Float64Array;
  /** 1: nobody knows its wire or length; its hot resistance is not one. */
  readonly isUnknown: Uint8Array;
  /** k²S² of all parallel conductors together, A²s; NaN for contacts and where nobody knows the wire. */
  readonly limit: Float64Array;
  /** How many conductors lie side by side; 1 for contacts. */
  readonly parallel: Uint8Array;
}

/** As good as none beside any wire, and within the reach of arithmetic. */
const LEAST_OHMS = 1e-6;

/** As much of a build as has to be settled for it. */
export interface FaultBuild {
  readonly model: Model;
  readonly chosen: { readonly rungs: Int32Array };
}

const emptyOhms = (n: number): EdgeOhms => ({
  all: new Float64Array(n),
  beforeA: new Float64Array(n),
  beforeB: new Float64Array(n),
});

function add(into: Float64Array, e: number, ohms: number): void {
  into[e] = (into[e] ?? 0) + ohms;
}

/** Counts what stands at the ends of each edge into all of it. */
function closeOhms(ohms: EdgeOhms): EdgeOhms {
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
      add(cold.all, e, contact.ohms.low);
      return;
    }
    const position = at[circuit] ?? -1;
    const c = circuits[position];
    const length = c?.circuit.conductors[conductor]?.length;
    if (c === undefined || length === undefined || length.origin === "unknown") return;
    const found = wireOf(c, chosen.rungs[position] ?? 0);
    if (found !== null) add(cold.all, e, (found.ohmsPerMetre * length.low) / c.circuit.parallel);
  });
  for (const { edge, at: end, family, rating } of devices) {
    const ohms = family === null || rating === null ? null : deviceResistance(family, rating).cold;
    if (ohms !== null) add(end === "a" ? cold.beforeA : cold.beforeB, edge, ohms);
  }
  return closeOhms(cold);
}

/** Works out the edges once for all cases. */
export function faultEdges(build: FaultBuild, devices: readonly StandingDevice[]): FaultEdges {
  const { grid, at, circuits } = build.model;
  const n = grid.edges.length;
  const hot = emptyOhms(n);
  const metres = new Float64Array(n);
  const isUnknown = new Uint8Array(n);
  const limit = new Float64Array(n).fill(Number.NaN);
  const legs = new Uint8Array(n).fill(1);
  grid.edges.forEach(({ circuit, conductor, contact }, e) => {
    if (contact !== null) {
      add(hot.all, e, contact.ohms.high);
      return;
    }
    add(hot.beforeA, e, JOINT_OHMS);
    add(hot.beforeB, e, JOINT_OHMS);
    const position = at[circuit] ?? -1;
    const c = circuits[position];
    const wire = c?.circuit.conductors[conductor];
    if (c === undefined || wire === undefined) return;
    const found = wireOf(c, build.chosen.rungs[position] ?? 0);
    if (found === null || wire.length.origin === "unknown") isUnknown[e] = 1;
    metres[e] = wire.length.high;
    if (found === null) return;
    const { ohmsPerMetre, make: made } = found;
    const { parallel, insulationC } = c.circuit;
    add(hot.all, e, (ohmsPerMetre * wire.length.high * resistanceRise(made.metal, insulationC.high)) / parallel);
    const area = squareMillimetres(made.size.areaMm2);
    const { finalC } = faultLimit(usualFaultInsulation(insulationC.low), area);
    const k = adiabaticK({ metal: made.metal, initialC: celsius(insulationC.low), finalC });
    limit[e] = withstandI2t({ k, area }) * parallel ** 2;
    legs[e] = parallel;
  });
  for (const { edge, at: end, family, rating } of devices) {
    const isContact = grid.edges[edge]?.contact !== null;
    const ohms = family === null || rating === null ? 0 : deviceResistance(family, rating).hot;
    // A device set into a conductor has a joint on each side.
    add(end === "a" ? hot.beforeA : hot.beforeB, edge, ohms + (isContact ? 0 : 2 * JOINT_OHMS));
  }
  return { cold: coldEdges(build, devices), hot: closeOhms(hot), metres, isUnknown, limit, parallel: legs };
}

/** The wire of a circuit at 20 °C: as chosen, or as the plan has it where nothing can be chosen. */
function wireOf(c: CircuitModel, rung: number): { readonly make: ConductorMake; readonly ohmsPerMetre: number } | null {
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
