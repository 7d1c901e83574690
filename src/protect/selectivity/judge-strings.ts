import { deviceFamily, letThrough, preArcing, type Supply } from "../../device/index.ts";
import { cite, weakestTrust } from "../../explain/index.ts";
import { print } from "./compare-bands.ts";
import type { PairDevice, PairJudgement } from "./pair.ts";

/** Batteries or strings side by side, each behind a fuse of one kind. */
export interface StringsQuestion {
  readonly fuse: PairDevice;
  /** How many are side by side, the faulted one among them. */
  readonly strings: number;
  /** A, through the fuse of the faulted one: what all the others give together. */
  readonly faultAmps: number;
  readonly volts: number;
  /** DC where left out. */
  readonly supply?: Supply;
}

/**
 * Judges whether, with a fault in one of several strings, the fuse of that string alone opens.
 *
 * The faulted string's fuse carries what the n − 1 others give together, each of theirs a part of it: while it clears, each of the others takes its energy
 * over (n − 1)². Ignores that strings are never quite equal: what one gives more than the others comes off the margin.
 *
 * @source computed: energy goes with the square of the current
 * @example two strings: both fuses carry the same current
 * judgeStrings({ fuse: { family: "ul_class_T", rating: 200 }, strings: 2, faultAmps: 5000, volts: 29.2 }).verdict //=> "not selective"
 * judgeStrings({ fuse: { family: "ul_class_T", rating: 200 }, strings: 3, faultAmps: 9000, volts: 29.2 }).missing //=> "the least melting I²t of the 200 A class T fuse"
 */
export function judgeStrings({ fuse, strings, faultAmps, volts, supply = "DC" }: StringsQuestion): PairJudgement {
  const name = `${print(fuse.rating)} A ${deviceFamily(fuse.family).name}`;
  const law = cite("own-derivation", "strings side by side", "derived");
  const common = { upTo: null, method: "I2t", sources: [law] } as const;
  if (strings <= 2) {
    const because = `with ${strings < 2 ? "one string" : "two strings"} both fuses carry the same current`;
    return { ...common, verdict: "not selective", because, missing: null, trust: "derived" };
  }
  const marked = fuse.interruptAmps === undefined ? {} : { interruptAmps: fuse.interruptAmps };
  const clears = letThrough(fuse.family, fuse.rating, faultAmps, volts, { supply, ...marked });
  const melts = preArcing(fuse.family, fuse.rating).min;
  const unknown = (missing: string, why: string): PairJudgement => ({
    ...common,
    verdict: "not proven",
    because: `${missing} is not known: ${why}`,
    missing,
    trust: "missing",
  });
  if (melts === null) return unknown(`the least melting I²t of the ${name}`, "the others may melt meanwhile");
  if (clears.i2t === null) return unknown(`the clearing I²t of the ${name}`, clears.notProven ?? "");
  const share = clears.i2t / (strings - 1) ** 2;
  const trust = weakestTrust(melts.trust, clears.trust);
  const sources = [law, melts.source, clears.source];
  const told = `the fuse of the faulted string lets ${print(clears.i2t)} A²s through, each of the others takes ${print(share)} A²s of it and melts from ${print(melts.value)} A²s`;
  if (share < melts.value) return { ...common, verdict: "selective", because: told, missing: null, trust, sources };
  // A bound made of the opening time is far above what is truly let through.
  if (clears.how === "opening time")
    return unknown(`the clearing I²t of the ${name}`, "its opening time alone gives too coarse a bound");
  return { ...common, verdict: "not selective", because: told, missing: null, trust, sources };
}
