import { adiabaticK, faultLimit, usualFaultInsulation, withstandI2t } from "../ampacity/thermal/index.ts";
import { deviceResistance } from "../device/index.ts";
import { celsius, squareMillimetres } from "../quantity/index.ts";
import { resistanceRise } from "../wire/index.ts";
import { addOhms, closeOhms, coldEdges, emptyOhms, wireOf, type EdgeOhms, type FaultBuild } from "./cold-edges.ts";
import type { StandingDevice } from "./fault-devices.ts";
import { JOINT_OHMS } from "./model.ts";

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
      addOhms(hot.all, e, contact.ohms.high);
      return;
    }
    addOhms(hot.beforeA, e, JOINT_OHMS);
    addOhms(hot.beforeB, e, JOINT_OHMS);
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
    addOhms(hot.all, e, (ohmsPerMetre * wire.length.high * resistanceRise(made.metal, insulationC.high)) / parallel);
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
    addOhms(end === "a" ? hot.beforeA : hot.beforeB, edge, ohms + (isContact ? 0 : 2 * JOINT_OHMS));
  }
  return { cold: coldEdges(build, devices), hot: closeOhms(hot), metres, isUnknown, limit, parallel: legs };
}
