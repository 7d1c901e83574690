/** Sizes of one system for those of another, and the ladder of all sizes. */
export { cladAluminium, resistanceAgainstCopper, type CladClass, type CladFacts } from "./clad-aluminium.ts";
export { convertSize } from "./convert-size.ts";
export type { Conversion, ConvertBy, ConvertDirection, ConvertedSize, ConvertInput, OtherPair } from "./conversion.ts";
export { allPaired, pairedSize, pairingIds, pairings, type Paired, type PairingId } from "./pairings.ts";
export {
  ladderSystems,
  neighbours,
  sizeLadder,
  sizesOn,
  type LadderSystem,
  type Neighbours,
  type SizeRung,
} from "./size-ladder.ts";
export { kindOfMake, sizeResistance, usualKind, type ConductorKind, type SizeResistance } from "./size-resistance.ts";
