export { colourAt, colourChoices, colourName, readColour, type ColourAt, type ColourChoice } from "./read-colour.ts";
