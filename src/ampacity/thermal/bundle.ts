import { cite, formula } from "../../explain/index.ts";
import { celsius, type Amps, type Celsius, type Metres, type OhmsPerMetre } from "../../quantity/index.ts";
import { resistanceRise, type Metal } from "../../wire/index.ts";
import { bisect } from "./bisect.ts";
import { freeAirAmpacity, HOTTEST, type FreeAirInput } from "./free-air.ts";
import { surfaceLoss, type Surroundings } from "./surface-loss.ts";

/** How wires lie in a bundle. */
export interface Packing {
  /** Share of the bundle's cross-section that is wire, 0…1: 0.75 loose, where left out; 0.8 tied. */
  readonly packed?: number;
  /** Conductivity of wire and air gaps together, W/(m·K): 0.1 loose to 0.25 tight; 0.2 where left out. */
  readonly conductivity?: number;
}

const PACKED = 0.75;
/** Of wire and gaps together, W/(m·K), where nothing is known of the loom. */
export const BUNDLE_CONDUCTIVITY = 0.2;

/**
 * Outside diameter of a bundle of equal wires.
 *
 * @param count 1…
 * @param wireDiameter over the insulation, m
 * @source geometry: two and three touching wires as rounds of the same circumference in contact with air, more by area
 */
export function bundleDiameter(count: number, wireDiameter: number, packed = PACKED): number {
  if (count === 1) return wireDiameter;
  if (count === 2) return 1.65 * wireDiameter;
  if (count === 3) return 2.15 * wireDiameter;
  return wireDiameter * Math.sqrt(count / packed);
}

/** Rise from the outside of a bundle to its middle for each W/m: evenly heated round; in two or three wires each touches the air. */
const innerResistance = (count: number, conductivity: number): number =>
  1 / ((count <= 3 ? 8 : 4) * Math.PI * conductivity);

const source = cite(
  "own-derivation",
  "evenly heated round bundle; conductivity fitted to published bundle factors",
  "derived",
);

/** A bundle of equal wires, some of them loaded alike. */
export interface BundleInput extends FreeAirInput, Packing {
  /** Wires in the bundle; 1…200. */
  readonly count: number;
  /** Share of them that carries current, 0…1; all where left out. */
  readonly loaded?: number;
}

/**
 * What each loaded wire of a bundle may carry, as a share of what it would carry alone.
 *
 * All wires are equal and the loaded ones carry the same. The published factors fall slower above about ten wires, because they trust that most idle.
 *
 * @returns 0…1; 1 for a wire alone
 * @accuracy within −10…+15 % of the published small-craft factors for 3 to 8 wires
 * @source heat conduction in an evenly heated cylinder under the surface loss of {@link freeAirAmpacity}
 * @example seven 12 AWG boat wires, all loaded; the rule sets print 0.5 and 0.6
 * bundleFactorModel({ count: 7, metal: "copper", at20: ohmsPerMetre(5.345e-3), conductorDiameter: metres(2.32e-3), outsideDiameter: metres(3.84e-3), resistivity: 3.5, conductorC: celsius(105), ambientC: celsius(30) })
 * //=> 0.532
 */
export const bundleFactorModel = formula(
  {
    id: "bundle-factor-model",
    equation: "k = √(q / (f·n·R)) / I1, Tc = Ts + q / (4π·kb), q from the surface at Ts, Db = De·√(n / p)",
    source,
    symbols: {
      ...freeAirAmpacity.meta.symbols,
      count: { symbol: "n", unit: "", meaning: "wires in the bundle" },
      loaded: { symbol: "f", unit: "", meaning: "share of them that carries current" },
      packed: { symbol: "p", unit: "", meaning: "share of the cross-section that is wire" },
      conductivity: { symbol: "kb", unit: "W/(m·K)", meaning: "heat conductivity of the bundle" },
    },
    unit: "",
  },
  (given: BundleInput): number => {
    const {
      count,
      loaded = 1,
      packed,
      conductivity = BUNDLE_CONDUCTIVITY,
      conductorC,
      outsideDiameter,
      at20,
      metal,
    } = given;
    const alone = freeAirAmpacity(given);
    if (count === 1 || alone === 0) return 1;
    const diameter = bundleDiameter(count, outsideDiameter, packed);
    const inner = innerResistance(count, conductivity);
    const coldest = Math.min(given.ambientC, given.wallC ?? given.ambientC);
    const surfaceC = bisect((t) => surfaceLoss(diameter, t, given) - (conductorC - t) / inner, coldest, conductorC);
    const lossPerMetre = surfaceLoss(diameter, surfaceC, given);
    const each = Math.sqrt(lossPerMetre / (loaded * count * at20 * resistanceRise(metal, conductorC)));
    return Math.min(1, each / alone);
  },
);

/** One wire of a bundle with the current it carries. */
export interface BundledWire {
  readonly metal: Metal;
  /** At 20 °C. */
  readonly at20: OhmsPerMetre;
  /** Over the insulation. */
  readonly outsideDiameter: Metres;
  /** 0 for an idle wire, which still fills space. */
  readonly current: Amps;
}

/**
 * Temperature in the middle of a bundle of unlike wires with unlike currents.
 *
 * The heat is taken as even over the cross-section: a single hot wire at the middle is hotter than this, idle neighbours help it.
 *
 * @param wires all that lie together, idle ones too; at least one
 * @returns °C; 250 means 250 or more
 * @accuracy about ±20 K at a rise of 100 K, as measured bundles show
 * @source as {@link bundleFactorModel}, with the sum of I²·R over the wires
 * @example twelve 12 AWG wires at 10 A each
 * bundleTemperature(Array.from({ length: 12 }, () => ({ metal: "copper", at20: ohmsPerMetre(5.345e-3), outsideDiameter: metres(3.84e-3), current: amps(10) })), { ambientC: celsius(30) })
 * //=> 44.9
 */
export function bundleTemperature(wires: readonly BundledWire[], given: Surroundings & Packing): Celsius {
  const { packed = PACKED, conductivity = BUNDLE_CONDUCTIVITY, ambientC, wallC = ambientC } = given;
  let square = 0;
  for (const wire of wires) square += wire.outsideDiameter ** 2;
  const first = wires[0];
  if (first === undefined) throw new RangeError("a bundle needs at least one wire");
  const diameter =
    wires.length <= 3 ? bundleDiameter(wires.length, Math.sqrt(square / wires.length)) : Math.sqrt(square / packed);
  const inner = wires.length === 1 ? 0 : innerResistance(wires.length, conductivity);
  const heat = (middleC: number): number => {
    let sum = 0;
    for (const { current, at20, metal } of wires) sum += current ** 2 * at20 * resistanceRise(metal, middleC);
    return sum;
  };
  const coldest = Math.min(ambientC, wallC);
  const unmet = (middleC: number): number => {
    const made = heat(middleC);
    const surfaceC = middleC - made * inner;
    // A surface colder than everything around it gives nothing away: the middle must be hotter yet.
    return (surfaceC > coldest ? surfaceLoss(diameter, surfaceC, given) : 0) - made;
  };
  return unmet(HOTTEST) <= 0 ? HOTTEST : celsius(bisect(unmet, coldest, HOTTEST));
}
