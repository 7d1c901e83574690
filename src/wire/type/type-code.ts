import type { Citation } from "../../explain/citation.ts";
import type { CableFamily, Fitness, Ground, PrintedMetal, Stranding } from "../make/wire-make.ts";

/** What the number of conductors on a label counts, for a type. */
export type Counting =
  /** Every conductor, a green one too. */
  | "all"
  /** The insulated ones; one more bare or concentric conductor is the ground. */
  | "ground extra"
  /** A single conductor; there is no number. */
  | "single";

/** Within what sizes and counts the standard or the law makes a type. */
export interface TypeLimits {
  /** Names of the thinnest and the thickest size, in AWG or mm²; null: not known. */
  readonly sizes: readonly [thinnest: string, thickest: string] | null;
  /** Fewest and most conductors; null: no most. */
  readonly cores: readonly [fewest: number, most: number | null] | null;
}

/** A fact of a type that may be weaker than the rest. */
export type TypeFact = "volts" | "temperatureC" | "wetTemperatureC" | "fitness" | "stranding" | "limits";

/** What the letters of a cable type say. Null is `not stated by the type`, never a guess. */
export interface TypeCode {
  /** As its standard writes it: `SOOW`, `NM-B`, `H07RN-F`. */
  readonly code: string;
  /** It is no code but a kind of cable in words: `battery cable`; such words promise little. */
  readonly inWords: boolean;
  readonly family: CableFamily | null;
  /** What it is, in a few words: `flexible cord, extra-hard service`. */
  readonly name: string;
  /** Greatest voltage between conductors, V. */
  readonly volts: number | null;
  /** As printed: `300/500`, `600`. */
  readonly voltsSay: string | null;
  /** °C, dry. */
  readonly temperatureC: number | null;
  /** °C, where it is another in wet places. */
  readonly wetTemperatureC: number | null;
  readonly fitness: Fitness;
  readonly metal: PrintedMetal | null;
  readonly plating: "plain" | "tinned" | null;
  readonly stranding: Stranding | null;
  readonly form: "flat" | "round" | null;
  readonly counts: Counting | null;
  /** What the letters say of the protective conductor; `not stated` where the count or a `G` has to. */
  readonly ground: Ground;
  /** Insulated conductors where the type alone fixes them. */
  readonly cores: number | null;
  readonly limits: TypeLimits;
  /** The letters put into words, in a sentence. */
  readonly says: string;
  /** What misleads in this type, graver first, each a sentence. */
  readonly traps: readonly string[];
  /** What else the same letters may be on a label, e.g. `alternating current`; such a type is read in capitals only. */
  readonly alsoMeans: string | null;
  /** Where the type comes from; its trust is that of the type as a whole. */
  readonly source: Citation;
  /** Facts that come from memory although the type as a whole does not; they print as unverified. */
  readonly unverified: readonly TypeFact[];
}

/** Types that stand at a place of a text. Several where the same letters name two types: `SE` is a cord and a service cable. */
export interface TypeAt {
  /** First character after the code. */
  readonly to: number;
  readonly types: readonly [TypeCode, ...TypeCode[]];
}
