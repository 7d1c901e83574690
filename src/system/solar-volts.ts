import { cite, formula, lookUpNextDown } from "../explain/index.ts";
import { known, type Fact, type Measure, type MeasureIn } from "../plan/index.ts";
import { pvVoltageFactors } from "../reference/pv-voltage-factors.ts";
import type { Feed } from "./element.ts";
import type { System } from "./system.ts";
import type { Value } from "./value.ts";

/** Air that the volts on a solar module's label are stated at, °C: standard test conditions. */
const LABEL_C = 25;
/** The largest factor of NEC table 690.7(A): what a module of silicon may give where nobody says how cold it gets. */
const COLDEST = 1.25;
/** The end of that table, °C, and by how much its factor grows for each kelvin of its last bands. */
const TABLE_ENDS = { atC: -40, perKelvin: 0.004 } as const;

/** Open-circuit volts of modules in series in the cold, by the coefficient of their maker. */
export const coldByCoefficient = formula(
  {
    id: "cold-volts-by-coefficient",
    equation: "Ucold = Uoc · (1 + β · (T − 25 °C))",
    source: cite("nfpa-70-2023", "690.7(A)(1)", "read"),
    symbols: {
      volts: { symbol: "Uoc", unit: "V", meaning: "open-circuit volts of all in series, at 25 °C" },
      perKelvin: { symbol: "β", unit: "1/K", meaning: "their change for each kelvin, by the maker" },
      lowestC: { symbol: "T", unit: "°C", meaning: "lowest temperature of the place" },
    },
    unit: "V",
  },
  ({
    volts,
    perKelvin,
    lowestC,
  }: {
    readonly volts: number;
    readonly perKelvin: number;
    readonly lowestC: number;
  }): number => volts * (1 + perKelvin * (lowestC - LABEL_C)),
);

/** The same by the factor of a table. */
export const coldByFactor = formula(
  {
    id: "cold-volts-by-factor",
    equation: "Ucold = Uoc · kt",
    source: cite("nfpa-70-2023", "690.7(A)(2)", "read"),
    symbols: {
      volts: { symbol: "Uoc", unit: "V", meaning: "open-circuit volts of all in series, at 25 °C" },
      factor: { symbol: "kt", unit: "", meaning: "factor for the lowest temperature" },
    },
    unit: "V",
  },
  ({ volts, factor }: { readonly volts: number; readonly factor: number }): number => volts * factor,
);

/**
 * Factor on the open-circuit volts of modules of crystalline silicon at the lowest temperature of their place; beyond the end of the table, at −40 °C, by the slope of its last bands.
 *
 * @param lowestC °C
 * @source NEC table 690.7(A) (read)
 * @example
 * coldFactor(-32) //=> 1.23
 * coldFactor(-30) //=> 1.21
 * coldFactor(30) //=> 1
 */
export function coldFactor(lowestC: number): number {
  if (lowestC >= LABEL_C) return 1;
  const found = lookUpNextDown(pvVoltageFactors, lowestC, "factor");
  return found?.value ?? COLDEST + TABLE_ENDS.perKelvin * (TABLE_ENDS.atC - lowestC);
}

/** Greatest open-circuit volts of a solar source, from the least to the most that they may be, and what is not known. */
export interface ColdVolts {
  readonly low: number;
  readonly high: number;
  readonly lacks: readonly ("volts per kelvin" | "lowest temperature")[];
}

/**
 * Open-circuit volts of a solar source in the greatest cold of its place; light on snow and makers' tolerance are left out.
 * The coefficient of the module decides; without it they lie between those of the label and those by the table's factor.
 *
 * @source NEC 690.7(A) (read): the module's own coefficient and the lowest temperature; else the factor of its table
 * @example
 * coldVolts({ volts: { low: 40, high: 40, origin: "given" } }, undefined).high //=> 50
 * coldVolts({ volts: { low: 40, high: 40, origin: "given" } }, { low: -10, high: -10, origin: "given" }).high //=> 45.6
 */
export function coldVolts(
  { volts, voltsPerKelvin }: Pick<Feed, "volts" | "voltsPerKelvin">,
  lowestAmbient: System["lowestAmbient"],
): ColdVolts {
  const lowestC = lowestAmbient === undefined || lowestAmbient === "unknown" ? undefined : lowestAmbient.low;
  if (voltsPerKelvin !== undefined && voltsPerKelvin.origin !== "unknown" && lowestC !== undefined) {
    const cold = Math.min(lowestC, LABEL_C);
    const most = coldByCoefficient({ volts: volts.high, perKelvin: voltsPerKelvin.low, lowestC: cold });
    return { low: most, high: most, lacks: [] };
  }
  return {
    low: volts.high,
    high: coldByFactor({ volts: volts.high, factor: lowestC === undefined ? COLDEST : coldFactor(lowestC) }),
    lacks: [
      ...(voltsPerKelvin === undefined ? (["volts per kelvin"] as const) : []),
      ...(lowestC === undefined ? (["lowest temperature"] as const) : []),
    ],
  };
}

/** A coefficient of volts as plans write it: a share, or volts, for each kelvin. */
export type Slope = MeasureIn<"per kelvin" | "voltage per kelvin">;

/**
 * A coefficient of a module as a share of its volts for each kelvin, below nought: silicon loses volts as it warms, so one that is printed without its sign
 * means the same. Undefined: it, or the volts that it is a coefficient of, is not known.
 */
export function fallEachKelvin(slope: Fact<Slope> | undefined, volts: Fact<Measure> | undefined): Value | undefined {
  const written = known(slope);
  const of = written?.dimension === "voltage per kelvin" ? known(volts) : { low: 1, high: 1 };
  if (written === undefined || of === undefined) return undefined;
  const ends = [Math.abs(written.low), Math.abs(written.high)];
  return { low: -Math.max(...ends) / of.low, high: -Math.min(...ends) / of.high, origin: "given" };
}
