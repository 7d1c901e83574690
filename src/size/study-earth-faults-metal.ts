import { usualFaultInsulation } from "../ampacity/thermal/index.ts";
import {
  loopImpedance,
  NO_IMPEDANCE,
  type Impedance,
  type ImpedanceRange,
  type LoopConductor,
} from "../protect/earth-fault/impedance.ts";
import type { ProtectiveInsulation } from "../protect/earth-fault/protective-size.ts";
import type { Conductor, SystemCircuit } from "../system/index.ts";
import { groundSize } from "../wire/geometry/ground-size.ts";
import { resistancePerMetre20, sizeOfPrint, type ConductorMake, type WireSize } from "../wire/index.ts";
import { makeOf } from "./ladder.ts";
import type { Hop } from "./study-earth-faults-ways.ts";

/** Sizes of a circuit of alternating current. */
export interface AlternatingSizes {
  readonly live: WireSize;
  readonly protective: WireSize;
  /** Whether the size of the protective conductor is told, not taken as usual for the cable. */
  readonly isProtectiveTold: boolean;
}

/**
 * Sizes of a circuit as the plan or the label of its cable gives them: what stands in for a choice.
 *
 * Its protective conductor follows the live ones, but for cables whose earth is thinner by their label or by habit.
 *
 * @returns null where nobody says it
 */
export function statedSizes({ size, cable }: SystemCircuit): AlternatingSizes | null {
  const label = cable?.label ?? null;
  const live = size !== undefined && size !== "unknown" ? size : (label?.size ?? null);
  if (live === null) return null;
  const same: AlternatingSizes = { live, protective: live, isProtectiveTold: true };
  if (label === null || label.make.size === null) return same;
  const { cores, make } = label;
  if (cores.groundSize !== null) return { ...same, protective: sizeOfPrint(cores.groundSize) ?? live };
  if (cores.ground !== "bare" && cores.ground !== "concentric") return same;
  const usual = sizeOfPrint(groundSize(make, label.make.size, []));
  return { live, protective: usual ?? live, isProtectiveTold: usual?.label === live.label };
}

/** A hop of a loop: its impedance, and whether that is known. */
export interface HopImpedance {
  readonly range: ImpedanceRange;
  readonly isKnown: boolean;
  /** Null: no conductor, or nobody knows it. */
  readonly laid: LaidConductor | null;
}

/** A conductor as it counts in a loop, and what it is made as. */
export interface LaidConductor extends LoopConductor {
  readonly make: ConductorMake;
}

const NOTHING: HopImpedance = { range: { cold: NO_IMPEDANCE, hot: NO_IMPEDANCE }, isKnown: true, laid: null };
const UNKNOWN: HopImpedance = { ...NOTHING, isKnown: false };

/** Resistance of a metre of a make at 20 °C, each make looked up once. */
export function perMetre(): (make: ConductorMake) => number {
  const looked = new Map<string, number>();
  return (make) => {
    const key = `${make.size.label} ${make.metal} ${make.plating} ${make.strands}`;
    let ohms = looked.get(key);
    if (ohms === undefined) looked.set(key, (ohms = resistancePerMetre20(make).ohmsPerMetre));
    return ohms;
  };
}

/**
 * Impedance of a conductor of a circuit: cold at 20 °C, hot at what its insulation bears.
 *
 * @param hertz of its supply
 * @param ohmsOf Ω of a metre at 20 °C
 */
export function conductorImpedance(
  circuit: SystemCircuit,
  conductor: Conductor,
  sizes: AlternatingSizes | null,
  hertz: number,
  ohmsOf: (make: ConductorMake) => number,
): HopImpedance {
  if (sizes === null || conductor.length.origin === "unknown") return UNKNOWN;
  const like = makeOf(circuit);
  const make: ConductorMake = { ...like, size: conductor.role === "protective" ? sizes.protective : sizes.live };
  const laid: LaidConductor = {
    make,
    metal: like.metal,
    ohmsPerMetre20: ohmsOf(make),
    metres: { low: conductor.length.low, high: conductor.length.high },
    parallel: circuit.parallel,
    hotC: circuit.insulationC.low,
    hertz,
  };
  return { range: loopImpedance(laid), isKnown: true, laid };
}

/** Hops in series. */
export function sumHops(
  hops: readonly Hop[],
  of: (hop: Hop) => HopImpedance,
): Omit<HopImpedance, "laid"> & { readonly untold: readonly number[] } {
  const add = (a: Impedance, b: Impedance): Impedance => ({ r: a.r + b.r, x: a.x + b.x });
  let range = NOTHING.range;
  const untold: number[] = [];
  for (const hop of hops) {
    const one = of(hop);
    if (!one.isKnown && !untold.includes(hop.circuit)) untold.push(hop.circuit);
    range = { cold: add(range.cold, one.range.cold), hot: add(range.hot, one.range.hot) };
  }
  return { range, isKnown: untold.length === 0, untold };
}

/** Impedance of what is no conductor. */
export const insideParts: HopImpedance = NOTHING;

/** The insulation whose k counts for a circuit: the next poorer one that is tabulated. */
export function protectiveInsulation({ insulationC }: SystemCircuit): ProtectiveInsulation {
  if (usualFaultInsulation(insulationC.low) === "thermosetting") return "90 °C thermosetting";
  return insulationC.low > 70 ? "90 °C thermoplastic" : "70 °C thermoplastic";
}
