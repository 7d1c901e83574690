import { recall, remember } from "../../settings/small-memory.ts";

/**
 * How large a millimetre is on this screen. A browser does not know: its millimetre is a ninety-sixth of an inch times 25.4 by definition, whatever the glass is.
 * So a person holds a bank card against it (ISO/IEC 7810 ID-1, 85.60 mm wide), and what it measured is kept with the zoom of that moment.
 */
export const CARD_MM = 85.6;

interface Kept {
  /** Pixels of the page for one millimetre of glass. */
  readonly perMm: number;
  /** Device pixels for one of the page, as it was then. */
  readonly ratio: number;
}

/** What a browser takes a millimetre for, to begin with. */
export const NOMINAL_PER_MM = 96 / 25.4;

/** Screens lie between these: a wall of light, and a phone that is held to the eye. */
const [LEAST, MOST] = [1, 12];

/** Pixels of the page for a millimetre of this screen, at its zoom now; null: nobody has measured it. */
export function pixelsPerMm(): number | null {
  const kept = readKept(recall("screen"));
  return kept === null ? null : (kept.perMm * kept.ratio) / devicePixelRatio;
}

/**
 * @param text as it was remembered; anybody may have written it
 * @example
 * readKept('{"perMm":3.9,"ratio":1}') //=> { perMm: 3.9, ratio: 1 }
 * readKept('{"perMm":"x"}') //=> null
 */
export function readKept(text: string | null): Kept | null {
  if (text === null) return null;
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== "object" || read === null) return null;
    const { perMm, ratio } = read as Partial<Record<keyof Kept, unknown>>; // each is looked at below
    if (typeof perMm !== "number" || typeof ratio !== "number") return null;
    return perMm >= LEAST && perMm <= MOST && ratio > 0 ? { perMm, ratio } : null;
  } catch {
    return null;
  }
}

/** Keeps what a card measured on this screen. */
export const keepScale = (perMm: number): void => {
  remember("screen", JSON.stringify({ perMm, ratio: devicePixelRatio }));
};
