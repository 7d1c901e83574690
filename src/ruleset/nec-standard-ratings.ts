import { amps } from "../quantity/index.ts";
import type { StandardRatings } from "./device-limit.ts";

/** 10 A came in with the edition of 2023 (memory); the stricter reading for an older one. */
const all = [
  10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500,
  600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
];

/** Standard ampere ratings of NEC Table 240.6(A), and those that fuses have besides: whatever is on sale, the next rating up is one of these. */
export const necStandardRatings: StandardRatings = {
  breakers: all.map(amps),
  fuses: [...all, 1, 3, 6, 601].sort((a, b) => a - b).map(amps),
};
