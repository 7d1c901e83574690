import { cite } from "../explain/index.ts";
import type { SolarRules } from "./rule-set.ts";

/** Where no clause of its own is known, conductors of solar modules are counted as by the American code, 690.8: 1.25 × 1.25 = 1.56 times before correction. */
export const solarPractice: SolarRules = {
  factor: 1.25,
  forHours: 1.25,
  source: cite("trade-practice", "conductors of solar modules as the American code counts them", "practice"),
};

/** Of the international standard, without a margin for hours. */
export const iecSolar: SolarRules = { factor: 1.25, source: cite("iec-60364-7-712", "712.433", "memory") };
