export { readTypeCode, typeAt, typeChoices } from "./read-type-code.ts";
export { sayFitness } from "./say-type.ts";
export type { Counting, TypeAt, TypeCode, TypeFact, TypeLimits } from "./type-code.ts";
