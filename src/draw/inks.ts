import { colourLooks } from "../wire/colour/index.ts";
import type { Ink } from "./scene.ts";

type Colours = { readonly light: string; readonly dark: string };

/** A metal is the same on every screen. */
const metal = (colour: string): Colours => ({ light: colour, dark: colour });

/**
 * Colours of the inks on paper and on a dark screen.
 *
 * Those of paper keep their order in grey; what says pass or fail says it by its shape too, so that no meaning rests on a colour alone.
 */
export const inks: Readonly<Record<Ink, Colours>> = {
  ink: { light: "#14202B", dark: "#E8EDF0" },
  ink2: { light: "#46545F", dark: "#AEBAC3" },
  frame: { light: "#6A7781", dark: "#7F8D98" },
  hair: { light: "#C3CCD2", dark: "#3A4650" },
  paper: { light: "#FFFFFF", dark: "#12181E" },
  fail: { light: "#7D0B1A", dark: "#F4606C" },
  warn: { light: "#8F6000", dark: "#EDB23A" },
  pass: { light: "#0A4A66", dark: "#35B4F0" },
  unknown: { light: "#666C72", dark: "#C3C8CD" },
  idle: { light: "#848F97", dark: "#75828D" },
  flow: { light: "#DCE5EA", dark: "#26323B" },
  focus: { light: "#5F2E8B", dark: "#C9A4FF" },
  ...colourLooks,
  copper: metal("#C98650"),
  tin: metal("#C9CED2"),
  aluminium: metal("#E2E5E8"),
  sheath: { light: "#E6EAEC", dark: "#33414C" },
  filler: { light: "#F7F8F9", dark: "#222C35" },
};
