import { amps, celsius, type Amps, type Celsius, type Metres } from "../../quantity/index.ts";
import { bisect } from "./bisect.ts";
import { bundleFactorModel, bundleTemperature, type BundledWire, type Packing } from "./bundle.ts";
import { conduitAmpacity, type ConduitInput } from "./conduit.ts";
import { conductorTemperatureFreeAir, freeAirAmpacity, HOTTEST, type ThermalConductor } from "./free-air.ts";
import { groupedCablesAmpacity, type Arrangement } from "./grouped-cables.ts";
import type { Surroundings } from "./surface-loss.ts";
import { wrapped } from "./wrapped.ts";

/** How a conductor lies, as far as its heat goes. Neighbours are equal and carry the same; for others see `bundledTemperatures`. */
export type HeatWay =
  | { readonly way: "free air" }
  /** Among equal single cables, or alone on a wall: `single cable clipped to a wall`. */
  | { readonly way: "touching"; readonly arrangement: Arrangement }
  | ({ readonly way: "conduit" } & Pick<
      ConduitInput,
      "cables" | "conduit" | "conduitOutside" | "conduitInside" | "arrangement"
    >)
  | ({ readonly way: "bundle"; readonly count: number; readonly loaded?: number } & Packing)
  /** Wholly within wool or foam, whose outside is in air. */
  | { readonly way: "wrapped"; readonly thickness: Metres };

/**
 * Direct current that brings a conductor to a temperature, however it lies.
 *
 * Groups and conduits are those of IEC 60287 in still air at sea level: emissivity, walls and pressure count in free air, in bundles and where wrapped.
 *
 * @param conductorC of the metal, °C
 * @returns A; 0 where the surroundings alone make it that hot
 * @accuracy as the model of the way: −13…+17 % of published tables
 * @source `freeAirAmpacity`, `groupedCablesAmpacity`, `conduitAmpacity`, `bundleFactorModel`
 * @example clipped to a wall a 25 mm² PVC single carries a little less than free
 * ampacityLying({ metal: "copper", at20: ohmsPerMetre(0.727e-3), conductorDiameter: metres(6.4e-3), outsideDiameter: metres(9.7e-3), resistivity: 5 }, { way: "touching", arrangement: "single cable clipped to a wall" }, celsius(70), { ambientC: celsius(30) }) //=> 133.6
 */
export function ampacityLying(
  conductor: ThermalConductor,
  lies: HeatWay,
  conductorC: Celsius,
  around: Surroundings,
): Amps {
  switch (lies.way) {
    case "free air":
      return freeAirAmpacity({ ...conductor, ...around, conductorC });
    case "touching":
      return groupedCablesAmpacity({
        ...conductor,
        arrangement: lies.arrangement,
        conductorC,
        ambientC: around.ambientC,
      });
    case "conduit":
      return conduitAmpacity({ ...conductor, ...lies, conductorC, ambientC: around.ambientC });
    case "bundle": {
      const given = { ...conductor, ...around, ...lies, conductorC };
      return amps(freeAirAmpacity(given) * bundleFactorModel(given));
    }
    case "wrapped":
      return freeAirAmpacity({ ...wrapped(conductor, lies.thickness), ...around, conductorC });
  }
}

/**
 * Temperature that a conductor settles at with a current, however it lies.
 *
 * Ignores the same as `ampacityLying`, whose inverse it is.
 *
 * @param current in each conductor, A; ≥ 0
 * @returns °C of the metal; 250 means 250 or more
 * @accuracy about ±10 % of the rise in free air, groups and conduits, ±20 % in bundles
 * @source as {@link ampacityLying}
 * @example three 2 AWG conductors in steel tubing at the 115 A of NEC 310.16: the 75 °C of its column
 * temperatureLying({ metal: "copper", at20: ohmsPerMetre(0.5234e-3), conductorDiameter: metres(7.42e-3), outsideDiameter: metres(9.75e-3), resistivity: 5 }, { way: "conduit", cables: 3, conduit: "metal", conduitOutside: metres(38.4e-3), arrangement: "single cable" }, amps(115), { ambientC: celsius(30) }) //=> 75.0
 */
export function temperatureLying(
  conductor: ThermalConductor,
  lies: HeatWay,
  current: Amps,
  around: Surroundings,
): Celsius {
  if (lies.way === "free air") return conductorTemperatureFreeAir({ ...conductor, ...around, current });
  if (lies.way === "wrapped")
    return conductorTemperatureFreeAir({ ...wrapped(conductor, lies.thickness), ...around, current });
  if (lies.way === "bundle") {
    // The lesser of what it may carry alone and in the even bundle, so the hotter of the two.
    const alone = conductorTemperatureFreeAir({ ...conductor, ...around, current });
    if (lies.count === 1) return alone;
    const wire = { ...conductor, current: amps(current * Math.sqrt(lies.loaded ?? 1)) };
    const together = bundleTemperature(Array<BundledWire>(lies.count).fill(wire), { ...around, ...lies });
    return together > alone ? together : alone;
  }
  const coldest = Math.min(around.ambientC, around.wallC ?? around.ambientC);
  if (ampacityLying(conductor, lies, HOTTEST, around) <= current) return HOTTEST;
  return celsius(
    bisect((conductorC) => ampacityLying(conductor, lies, celsius(conductorC), around) - current, coldest, HOTTEST),
  );
}
