import { cite, formula } from "../../explain/index.ts";

/** Sums of a string of solar modules, in the form in which a person does them. */

/** Sun that is brighter than the label's, and light that snow and cloud edges throw besides. */
export const BRIGHTER = 1.25;
/** What flows for hours is carried with a quarter to spare. */
export const FOR_HOURS = 1.25;
/** Sun of the label, W/m². */
const LABEL_SUN = 1000;
/** Cells of the label, °C. */
const LABEL_C = 25;

/** How hot the cells of a module get in full sun and little wind. */
export const cellTemperature = formula(
  {
    id: "cell-temperature",
    equation: "Tc = Ta + k · 1000 W/m²",
    source: cite("textbooks", "Ross, cell temperature", "read"),
    symbols: {
      airC: { symbol: "Ta", unit: "°C", meaning: "air" },
      heating: { symbol: "k", unit: "K·m²/W", meaning: "heating by how the module lies" },
    },
    unit: "°C",
  },
  ({ airC, heating }: { readonly airC: number; readonly heating: number }): number => airC + heating * LABEL_SUN,
);

/** Volts of a string at a cell temperature. */
export const voltsAtCell = formula(
  {
    id: "volts-at-cell-temperature",
    equation: "U = Un · (1 + γ · (Tc − 25 °C))",
    source: cite("textbooks", "temperature coefficient of a module", "read"),
    symbols: {
      volts: { symbol: "Un", unit: "V", meaning: "volts of the label, all modules in series" },
      perKelvin: { symbol: "γ", unit: "1/K", meaning: "their change for each kelvin" },
      cellC: { symbol: "Tc", unit: "°C", meaning: "cells" },
    },
    unit: "V",
  },
  ({
    volts,
    perKelvin,
    cellC,
  }: {
    readonly volts: number;
    readonly perKelvin: number;
    readonly cellC: number;
  }): number => volts * (1 + perKelvin * (cellC - LABEL_C)),
);

/** Volts that a controller asks for at its input. */
export const voltsAsked = formula(
  {
    id: "volts-asked-of-a-string",
    equation: "U ≥ Ub + ΔU",
    source: cite("trade-practice", "what tracking controllers need above their battery", "practice"),
    symbols: {
      battery: { symbol: "Ub", unit: "V", meaning: "volts that the battery is charged to" },
      above: { symbol: "ΔU", unit: "V", meaning: "volts that the input has to be above it" },
    },
    unit: "V",
  },
  ({ battery, above }: { readonly battery: number; readonly above: number }): number => battery + above,
);

/** Greatest current of strings in parallel. */
export const greatestCurrent = formula(
  {
    id: "greatest-current-of-strings",
    equation: "I = 1.25 · n · Isc",
    source: cite("nfpa-70-2023", "690.8(A)(1)", "read"),
    symbols: {
      strings: { symbol: "n", unit: "", meaning: "strings in parallel" },
      isc: { symbol: "Isc", unit: "A", meaning: "short-circuit current of one" },
    },
    unit: "A",
  },
  ({ strings, isc }: { readonly strings: number; readonly isc: number }): number => BRIGHTER * strings * isc,
);

/** What a conductor or a fuse is made for before any correction. */
export const forHours = formula(
  {
    id: "current-for-hours",
    equation: "Ih = 1.25 · I",
    source: cite("nfpa-70-2023", "690.8(B)(1), 690.9(B)", "read"),
    symbols: { amps: { symbol: "I", unit: "A", meaning: "greatest current" } },
    unit: "A",
  },
  ({ amps }: { readonly amps: number }): number => FOR_HOURS * amps,
);

/** What the others push into one string that is shorted or shaded. */
export const backFeed = formula(
  {
    id: "back-feed-into-a-string",
    equation: "Ir = 1.25 · (n − 1) · Isc + Io",
    source: cite("nfpa-70-2023", "690.9(A)", "read"),
    symbols: {
      strings: { symbol: "n", unit: "", meaning: "strings in parallel, alike" },
      isc: { symbol: "Isc", unit: "A", meaning: "short-circuit current of one" },
      others: { symbol: "Io", unit: "A", meaning: "what other modules and what stands behind the controller push" },
    },
    unit: "A",
  },
  ({ strings, isc, others }: { readonly strings: number; readonly isc: number; readonly others: number }): number =>
    BRIGHTER * (strings - 1) * isc + others,
);
