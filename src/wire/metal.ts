import { cite, lookUp, type Citation, type LookedUp } from "../explain/index.ts";
import { ohmSquareMillimetresPerMetre, type OhmSquareMillimetresPerMetre } from "../quantity/index.ts";
import { constants } from "../reference/constants.ts";

/** What conductors are made of. */
export type Metal = "copper" | "aluminium";

/** A constant of `wire/constants` that the house cannot do without. */
function constant(symbol: string, source: Citation): LookedUp {
  const found = lookUp(constants, symbol, "value");
  if (found === null) throw new Error(`wire/constants has no ${symbol}`);
  return { ...found, source };
}

const iec = cite("iec-60287-1-1", "Table 1", "read");
const nec = cite("nfpa-70-2023", "Chapter 9 Table 8 note 2", "read");

const copper = {
  rho20: constant("rho20_cu_iacs", iec),
  alpha20: constant("alpha20_cu", iec),
  alpha75: constant("alpha75_cu", nec),
};
const aluminium = {
  rho20: constant("rho20_al_iec", iec),
  alpha20: constant("alpha20_al_iec", iec),
  alpha75: constant("alpha75_al", nec),
};

/** What is known of a metal. */
export interface MetalFacts {
  /** Resistivity at 20 °C of the annealed metal: 17.241 or 28.264 Ω·mm²/km. */
  readonly rho20: OhmSquareMillimetresPerMetre;
  /** Temperature coefficient of resistance about 20 °C, 1/K. */
  readonly alpha20: number;
  /** The same about 75 °C, as the NEC rounds it, 1/K. */
  readonly alpha75: number;
}

const facts = ({ rho20, alpha20, alpha75 }: typeof copper): MetalFacts => ({
  rho20: ohmSquareMillimetresPerMetre(rho20.value * 1e6), // the table has Ω·m
  alpha20: alpha20.value,
  alpha75: alpha75.value,
});

/** The metals, by name. */
export const metals: Readonly<Record<Metal, MetalFacts>> = { copper: facts(copper), aluminium: facts(aluminium) };

/** Where the constants of a metal come from, by constant. */
export const metalSources = {
  rho20: copper.rho20.source,
  alpha20: copper.alpha20.source,
  alpha75: copper.alpha75.source,
} as const;

/**
 * How many times its resistance at 20 °C a conductor has at another temperature.
 *
 * Linear about 20 °C; unbounded, so that solvers may overshoot. `conductorResistance` is the guarded door.
 *
 * @param conductorC °C, of the metal
 * @returns 1 at 20 °C
 * @source IEC 60287-1-1 Table 1, α20 = 0.00393 (copper), 0.00403 (aluminium)
 * @example
 * resistanceRise("copper", 75) //=> 1.21615
 * resistanceRise("aluminium", 75) //=> 1.22165
 */
export const resistanceRise = (metal: Metal, conductorC: number): number =>
  1 + metals[metal].alpha20 * (conductorC - 20);
