import type { Citation, Trust } from "../../explain/index.ts";
import type { PrintedColour } from "../make/wire-make.ts";

/** A circle, mm; the centre of the cable is 0, 0, x to the right, y down. */
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** What a core is for. Never told by a colour alone, but by a colour that may be nothing else or by the kind of cable. */
export type CoreRole = "L" | "N" | "PE" | "+" | "−";

/** How the wires of a conductor lie. */
export type StrandLay = "solid" | "concentric" | "bunched";

/** The wires of one conductor. */
export interface StrandsSection {
  /** Number of wires, as told or as usual. */
  readonly count: number;
  /** Diameter of one wire, mm. */
  readonly wireMm: number;
  readonly lay: StrandLay;
  /** From the middle outwards. With `isEvery` each is a wire; else they are fewer and thicker, and hold the same metal. */
  readonly circles: readonly Circle[];
  readonly isEvery: boolean;
}

/** One conductor with what is on it. */
export interface CoreSection {
  readonly x: number;
  readonly y: number;
  /** Over the insulation, mm; that of the conductor where it is bare. */
  readonly insulationRadius: number;
  /** Of the circle round all wires, mm. */
  readonly conductorRadius: number;
  readonly strands: StrandsSection;
  readonly isBare: boolean;
  /** `12 AWG`; that of the core, which may be another than that of the cable. */
  readonly sizeLabel: string;
  /** Of metal, or what the label says, mm². */
  readonly areaMm2: number;
  readonly colour: PrintedColour | null;
  readonly role: CoreRole | null;
  /** What can be written on the core: the colour in the letters of IEC 60757, `GNYE`, `BKWH`; empty where no colour is known or the core is bare. */
  readonly letters: string;
}

/** A ground laid round the cores as a ring of wires. */
export interface ConcentricGround {
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly wires: readonly Circle[];
  readonly sizeLabel: string;
}

/** The outer edge. Flat ones have round ends: a corner has half the height for radius. */
export type Outline =
  | { readonly is: "round"; readonly radius: number }
  | { readonly is: "flat"; readonly width: number; readonly height: number };

/** A dimension or fact that the make does not tell and that was taken from elsewhere. */
export interface Assumption {
  readonly about: "size" | "strands" | "conductor" | "insulation" | "sheath" | "form" | "colours" | "ground";
  /** A sentence for the reader. */
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** A cut through one wire or cable (one of its `runs`), to scale. */
export interface CableSection {
  readonly outline: Outline;
  /** mm; 0: a single wire, or cores that no sheath holds. */
  readonly sheathMm: number;
  /** In the order of the colours; a bare ground comes last. */
  readonly cores: readonly CoreSection[];
  readonly concentric: ConcentricGround | null;
  readonly assumed: readonly Assumption[];
  /** Weakest of all that was assumed; `derived` where nothing was. */
  readonly trust: Trust;
}
