import { carriesBy, type CarriesLying } from "../../ampacity/carries.ts";
import { printCitation, type Trust } from "../../explain/index.ts";
import { celsius } from "../../quantity/index.ts";
import type { WireMake } from "../../wire/make/wire-make.ts";
import type { Conductor } from "./conductor-of.ts";

/** What one rule set lets a conductor carry, ready to show. */
export interface CarriedBy {
  readonly title: string;
  readonly edition: string;
  readonly lying: readonly {
    /** In words, with the count of loaded conductors. */
    readonly lies: string;
    /** The loaded cores of this cable lie so by themselves. */
    readonly isOfCable: boolean;
    /** A; null: nothing may be carried, or it cannot be told. */
    readonly amps: number | null;
    readonly refused: string | null;
    readonly trust: Trust;
  }[];
  /** Where the table stands; null: there is none. */
  readonly source: string | null;
  readonly notes: readonly string[];
  readonly cannotTell: string | null;
}

/** What is carried under every rule set, and what the insulation was taken as. */
export interface Carried {
  readonly ruleSets: readonly CarriedBy[];
  readonly insulationC: number;
  /** The label does not tell the insulation. */
  readonly isAssumed: boolean;
  /** °C, of the insulation where the code rates the cable lower than it; null: it does not. */
  readonly labelC: number | null;
  /** Conductors of the cable that are taken as loaded; 1: a single wire. */
  readonly loaded: number;
  /** What is counted, in a sentence. */
  readonly counts: string;
}

/** The least rating that insulation is made for, °C: what is not stated is taken as no better. */
const LEAST_INSULATION = 60;

/**
 * Cores that carry current at once: all but the earth, and of three lines with a neutral the lines.
 *
 * @returns 1 for a single wire
 */
export function loadedCores({ cores }: Pick<WireMake, "cores">): number {
  if (cores === null) return 1;
  const { insulated, ground } = cores;
  const live = ground === "insulated" ? insulated - 1 : insulated;
  // A neutral of three lines carries what they do not balance.
  return live === 4 && ground !== "none" && ground !== "not stated" ? 3 : Math.max(1, live);
}

/** What a column counts. */
function sayLying({ lies, loaded }: CarriesLying): string {
  if (lies === "alone in free air") return "one loaded conductor alone, free air";
  const together = loaded === 1 ? "one alone" : `${loaded} loaded together`;
  return lies === "together" ? together : `${together}, engine space`;
}

function sayCount(loaded: number, wire: WireMake): string {
  const counted = "counted are the loaded conductors that lie together, those of this cable included and an earth not";
  if (loaded === 1) return `${counted}; a pair, plus and minus, is two`;
  const neutral = (wire.cores?.insulated ?? 0) > loaded + (wire.cores?.ground === "insulated" ? 1 : 0);
  const own = `this cable has ${loaded} loaded cores${neutral ? ": three lines, whose neutral is not counted" : ""}`;
  return `${counted}; ${own}${loaded === 2 ? ", and two in one sheath count as three" : ""}`;
}

/**
 * @param wire whose cores are counted
 * @param taken °C, as the person takes the insulation where the label does not say; null: 60
 * @param stated °C, that it is rated at; null: it is not stated
 */
export function carriedOf({ make }: Conductor, stated: number | null, taken: number | null, wire: WireMake): Carried {
  const insulationC = stated ?? taken ?? LEAST_INSULATION;
  const loaded = loadedCores(wire);
  const ruleSets = carriesBy(make, celsius(insulationC), loaded).map(
    ({ title, edition, lying, cannotTell }): CarriedBy => {
      const [first] = lying;
      const told = cannotTell === null ? lying : [];
      return {
        title,
        edition,
        lying: told.map((way) => {
          const { amps, refused, trust } = way.ampacity;
          const isOfCable = loaded > 1 && way.loaded > 1;
          return { lies: sayLying(way), isOfCable, amps: refused === null ? amps : null, refused, trust };
        }),
        source: told.length === 0 || first?.ampacity.table == null ? null : printCitation(first.ampacity.table.source),
        notes: [...new Set(told.flatMap(({ ampacity: { notes } }) => notes))],
        cannotTell,
      };
    },
  );
  const labelC = wire.temperatureC !== null && wire.temperatureC > insulationC ? wire.temperatureC : null;
  return { ruleSets, insulationC, isAssumed: stated === null, labelC, loaded, counts: sayCount(loaded, wire) };
}
