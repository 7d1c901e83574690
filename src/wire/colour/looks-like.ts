import type { PrintedColour } from "../make/wire-make.ts";

/** The plain colour of each shade. */
const plainOf: Readonly<Record<string, string>> = { LBU: "BU", DBU: "BU", LGN: "GN", DGN: "GN", LGY: "GY", DGY: "GY" };

const alike = (a: string, b: string): boolean => a === b || plainOf[a] === b || plainOf[b] === a;

/**
 * Whether two colours can be taken for each other: the same letters, or a plain colour and a shade of it. Light and dark blue are two colours;
 * a tracer tells a wire from one without.
 *
 * @example
 * looksLike(["BU"], ["DBU"]) //=> true
 * looksLike(["LBU"], ["DBU"]) //=> false
 * looksLike(["BN"], ["BN", "YE"]) //=> false
 */
export function looksLike([a, ...tracersA]: PrintedColour, [b, ...tracersB]: PrintedColour): boolean {
  if (!alike(a, b)) return false;
  if (tracersA[0] === "*") return tracersB.length > 0;
  if (tracersB[0] === "*") return tracersA.length > 0;
  return tracersA.length === tracersB.length && tracersA.every((tracer, i) => alike(tracer, tracersB[i] ?? ""));
}
