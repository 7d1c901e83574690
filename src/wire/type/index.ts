export { ratedTemperature } from "./rated-temperature.ts";
export { readTypeCode, typeAt, typeChoices } from "./read-type-code.ts";
export { sayFitness } from "./say-type.ts";
export { severalTypes, type MarkedTypes } from "./several-types.ts";
export type { Counting, TypeAt, TypeCode, TypeFact, TypeLimits } from "./type-code.ts";
