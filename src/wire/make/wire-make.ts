import type { SizeSystem } from "../wire-size.ts";

/**
 * By what a printed size counts: the four systems in which conductors are chosen, and those that only labels have: British gauge, the square
 * millimetres of Japanese terminals, the metric labels of SAE vehicle cable, diameters in millimetres over the insulation or over a solid wire, counted strands.
 */
export type PrintedSystem =
  SizeSystem | "SWG" | "JIS" | "SAE metric label" | "vehicle diameter" | "solid diameter" | "strands";

/** A size as a label names it. */
export interface PrintedSize {
  readonly system: PrintedSystem;
  /** Within its system: `2/0`, `2.5`, `6`, `65/0.30`, `19/27`, `7x19/30`. */
  readonly name: string;
  /** As it is printed without doubt: `2/0 AWG`, `2.5 mm²`, `14 SWG`, `65/0.30 mm`, `19/27 AWG`. */
  readonly label: string;
  /** mm²; of the metal, or what stands on the label of a class of resistance (`basis`). */
  readonly areaMm2: number;
  /** `metal`: an area of copper; `label`: IEC, JIS and SAE metric names, whose copper may be up to 14 % less. */
  readonly basis: "metal" | "label";
}

/** The kind of cable; it decides what the second number of `12/3` counts. */
export type CableFamily =
  /** North American sheathed building cable: the bare ground is not counted. */
  | "building cable"
  /** Boat cable: every conductor is counted, green ones too. */
  | "boat cable"
  /** North American flexible cord: the green conductor is counted. */
  | "flexible cord"
  /** Cables with a harmonised (HD 361) or national European code. */
  | "harmonised cable"
  /** British and Irish flat twin and earth: the bare earth is not counted, and thinner. */
  | "twin and earth"
  /** Japanese flat building cable, named by the diameter of its solid cores. */
  | "japanese building cable"
  /** North American single building wire: THHN, XHHW. */
  | "building wire"
  /** Single wire of cars and trucks. */
  | "vehicle wire"
  | "trailer cable"
  | "battery cable"
  | "welding cable"
  | "speaker cable"
  | "solar cable"
  /** Bundled feeder and service conductors, sizes listed one by one. */
  | "service cable";

/** Every family, in the order in which lists show them. */
export const cableFamilies = [
  "building cable",
  "boat cable",
  "flexible cord",
  "harmonised cable",
  "twin and earth",
  "japanese building cable",
  "building wire",
  "vehicle wire",
  "trailer cable",
  "battery cable",
  "welding cable",
  "speaker cable",
  "solar cable",
  "service cable",
] as const satisfies readonly CableFamily[];

/** What a cable has for the protective conductor. */
export type Ground =
  /** It has none. */
  | "none"
  /** One of the insulated conductors, green or green-yellow. */
  | "insulated"
  /** One bare wire more than is counted. */
  | "bare"
  /** Wires laid round the others. */
  | "concentric"
  /** The label does not tell. */
  | "not stated";

/** The conductors of one cable. */
export interface CableCores {
  /** Insulated conductors, an insulated ground counted. */
  readonly insulated: number;
  /** All metal conductors: the insulated ones and a bare or concentric ground. */
  readonly total: number;
  readonly ground: Ground;
  /** Where it is another than that of the rest: the earth of twin and earth, `3x25/16`. */
  readonly groundSize: PrintedSize | null;
  /** Conductors that have a size of their own: `4/0-4/0-2/0` is a size of 4/0 and here one 2/0. They are counted above. */
  readonly others: readonly { readonly count: number; readonly size: PrintedSize }[];
  /** The cores are twisted in pairs, each of two. */
  readonly paired: boolean;
}

/** How a conductor is made up. */
export interface Stranding {
  /** `class 5`, `type 3`, `class K`, `solid`; null: only the strands are told. */
  readonly name: StrandingName | null;
  /** Number of wires; null: not stated. */
  readonly wires: number | null;
  /** Diameter of one wire, mm; null: not stated. */
  readonly wireMm: number | null;
}

/** `stranded` where no more is said than that it is not solid. */
export type StrandingName =
  | "solid"
  | "stranded"
  | "class 1"
  | "class 2"
  | "class 5"
  | "class 6"
  | "type 1"
  | "type 2"
  | "type 3"
  | "class B"
  | "class C"
  | "class D"
  | "class G"
  | "class H"
  | "class I"
  | "class K"
  | "class M"
  | "tinsel";

/** Metals that a label may name; `aluminium` is what a conductor is computed with as well. */
export type PrintedMetal = "copper" | "aluminium" | "copper-clad aluminium";

/** What the insulation or the jacket bears, as the type or the label says. */
export interface Fitness {
  readonly wet: boolean | null;
  readonly oil: boolean | null;
  readonly sun: boolean | null;
  /** Passes a flame test that the type names. */
  readonly flame: boolean | null;
  /** Made to be moved in use. */
  readonly flexible: boolean | null;
}

/** Colour of insulation as printed: `base` and tracers by the letters of IEC 60757; green-yellow is `GNYE` alone. */
export type PrintedColour = readonly [base: string, ...tracers: string[]];

/**
 * All that can be known of a wire or cable from what is printed on it or written of it. Null is `not stated`, never a guess.
 *
 * A single conductor has `cores: null` where nothing speaks of cores.
 */
export interface WireMake {
  readonly family: CableFamily | null;
  /** Of each conductor that has no size of its own. */
  readonly size: PrintedSize | null;
  readonly cores: CableCores | null;
  /** Equal wires or cables side by side: 2 in `2x(1x35)`. */
  readonly runs: number;
  readonly stranding: Stranding | null;
  readonly metal: PrintedMetal | null;
  readonly plating: "plain" | "tinned" | null;
  /** The type code as its standard writes it: `SOOW`, `NM-B`, `H07RN-F`, `FLRY-A`, `BC-5W2`. */
  readonly type: string | null;
  /** Greatest voltage between conductors, V; with two as in 300/500 the second. */
  readonly volts: number | null;
  /** As printed: `300/500`, `600`. */
  readonly voltsSay: string | null;
  /** Temperature of the insulation, °C, dry; null: not stated. */
  readonly temperatureC: number | null;
  /** The same in wet places where it is another. */
  readonly wetTemperatureC: number | null;
  readonly fitness: Fitness;
  /** Of the insulation of a single wire, or of the cores in their order; empty: not stated. */
  readonly colours: readonly PrintedColour[];
  /** Flat or round; null: not stated. */
  readonly form: "flat" | "round" | null;
  /** Diameter over everything, mm, where the label says it. */
  readonly outsideMm: number | null;
}

/** Nothing is stated. */
export const noFitness: Fitness = { wet: null, oil: null, sun: null, flame: null, flexible: null };

/** A make of which nothing is known yet. */
export const emptyMake: WireMake = {
  family: null,
  size: null,
  cores: null,
  runs: 1,
  stranding: null,
  metal: null,
  plating: null,
  type: null,
  volts: null,
  voltsSay: null,
  temperatureC: null,
  wetTemperatureC: null,
  fitness: noFitness,
  colours: [],
  form: null,
  outsideMm: null,
};
