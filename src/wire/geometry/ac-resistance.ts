import { cite, formula } from "../../explain/index.ts";

const iec = (clause: string) => cite("iec-60287-1-1", clause, "memory");

/**
 * How much more resistance alternating current finds in a round conductor because it crowds to the skin.
 *
 * @param hertz frequency; 0 or more
 * @param ohmsPerMetre direct-current resistance at the temperature it works at, Ω/m; above 0
 * @returns ys, a share of the direct-current resistance; 0 for direct current
 * @accuracy round stranded and solid conductors (ks = 1); polynomials of the standard, valid over all sizes on sale
 * @source IEC 60287-1-1 clause 2.1.2: xs² = 8πf/R′·10⁻⁷, ys = xs⁴/(192 + 0.8 xs⁴) to xs = 2.8, then the two longer forms
 * @example 500 kcmil copper at 75 °C, 60 Hz
 * skinEffect({ hertz: 60, ohmsPerMetre: 8.465e-5 }) //=> 0.01631
 */
export const skinEffect = formula(
  {
    id: "skin-effect-factor",
    equation: "ys = xs⁴ / (192 + 0.8 · xs⁴), xs² = 8 · π · f / R · 10⁻⁷",
    source: iec("2.1.2"),
    symbols: {
      hertz: { symbol: "f", unit: "Hz", meaning: "frequency" },
      ohmsPerMetre: { symbol: "R", unit: "Ω/m", meaning: "direct-current resistance of a metre, warm" },
    },
    unit: "",
  },
  ({ hertz, ohmsPerMetre }: { readonly hertz: number; readonly ohmsPerMetre: number }): number => {
    const x = Math.sqrt(argument(hertz, ohmsPerMetre));
    if (x <= 2.8) return x ** 4 / (192 + 0.8 * x ** 4);
    return x <= 3.8 ? -0.136 - 0.0177 * x + 0.0563 * x ** 2 : 0.354 * x - 0.733;
  },
);

const argument = (hertz: number, ohmsPerMetre: number): number => ((8 * Math.PI * hertz) / ohmsPerMetre) * 1e-7;

/**
 * How much more resistance alternating current finds because a neighbour pushes it to one side.
 *
 * @param conductorMm diameter of the conductor
 * @param spacingMm between the axes of neighbours; at least the diameter
 * @param conductors 2 or 3: out and back, or three phases in a triangle; three in a row take the mean spacing
 * @returns yp, a share of the direct-current resistance
 * @accuracy xp up to 2.8 (kp = 1), which is 1000 mm² of copper at 50 Hz
 * @source IEC 60287-1-1 clauses 2.1.3 (two) and 2.1.4.1 (three)
 * @example 500 kcmil copper at 75 °C, 60 Hz, three touching
 * proximityEffect({ hertz: 60, ohmsPerMetre: 8.465e-5, conductorMm: 20.65, spacingMm: 25.48, conductors: 3 }) //=> 0.04635
 */
export const proximityEffect = formula(
  {
    id: "proximity-effect-factor",
    equation:
      "yp = x⁴/(192 + 0.8 x⁴) · (d/s)² · [0.312 (d/s)² + 1.18 / (x⁴/(192 + 0.8 x⁴) + 0.27)]; two: · 2.9 in place of the bracket",
    source: iec("2.1.3 and 2.1.4.1"),
    symbols: {
      hertz: { symbol: "f", unit: "Hz", meaning: "frequency" },
      ohmsPerMetre: { symbol: "R", unit: "Ω/m", meaning: "direct-current resistance of a metre, warm" },
      conductorMm: { symbol: "d", unit: "mm", meaning: "diameter of the conductor" },
      spacingMm: { symbol: "s", unit: "mm", meaning: "distance between the axes" },
      conductors: { unit: "", meaning: "number of conductors" },
    },
    unit: "",
  },
  ({ hertz, ohmsPerMetre, conductorMm, spacingMm, conductors }: ProximityInput): number => {
    const x4 = argument(hertz, ohmsPerMetre) ** 2;
    const base = x4 / (192 + 0.8 * x4);
    const near = (conductorMm / spacingMm) ** 2;
    return base * near * (conductors === 2 ? 2.9 : 0.312 * near + 1.18 / (base + 0.27));
  },
);

export interface ProximityInput {
  readonly hertz: number;
  readonly ohmsPerMetre: number;
  readonly conductorMm: number;
  readonly spacingMm: number;
  readonly conductors: 2 | 3;
}

/**
 * Resistance of a metre of conductor to alternating current.
 *
 * No steel about it: conduit of steel adds losses that this does not know; take `conduitImpedance`.
 *
 * @returns Ω/m
 * @source IEC 60287-1-1 clause 2.1: R = R′ (1 + ys + yp)
 * @example
 * acResistance({ hertz: 60, ohmsPerMetre: 8.465e-5, conductorMm: 20.65, spacingMm: 25.48, conductors: 3 }) //=> 0.000089955
 */
export const acResistance = (input: ProximityInput): number =>
  input.ohmsPerMetre * (1 + skinEffect(input) + proximityEffect(input));

/**
 * Reactance of a metre of conductor among equal ones.
 *
 * @param spacingMm between the axes; for three in a row 1.26 times that of neighbours
 * @returns Ω/m, of one conductor
 * @source inductance of parallel round conductors, 0.2 · ln(2s/d) + 0.05 mH/km
 * @example two touching conductors of 10 mm over 12 mm of insulation, 50 Hz
 * reactance({ hertz: 50, conductorMm: 10, spacingMm: 12 }) //=> 0.000070715
 */
export const reactance = formula(
  {
    id: "reactance-per-metre",
    equation: "X = 2 · π · f · (2 · ln(2 · s / d) + 0.5) · 10⁻⁷",
    source: cite("textbooks", "inductance of parallel conductors", "memory"),
    symbols: {
      hertz: { symbol: "f", unit: "Hz", meaning: "frequency" },
      conductorMm: { symbol: "d", unit: "mm", meaning: "diameter of the conductor" },
      spacingMm: { symbol: "s", unit: "mm", meaning: "distance between the axes" },
    },
    unit: "Ω/m",
  },
  ({
    hertz,
    conductorMm,
    spacingMm,
  }: {
    readonly hertz: number;
    readonly conductorMm: number;
    readonly spacingMm: number;
  }): number => 2 * Math.PI * hertz * (2 * Math.log((2 * spacingMm) / conductorMm) + 0.5) * 1e-7,
);
