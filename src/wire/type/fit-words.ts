import { noFitness, type Fitness } from "../make/wire-make.ts";

/**
 * Fitness from the words of a table: `wet not-sun` → wet yes, sun no, the rest not known.
 *
 * @param words of several cells; null cells say nothing
 */
export function fitnessOf(...words: readonly (string | null)[]): Fitness {
  const told = new Set(words.flatMap((cell) => cell?.split(" ") ?? []));
  if (told.size === 0) return noFitness;
  const known = (word: keyof Fitness): boolean | null =>
    told.has(word) ? true : told.has(`not-${word}`) ? false : null;
  return {
    wet: known("wet"),
    oil: known("oil"),
    sun: known("sun"),
    flame: known("flame"),
    flexible: known("flexible"),
  };
}
