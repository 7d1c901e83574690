import type { LadderSystem } from "../../../wire/convert/index.ts";

/** Systems that a size can be looked for in, in words. */
export const convertTargets: readonly (readonly [system: LadderSystem, words: string])[] = [
  ["mm²", "mm²"],
  ["AWG", "AWG, kcmil"],
  ["SAE", "SAE vehicle gauge"],
  ["vehicle diameter", "vehicle cable, outside mm"],
  ["SWG", "old British gauge"],
  ["JIS", "JIS mm²"],
  ["solid diameter", "solid wire, mm"],
];

export const systemWords = (system: LadderSystem): string =>
  convertTargets.find(([one]) => one === system)?.[1] ?? system;
