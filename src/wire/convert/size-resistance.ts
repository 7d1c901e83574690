import { weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { strandClasses, type Plating, type Strands } from "../conductor-make.ts";
import type { PrintedMetal, PrintedSize, WireMake } from "../make/wire-make.ts";
import { resistanceRise } from "../metal.ts";
import { resistancePerMetre20 } from "../resistance-per-metre.ts";
import { sizeOfPrint } from "../size-of-print.ts";
import { cladAluminium, resistanceAgainstCopper } from "./clad-aluminium.ts";

/** What a conductor is made of, besides its size. */
export interface ConductorKind {
  readonly metal: PrintedMetal;
  readonly plating: Plating;
  readonly strands: Strands;
}

/** What stands for a size where nothing is said: class B for American sizes, class 5 for metric ones, a solid wire where the size is a solid wire. */
export function usualKind({ system }: PrintedSize): ConductorKind {
  const strands: Strands =
    system === "AWG" || system === "kcmil"
      ? "class B"
      : system === "SWG" || system === "solid diameter"
        ? "class 1"
        : system === "JIS"
          ? "class 2"
          : "class 5";
  return { metal: "copper", plating: "plain", strands };
}

/** The parts of a conductor's kind that a make tells. */
export function kindOfMake({ metal, plating, stranding }: WireMake): Partial<ConductorKind> {
  const name = stranding?.name ?? null;
  const strands: Strands | null =
    name === "solid"
      ? "class 1"
      : name === "type 1"
        ? "type 2"
        : name === null || name === "stranded" || name === "tinsel"
          ? null
          : name;
  return {
    ...(metal === null ? {} : { metal }),
    ...(plating === null ? {} : { plating }),
    ...(strands === null || !Object.hasOwn(strandClasses, strands) ? {} : { strands }),
  };
}

/** Resistance of a metre with what it rests on. */
export interface SizeResistance {
  readonly ohmsPerMetre: number;
  readonly trust: Trust;
  readonly source: Citation;
  readonly notes: readonly string[];
}

/**
 * Direct-current resistance of a metre of any printed size.
 *
 * Copper-clad aluminium is copper of the same make times the ratio of resistivities, class 10A of ASTM B566.
 *
 * @param kind what the size is made of; what is left out is as usual for the system
 * @param conductorC of the metal, °C; 20 where left out
 * @returns Ω/m; null beyond the sizes that the tables go to
 * @source `resistancePerMetre20`; temperature by IEC 60287-1-1
 * @example
 * sizeResistance({ system: "mm²", name: "35", label: "35 mm²", areaMm2: 35, basis: "label" }).ohmsPerMetre //=> 0.000554
 */
export function sizeResistance(
  size: PrintedSize,
  kind: Partial<ConductorKind> = {},
  conductorC = 20,
): SizeResistance | null {
  const own = sizeOfPrint(size);
  if (own === null) return null;
  const { metal, plating, strands } = { ...usualKind(size), ...kind };
  const isClad = metal === "copper-clad aluminium";
  const cold = resistancePerMetre20({ size: own, metal: isClad ? "copper" : metal, plating, strands });
  if (!isClad) {
    const ohms = cold.ohmsPerMetre * resistanceRise(metal, conductorC);
    return { ohmsPerMetre: ohms, trust: cold.trust, source: cold.source, notes: cold.notes };
  }
  const ratio = resistanceAgainstCopper(metal, conductorC);
  const { source } = cladAluminium["10A"];
  return {
    ohmsPerMetre: cold.ohmsPerMetre * resistanceRise("copper", conductorC) * ratio,
    trust: weakestTrust(cold.trust, source.trust),
    source,
    notes: [...cold.notes, "copper-clad aluminium taken as class 10A of ASTM B566"],
  };
}
