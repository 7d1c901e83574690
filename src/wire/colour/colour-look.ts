import type { PrintedColour } from "../make/wire-make.ts";
import type { ColourLetters } from "./colour-letters.ts";

/** How a colour is told apart in grey print: lines at an angle, crossed, broken or dotted; `full` and `empty` have none. */
export type ColourPattern =
  | "full"
  | "empty"
  | "upright"
  | "level"
  | "falling"
  | "rising"
  | "dotted"
  | "crossed slanting"
  | "crossed square"
  | "upright broken"
  | "level broken"
  | "falling broken"
  | "rising broken"
  | "level wide"
  | "level close"
  | "falling wide"
  | "falling close"
  | "level broken wide"
  | "level broken close"
  | "dotted wide"
  | "dotted close"
  | "circles"
  | "outline"
  | "metal"
  | "halves";

/** How a colour is drawn. */
export interface ColourLook {
  /** `#RRGGBB`, on light and on dark paper. */
  readonly light: string;
  readonly dark: string;
  readonly pattern: ColourPattern;
  /** Second colour of the one that has two, green-yellow; null: it has one. */
  readonly second: ColourLetters | null;
}

const look = (
  pattern: ColourPattern,
  light: string,
  dark = light,
  second: ColourLetters | null = null,
): ColourLook => ({
  light,
  dark,
  pattern,
  second,
});

/**
 * The look of each base colour. Insulation has no exact hue: the values are chosen here, so that neighbours differ on a screen and in grey. Black is
 * lifted on dark paper, where it would vanish. Patterns are the hatchings of engravers where they have one.
 *
 * @source common practice; hatching of Petra Sancta (1638) for red, blue, green, violet, yellow, white, black
 */
export const colourLooks: Readonly<Record<ColourLetters, ColourLook>> = {
  BK: look("full", "#1A1A1A", "#3A3F44"),
  BN: look("crossed slanting", "#6B3F1D", "#8A5A33"),
  RD: look("upright", "#C62828", "#E04848"),
  OG: look("upright broken", "#E07B00"),
  YE: look("dotted", "#F2C500"),
  GN: look("falling", "#2E7D32", "#43A047"),
  BU: look("level", "#1F6FC4", "#3D8CE0"),
  VT: look("rising", "#7B3FA0", "#A066C8"),
  GY: look("level broken", "#8A9299"),
  WH: look("empty", "#FFFFFF", "#F4F6F8"),
  PK: look("falling broken", "#E58FB0"),
  GD: look("dotted close", "#B8902A"),
  TQ: look("crossed square", "#1FA5A5"),
  SR: look("metal", "#C0C6CC"),
  GNYE: look("halves", "#2E7D32", "#43A047", "YE"),
  LBU: look("level wide", "#7CB8EE"),
  DBU: look("level close", "#123C7A", "#3A66B0"),
  LGN: look("falling wide", "#86CC7E"),
  DGN: look("falling close", "#14532B", "#2F7D4C"),
  LGY: look("level broken wide", "#C3C9CE"),
  DGY: look("level broken close", "#555D64", "#6F7880"),
  TN: look("rising broken", "#D2B48C"),
  CR: look("dotted wide", "#F3E7C4"),
  CL: look("outline", "#EEF2F4", "#DDE3E8"),
  BARE: look("circles", "#C98650"),
};

const isLetters = (text: string): text is ColourLetters => Object.hasOwn(colourLooks, text);

/**
 * How a colour is drawn: one look for the base and one for each tracer.
 *
 * @param colour a tracer that stands for any (`*`) has no look and is left out
 * @returns empty for letters that no list has
 * @example
 * lookOf(["YE", "RD"]).map(({ pattern }) => pattern) //=> ["dotted", "upright"]
 * lookOf(["GNYE"])[0]?.second //=> "YE"
 */
export const lookOf = (colour: PrintedColour): readonly ColourLook[] =>
  colour.flatMap((letters) => (isLetters(letters) ? [colourLooks[letters]] : []));
