import { celsius, type Celsius, type Metres } from "../../quantity/index.ts";
import { resistanceRise } from "../../wire/index.ts";
import { BUNDLE_CONDUCTIVITY, bundleTemperature, type BundledWire, type Packing } from "./bundle.ts";
import { conductorTemperatureFreeAir, HOTTEST } from "./free-air.ts";
import type { Surroundings } from "./surface-loss.ts";

/** A wire of a bundle; what stands between its metal and its outside counts only where it lies alone. */
export interface LaidWire extends BundledWire {
  readonly conductorDiameter: Metres;
  /** Of its insulation, K·m/W. */
  readonly resistivity: number;
}

/** What a bundle comes to. */
export interface BundleHeat {
  /** Of the metal of each wire, if it is the one that lies in the middle, °C; in the order given. */
  readonly wiresC: readonly Celsius[];
  /** With all heat spread evenly. */
  readonly middleC: Celsius;
  /** Σ I²·R, W for each metre. */
  readonly wattsPerMetre: number;
}

/**
 * Temperature of each wire of a bundle of unlike wires that carry unlike currents at the same time.
 *
 * Each is taken as the one in the middle, with the others spread evenly around it: its own heat goes through all of the bundle, theirs on average
 * through half. Nobody knows where in a loom a wire lies; away from the middle it is cooler than told, next to another hot one it may be hotter.
 * Wires of one bundle are taken to lie together over a length of many diameters.
 *
 * @param wires all that lie together, idle ones too; at least one
 * @returns °C; 250 means 250 or more
 * @throws RangeError for no wire, a defect of the caller
 * @accuracy about ±20 K at a rise of 100 K, as measured bundles show; with equal currents that of `bundleTemperature`, alone that of a wire in free air
 * @source heat conduction in a cylinder: an evenly heated ring around a heated core, under the surface loss of a lone wire; conductivity of the bundle fitted to published factors
 * @example one of twelve wires at 30 A among idle ones
 * bundledTemperatures(Array.from({ length: 12 }, (_, i) => ({ metal: "copper", at20: ohmsPerMetre(5.345e-3), conductorDiameter: metres(2.32e-3), outsideDiameter: metres(3.84e-3), resistivity: 3.5, current: amps(i === 0 ? 30 : 0) })), { ambientC: celsius(30) }).wiresC[0] //=> 46.6
 */
export function bundledTemperatures(wires: readonly LaidWire[], given: Surroundings & Packing): BundleHeat {
  const [first] = wires;
  if (first !== undefined && wires.length === 1) {
    const alone = conductorTemperatureFreeAir({ ...first, ...given });
    const watts = first.current ** 2 * first.at20 * resistanceRise(first.metal, alone);
    return { wiresC: [alone], middleC: alone, wattsPerMetre: watts };
  }
  const middleC = bundleTemperature(wires, given);
  let total = 0;
  let square = 0;
  const heats = wires.map((wire) => {
    const heat = wire.current ** 2 * wire.at20 * resistanceRise(wire.metal, middleC);
    total += heat;
    square += wire.outsideDiameter ** 2;
    return heat;
  });
  if (middleC >= HOTTEST) return { wiresC: wires.map(() => HOTTEST), middleC, wattsPerMetre: total };
  const { conductivity = BUNDLE_CONDUCTIVITY } = given;
  const few = wires.length <= 3;
  // In two or three wires each touches the air: half the way, as in the even bundle.
  const way = (few ? 0.5 : 1) / (Math.PI * conductivity);
  const surfaceC = middleC - (total * way) / 4;
  const wiresC = wires.map((wire, i): Celsius => {
    // Share of the cross-section, its part of the gaps counted.
    const share = wire.outsideDiameter ** 2 / square;
    const heat = heats[i] ?? 0;
    // As if all were heated as the others are, and what it has beyond that flowing from its own middle to the edge of the bundle.
    const even = (total - heat) / (1 - share);
    const outwards = (way / 4) * (1 + Math.log(1 / share));
    // Its own heat rises with its own temperature, and in a line, so that no search is needed.
    const at0 = wire.current ** 2 * wire.at20 * resistanceRise(wire.metal, 0);
    const slope = wire.current ** 2 * wire.at20 * (resistanceRise(wire.metal, 1) - resistanceRise(wire.metal, 0));
    if (slope * outwards >= 1) return HOTTEST;
    const settled = (surfaceC + (even * way) / 4 + (at0 - even * share) * outwards) / (1 - slope * outwards);
    return celsius(Math.min(HOTTEST, settled));
  });
  return { wiresC, middleC, wattsPerMetre: total };
}
