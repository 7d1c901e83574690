import { completionsAt, type Completions } from "../../plan/assist/index.ts";
import { aroundOf, type Assisted } from "./around-of.ts";

/**
 * What may be written at an offset of a plan's text: names, keys with what they mean, words, units, terminals with the free ones first.
 *
 * @param text may be half written, and newer than the compiled plan
 * @param offset 0 to the length of the text
 * @param compiled of this text, or the last one that was compiled
 * @returns what is replaced lies within the line of the offset; null: nothing to offer
 */
export const completeAt = (text: string, offset: number, compiled: Assisted): Completions | null =>
  completionsAt(text, offset, aroundOf(compiled));
