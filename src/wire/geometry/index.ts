/** Shapes and figures of wires and cables that follow from their make: sections, diameters, mass, bends, alternating current, conduits, what fits. */
export { acResistance, proximityEffect, reactance, skinEffect, type ProximityInput } from "./ac-resistance.ts";
export { bendRadius, type BendRadius } from "./bend-radius.ts";
export { cableMass, coverMass, type CableMass } from "./cable-mass.ts";
export { cableOutside, type CableOutside } from "./cable-outside.ts";
export { cableSection } from "./cable-section.ts";
export type {
  Assumption,
  CableSection,
  Circle,
  ConcentricGround,
  CoreRole,
  CoreSection,
  Outline,
  StrandLay,
  StrandsSection,
} from "./cable-section-shape.ts";
export {
  circularMilsOfDiameter,
  circularMilsOfSquareMillimetres,
  circularMilsOfStrands,
  squareMillimetresOfCircularMils,
} from "./circular-mils.ts";
export {
  conduitFill,
  fillingOf,
  racewaySizes,
  raceways,
  smallestConduit,
  type ConduitFill,
  type Filling,
  type Raceway,
  type RacewaySize,
} from "./conduit-fill.ts";
export {
  conduitImpedance,
  effectiveImpedance,
  type ConduitImpedance,
  type ConduitMaterial,
} from "./conduit-impedance.ts";
export { cableMetal, metalMass, type CableMetal } from "./metal-mass.ts";
export { usualStrands, type UsualStrands } from "./usual-strands.ts";
export {
  fittingFerrule,
  fittingGlands,
  fittingLugs,
  whatFits,
  type FittingFerrule,
  type FittingGland,
  type FittingLug,
  type WhatFits,
} from "./what-fits.ts";
