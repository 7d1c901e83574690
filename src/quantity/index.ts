/** Numbers with units: their types, reading them as people write them, printing them. */
export * from "./quantity.ts";
export type { Dimension, Si, SiTable } from "./dimension.ts";
export type { UnitOf } from "./units.ts";
export { ampHours, circularMils, fahrenheit, feet, fromSi, inches, toSi, wattHours } from "./convert.ts";
export type { Amount, Problem, ProblemId, Reading, Term } from "./amount.ts";
export { readQuantity, type ReadOptions } from "./read-quantity.ts";
export { printAmount, type DecimalMark } from "./print-amount.ts";
export { printQuantity, printRange, type PrintOptions } from "./print-quantity.ts";
