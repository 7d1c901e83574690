import {
  resistancePerMetre20,
  type ConductorMake,
  type SizeSystem,
  type Strands,
  type WireSize,
} from "../wire/index.ts";

/** Systems whose areas are those of the metal, under one gauge law: within them areas compare. */
const isGauge = (system: SizeSystem): boolean => system === "AWG" || system === "kcmil";

/** Whether two sizes are told by the same measure, so that their areas compare. */
export const sameSystem = (a: SizeSystem, b: SizeSystem): boolean => a === b || (isGauge(a) && isGauge(b));

/**
 * Whether a conductor is at least as good as a size that a table or a rule names.
 *
 * Within one system areas decide. Between systems labels and areas mislead (a 2.5 mm² class 5 core may hold 2.16 mm² of copper), so the resistance
 * at 20 °C decides: the conductor's may not exceed that of the named size with the same metal and plating and the strands that the table is made for.
 *
 * @param strands of the conductors that the table or the rule is made for
 * @example a 2 AWG boat cable is no thinner than a 35 mm² one, though its label is 4 % smaller
 * isNoThinner({ size: awgSize("2"), metal: "copper", plating: "tinned", strands: "type 3" }, metricSize(35), "class 5") //=> true
 * isNoThinner({ size: awgSize("6"), metal: "copper", plating: "tinned", strands: "type 3" }, metricSize(16), "class 5") //=> false
 */
export function isNoThinner(make: ConductorMake, size: WireSize, strands: Strands): boolean {
  if (sameSystem(make.size.system, size.system)) return make.size.areaMm2 >= size.areaMm2;
  const named = resistancePerMetre20({ ...make, size, strands });
  return resistancePerMetre20(make).ohmsPerMetre <= named.ohmsPerMetre;
}
