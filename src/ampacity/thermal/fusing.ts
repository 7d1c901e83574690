import { cite, formula } from "../../explain/index.ts";
import { amps, type Amps, type Celsius, type Metres, type Seconds } from "../../quantity/index.ts";

/** Copper melts, °C. */
const MELTS = 1083;

/**
 * Current that melts a copper wire in a given time, when no heat is lost: a wire that is no fuse, and what happens to one that was not fused.
 *
 * Holds to about 10 s. A widely copied worked example takes 234 − Ta for 234 + Ta and comes out 5 % high.
 *
 * @param circularMils area of the wire; 1 mm² is 1973.5
 * @param seconds > 0
 * @returns A
 * @source Onderdonk: I = A·√(log10((Tm − Ta) / (234 + Ta) + 1) / (33·t)), as quoted in articles
 * @example 16 AWG in 5 s
 * onderdonkCurrent({ circularMils: 2583, seconds: seconds(5), ambientC: celsius(25) }) //=> 169.0
 */
export const onderdonkCurrent = formula(
  {
    id: "onderdonk-current",
    equation: "I = A·√(log10((Tm − Ta) / (234 + Ta) + 1) / (33·t))",
    source: cite("textbooks", "Onderdonk's formula, as quoted in articles", "article"),
    symbols: {
      circularMils: { symbol: "A", unit: "circular mil", meaning: "area of the wire" },
      seconds: { symbol: "t", unit: "s", meaning: "time" },
      ambientC: { symbol: "Ta", unit: "°C", meaning: "temperature before" },
    },
    unit: "A",
  },
  (given: { readonly circularMils: number; readonly seconds: Seconds; readonly ambientC: Celsius }): Amps => {
    const { circularMils, ambientC } = given;
    return amps(circularMils * Math.sqrt(Math.log10((MELTS - ambientC) / (234 + ambientC) + 1) / (33 * given.seconds)));
  },
);

/**
 * Steady current that melts a bare copper wire in still air.
 *
 * @param diameter m; thin wires of some length
 * @returns A
 * @source Preece: I = 10 244·d^1.5, d in inches, as quoted in articles
 * @example 24 AWG melts at some 30 A
 * preeceCurrent({ diameter: metres(0.511e-3) }) //=> 29.2
 */
export const preeceCurrent = formula(
  {
    id: "preece-current",
    equation: "I = 10 244·(d / 0.0254 m)^1.5",
    source: cite("textbooks", "Preece's formula, as quoted in articles", "article"),
    symbols: { diameter: { symbol: "d", unit: "m", meaning: "diameter of the bare wire" } },
    unit: "A",
  },
  ({ diameter }: { readonly diameter: Metres }): Amps => amps(10_244 * (diameter / 0.0254) ** 1.5),
);
