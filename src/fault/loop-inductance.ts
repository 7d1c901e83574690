import { sourceFigure } from "./sources/source-figure.ts";
import type { Range } from "./sources/store-source.ts";
import type { SolvedFault } from "./solve-fault.ts";

/**
 * Time constant of a fault: how long its current takes to come to 63 % of what it will be.
 *
 * Inductance of the loop by the energy of its field: half that of a metre of pair for each metre of conductor, by the square of its share of the current; over the
 * resistance that the place sees. Exact for one loop; of several in parallel it is that of the current as it divides when steady. Ignores the inductance of
 * the sources, which is less than that of a metre of pair, and returns through a hull, whose loop is wider.
 *
 * @param metres by edge, of conductor
 * @returns s
 * @source `reference/protection/source_fault_current.csv`, inductance of a metre of pair: (µ0 ÷ π)(ln(d ÷ r) + 0.25)
 */
export function timeConstant(fault: SolvedFault, metres: Float64Array): Range {
  let sum = 0;
  for (const { edge, atA, atB } of fault.flows) {
    const share = Math.max(Math.abs(atA), Math.abs(atB)) / Math.abs(fault.amps);
    sum += (metres[edge] ?? 0) * share * share;
  }
  const { low, high } = pair();
  const perOhm = sum / 2 / fault.ohms / 1e6;
  return { low: low * perOhm, high: high * perOhm };
}

let figure: Range | undefined;
const pair = (): Range => (figure ??= sourceFigure("pair of conductors, close inductance of a metre of pair"));
