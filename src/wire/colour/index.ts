export { colourLooks, lookOf, type ColourLook, type ColourPattern } from "./colour-look.ts";
export { baseColours, type BaseColour, type ColourLetters } from "./colour-letters.ts";
export { coreColoursAt, type CoreColoursAt } from "./core-colours.ts";
export { clashBetween, findClashes, type ClashHazard, type ColourClash, type ColourUse } from "./find-clashes.ts";
export { looksLike } from "./looks-like.ts";
export { colourAt, colourChoices, colourName, readColour, type ColourAt, type ColourChoice } from "./read-colour.ts";
export { allSchemes, meaningsOf, schemeColours, schemeNamed, type ColourMeaning, type ColourScheme } from "./scheme.ts";
export {
  isWireFunction,
  isWireSystem,
  wireFunctions,
  wireSystems,
  type Potential,
  type WireFunction,
  type WireSystem,
} from "./wire-function.ts";
