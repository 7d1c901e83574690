import { lookUp, weakestTrust, type Trust } from "../../explain/index.ts";
import { acImpedance } from "../../reference/ac-impedance.ts";
import { constants } from "../../reference/constants.ts";
import { conduitImpedance, skinEffect, type ConduitMaterial } from "../../wire/geometry/index.ts";
import { awgSize, kcmilSize, resistancePerMetre20, resistanceRise, type ConductorMake, type WireSize } from "../../wire/index.ts"; // prettier-ignore

/** How a conductor lies, as far as its reactance asks: single wires in a pipe, or cores in one sheath (a cable, a cord). */
export type Raceway = ConduitMaterial | "cable";

/** Of a metre of one conductor. */
export interface ConductorImpedance {
  readonly ohmsPerMetre: number;
  readonly reactancePerMetre: number;
  readonly trust: Trust;
  /** What stood in for what. Words for the reader. */
  readonly notes: readonly string[];
}

export interface ConductorImpedanceInput {
  readonly make: ConductorMake;
  /** Of the metal, °C; −40 … 250. */
  readonly conductorC: number;
  /** Above 0. */
  readonly hertz: number;
  readonly raceway: Raceway;
}

const rows: readonly WireSize[] = acImpedance.rows
  .map(({ sizeAwgOrKcmil: name }) => awgSize(name) ?? kcmilSize(Number(name)))
  .sort((a, b) => a.areaMm2 - b.areaMm2);

/** Frequencies at which the figures are printed, Hz. */
const NEC_HERTZ = 60;
const IEC_HERTZ = 50;

/**
 * Resistance and reactance of a metre of one conductor at a temperature and a frequency.
 *
 * Resistance is that of the house at 20 °C, warmed, with the skin effect, and in a pipe of metal with what NEC Chapter 9 Table 9 prints for that pipe over what it
 * prints for PVC. Reactance in a pipe is Table 9 by size; a size that is no row takes the next smaller row, as tables are read here, whose reactance is as great or
 * greater but for one step of 0.002 Ω/kft between 10 and 8 AWG; what is thinner than the first row takes that one. Cores in one sheath take the standard figure of IEC 60364-5-52.
 *
 * Ignores proximity (below 1 % to 70 mm²), the neighbour whose current does not cancel, and wires that lie apart, whose reactance is greater.
 *
 * @accuracy resistance: as `resistancePerMetre20`; reactance: two digits of the table, about 30 % between cables; it is a tenth of the resistance to 10 mm² and as great at 185 mm²
 * @source NFPA 70 Chapter 9 Table 9; IEC 60364-5-52 Annex G (0.08 mΩ/m); IEC 60287-1-1 clause 2.1.2 for the skin effect
 * @example 12 AWG at 75 °C in PVC: 0.054 Ω/kft
 * const found = conductorImpedance({ make: { size: awgSize("12"), metal: "copper", plating: "plain", strands: "class B" }, conductorC: 75, hertz: 60, raceway: "PVC" });
 * found.reactancePerMetre * 304.8 //=> 0.054
 * found.ohmsPerMetre * 304.8 //=> 1.9802
 */
export function conductorImpedance({ make, conductorC, hertz, raceway }: ConductorImpedanceInput): ConductorImpedance {
  const cold = resistancePerMetre20(make);
  const direct = cold.ohmsPerMetre * resistanceRise(make.metal, conductorC);
  const ohms = direct * (1 + skinEffect({ hertz, ohmsPerMetre: direct }));
  if (raceway === "cable") {
    const figure = lookUp(constants, "x_cable_50hz", "value");
    return {
      ohmsPerMetre: ohms,
      reactancePerMetre: (((figure?.value ?? 0) / 1000) * hertz) / IEC_HERTZ,
      trust: weakestTrust(cold.trust, figure?.trust ?? "missing"),
      notes: cold.notes,
    };
  }
  const { size, metal } = make;
  const own = rows.find(({ system, name }) => system === size.system && name === size.name);
  const row = own ?? rows.findLast(({ areaMm2 }) => areaMm2 <= size.areaMm2) ?? rows[0] ?? size;
  // Aluminium begins at 12 AWG; reactance is the same for both metals.
  const found = conduitImpedance(row, metal, raceway) ?? conduitImpedance(row, "copper", raceway);
  const plastic = conduitImpedance(row, metal, "PVC") ?? conduitImpedance(row, "copper", "PVC");
  const more = (found?.resistanceOhmsPerMetre ?? 0) / (plastic?.resistanceOhmsPerMetre ?? 1);
  const note = `NEC Chapter 9 Table 9 has no ${size.label}; the reactance of ${row.label} stands in`;
  return {
    ohmsPerMetre: ohms * Math.max(1, more),
    reactancePerMetre: ((found?.reactanceOhmsPerMetre ?? 0) * hertz) / NEC_HERTZ,
    trust: weakestTrust(cold.trust, found?.trust ?? "missing", own === undefined ? "derived" : "read"),
    notes: own === undefined ? [...cold.notes, note] : cold.notes,
  };
}
