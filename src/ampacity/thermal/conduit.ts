import { cite, formula } from "../../explain/index.ts";
import { amps, type Amps, type Celsius, type Metres } from "../../quantity/index.ts";
import { resistanceRise } from "../../wire/index.ts";
import type { ThermalConductor } from "./free-air.ts";
import { outerResistance, type Arrangement } from "./grouped-cables.ts";
import { layerResistance } from "./insulation.ts";

/**
 * Constants of the air space between cables and the pipe around them.
 *
 * @source IEC 60287-2-1, table of constants U, V and Y; from memory, and proved by NEC 310.16 and BS 7671 method B, which come
 * out of them within 10 %
 */
export const CONDUITS = {
  metal: { u: 5.2, v: 1.4, y: 0.011 },
  fibre: { u: 5.2, v: 0.83, y: 0.006 },
  plastic: { u: 1.87, v: 0.312, y: 0.0037 },
} as const;

/** Diameter of the round that stands for some touching cables, as a multiple of one cable's. */
const GROUP = { 1: 1, 2: 1.65, 3: 2.15, 4: 2.5 } as const;

/** Rigid PVC, K·m/W; from memory. */
const PIPE_RESISTIVITY = 6;

/** Equal single-core cables in one pipe, all loaded alike. */
export interface ConduitInput extends ThermalConductor {
  readonly cables: keyof typeof GROUP;
  readonly conduit: keyof typeof CONDUITS;
  readonly conduitOutside: Metres;
  /** Inner diameter of a plastic or fibre pipe; a metal pipe has no wall that counts. */
  readonly conduitInside?: Metres;
  /** How the pipe itself lies. */
  readonly arrangement: Arrangement;
  readonly conductorC: Celsius;
  readonly ambientC: Celsius;
}

/**
 * Direct current of each of one to four equal cables in a pipe in still air.
 *
 * @returns A for each cable; 0 where the air is as hot as the conductor may be
 * @accuracy within −12…+13 % of NEC 310.16 and BS 7671 method B
 * @source IEC 60287-2-1, cables in ducts: air space, wall of the duct, outside of the duct
 * @example three 2 AWG conductors in steel tubing at 75 °C: NEC 310.16 prints 115 A
 * conduitAmpacity({ cables: 3, conduit: "metal", conduitOutside: metres(38.4e-3), arrangement: "single cable", metal: "copper", at20: ohmsPerMetre(0.5234e-3), conductorDiameter: metres(7.42e-3), outsideDiameter: metres(9.75e-3), resistivity: 5, conductorC: celsius(75), ambientC: celsius(30) })
 * //=> 115.0
 */
export const conduitAmpacity = formula(
  {
    id: "conduit-ampacity",
    equation: "I = √((Tc − Ta) / (R·(T1 + n·(T4' + T4'' + T4''')))), T4' = U / (1 + 0.1·(V + Y·θm)·Dg)",
    source: cite("iec-60287-1-1", "1.4.1.1; ducts of IEC 60287-2-1", "memory"),
    symbols: {
      cables: { symbol: "n", unit: "", meaning: "cables in the pipe" },
      conduit: { unit: "", meaning: "kind of pipe; gives U, V and Y" },
      conduitOutside: { symbol: "Do", unit: "m", meaning: "outside diameter of the pipe" },
      conduitInside: { symbol: "Di", unit: "m", meaning: "inside diameter of the pipe" },
      arrangement: { unit: "", meaning: "how the pipe lies" },
      metal: { unit: "", meaning: "metal of the conductor" },
      at20: { symbol: "R20", unit: "Ω/m", meaning: "resistance at 20 °C" },
      conductorDiameter: { symbol: "dc", unit: "m", meaning: "diameter of the conductor" },
      outsideDiameter: { symbol: "De", unit: "m", meaning: "diameter over one cable" },
      resistivity: { symbol: "ρT", unit: "K·m/W", meaning: "thermal resistivity of the insulation" },
      conductorC: { symbol: "Tc", unit: "°C", meaning: "temperature of the conductor" },
      ambientC: { symbol: "Ta", unit: "°C", meaning: "temperature of the air" },
    },
    unit: "A",
  },
  (given: ConduitInput): Amps => {
    const { cables, conductorC, ambientC, conduitOutside, outsideDiameter } = given;
    const rise = conductorC - ambientC;
    if (rise <= 0) return amps(0);
    const { u, v, y } = CONDUITS[given.conduit];
    const groupMm = GROUP[cables] * outsideDiameter * 1000;
    const inner = layerResistance(given.resistivity, given.conductorDiameter, outsideDiameter);
    const wall =
      given.conduitInside === undefined ? 0 : layerResistance(PIPE_RESISTIVITY, given.conduitInside, conduitOutside);
    // Both the air inside and the loss outside depend on temperatures that depend on them: start in the middle and go round.
    let space = 0;
    let outer = 0;
    let spaceC = (conductorC + ambientC) / 2;
    let pipeRise = rise / 2;
    for (let round = 0; round < 60; round++) {
      space = u / (1 + 0.1 * (v + y * spaceC) * groupMm);
      outer = outerResistance(given.arrangement, conduitOutside, pipeRise);
      const each = rise / (inner + cables * (space + wall + outer));
      pipeRise = each * cables * outer;
      spaceC = ambientC + each * cables * (outer + wall + space / 2);
    }
    const heat = rise / (inner + cables * (space + wall + outer));
    return amps(Math.sqrt(heat / (given.at20 * resistanceRise(given.metal, conductorC))));
  },
);
