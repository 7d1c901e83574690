import { conductorResistance, isStrands, resistancePerMetre20 } from "../../wire/index.ts";
import { celsius, metres, ohmsPerMetre } from "../../quantity/index.ts";
import type { WireSize, ConductorMake } from "../../wire/index.ts";
import type { CircuitView } from "../build.ts";
import type { MetalEdge } from "./metal.ts";

/** Metal that carries next to nothing is as warm as the air around it, °C. */
const COLD = 20;

/** The size of a circuit as far as the plan says it. */
export const sizeOf = ({ circuit }: CircuitView): WireSize | null =>
  circuit.size === undefined || circuit.size === "unknown" ? null : circuit.size;

/** The make of a conductor whose size the plan gives; null: it gives none. */
export function makeOfBond({ circuit }: CircuitView, size: WireSize | null): ConductorMake | null {
  if (size === null) return null;
  return {
    size,
    metal: circuit.metal === "aluminium" ? "aluminium" : "copper",
    plating: circuit.metal === "tinned copper" ? "tinned" : "plain",
    strands: isStrands(circuit.strands) ? circuit.strands : "class 5",
  };
}

/** Ω of a bonding conductor; null: its size is not stated. */
export function bondOhms({ view, conductor }: MetalEdge): number | null {
  const make = view === undefined ? null : makeOfBond(view, sizeOf(view));
  if (view === undefined || make === null || conductor === undefined) return null;
  const { ohmsPerMetre: at20 } = resistancePerMetre20(make);
  const length = metres(conductor.length.high);
  return (
    conductorResistance({ metal: make.metal, at20: ohmsPerMetre(at20), length, conductorC: celsius(COLD) }) /
    view.circuit.parallel
  );
}
