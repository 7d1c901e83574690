import { cite, formula } from "../../explain/index.ts";
import { squareMillimetres, type SquareMillimetres } from "../../quantity/index.ts";

const book = cite("textbooks", "circular mil", "read");

/** One mil, a thousandth of an inch, in mm. */
const MIL = 0.0254;

/**
 * Area of a round wire in circular mils: the square of its diameter in mils, and no π.
 *
 * A circular mil is the area of a circle of 1 mil diameter, 0.7854 square mil.
 *
 * @param mils diameter, thousandths of an inch; 0 or more
 * @source open textbooks of electrical engineering; ASTM B258
 * @example 12 AWG, 80.81 mils
 * circularMilsOfDiameter({ mils: 80.81 }) //=> 6530.3
 */
export const circularMilsOfDiameter = formula(
  {
    id: "circular-mils-of-diameter",
    equation: "A = d²",
    source: book,
    symbols: { mils: { symbol: "d", unit: "mil", meaning: "diameter in thousandths of an inch" } },
    unit: "cmil",
  },
  ({ mils }: { readonly mils: number }): number => mils ** 2,
);

/**
 * Area of a stranded wire in circular mils: wires times the square of the diameter of one.
 *
 * @param wires 1 or more
 * @param mils diameter of one wire
 * @example 19 wires of 27 AWG, 14.2 mils
 * circularMilsOfStrands({ wires: 19, mils: 14.2 }) //=> 3831.2
 */
export const circularMilsOfStrands = formula(
  {
    id: "circular-mils-of-strands",
    equation: "A = n · d²",
    source: book,
    symbols: {
      wires: { symbol: "n", unit: "", meaning: "number of wires" },
      mils: { symbol: "d", unit: "mil", meaning: "diameter of one wire in thousandths of an inch" },
    },
    unit: "cmil",
  },
  ({ wires, mils }: { readonly wires: number; readonly mils: number }): number => wires * mils ** 2,
);

/**
 * Circular mils in mm².
 *
 * @param cmil 0 or more
 * @accuracy exact: an inch is 25.4 mm
 * @example 4/0 AWG
 * squareMillimetresOfCircularMils({ cmil: 211600 }) //=> 107.219
 */
export const squareMillimetresOfCircularMils = formula(
  {
    id: "mm2-of-circular-mils",
    equation: "A = CM · π/4 · (0.0254 mm)²",
    source: book,
    symbols: { cmil: { symbol: "CM", unit: "cmil", meaning: "area in circular mils" } },
    unit: "mm²",
  },
  ({ cmil }: { readonly cmil: number }): SquareMillimetres => squareMillimetres(cmil * (Math.PI / 4) * MIL ** 2),
);

/**
 * An area of metal in circular mils.
 *
 * @param areaMm2 0 or more; of metal, not what stands on a metric label
 * @example
 * circularMilsOfSquareMillimetres({ areaMm2: 10 }) //=> 19735.3
 */
export const circularMilsOfSquareMillimetres = formula(
  {
    id: "circular-mils-of-mm2",
    equation: "CM = A / (π/4 · (0.0254 mm)²)",
    source: book,
    symbols: { areaMm2: { symbol: "A", unit: "mm²", meaning: "area of the metal" } },
    unit: "cmil",
  },
  ({ areaMm2 }: { readonly areaMm2: number }): number => areaMm2 / ((Math.PI / 4) * MIL ** 2),
);
