import type { Citation } from "../explain/index.ts";
import { parallelRules } from "../ruleset/parallel-conductors.ts";
import type { System } from "../system/index.ts";
import { stockedSizes } from "../wire/index.ts";
import { settleChanged, sizeOf, withCircuit } from "./change-system.ts";
import type { Settled } from "./settled.ts";
import { unmetAt } from "./unmet-at.ts";

/** Equal conductors in parallel for a circuit that no single size on sale is enough for. */
export interface ParallelProposal {
  readonly count: number;
  /** Size of each, as it is printed. */
  readonly size: string;
  /** What lets them be run in parallel. */
  readonly source: Citation;
}

/** More than this nobody lands on one stud. */
const MOST_PARALLEL = 4;

/**
 * Looks for the fewest equal conductors in parallel that are enough where no single size on sale is. A proposal: the design stays as it is until the plan says
 * `parallel`. Only sizes from the least that the rule set lets lie in parallel are looked at. Settles the build up to three times.
 *
 * @param index of the circuit in the system
 * @returns null where a single size is enough, the plan has stated parallel conductors already, or no number up to four is enough
 */
export function proposeParallel(
  system: System,
  settled: Pick<Settled, "model" | "chosen">,
  index: number,
): ParallelProposal | null {
  const circuit = system.circuits[index];
  const position = settled.model.at[index] ?? -1;
  const rungs = settled.model.circuits[position]?.rungs ?? null;
  if (circuit === undefined || rungs === null) return null;
  if (circuit.size !== undefined || circuit.parallel > 1 || settled.chosen.short[position] !== 1) return null;
  const asked = (rungs.bySet ?? [rungs]).map((each) => parallelRules(each.ruleSet.id));
  const [rule] = asked.sort((a, b) => b.least.areaMm2 - a.least.areaMm2);
  if (rule === undefined) return null;
  const { least, source } = rule;
  const shelf = system.stock.sizes.length > 0 ? system.stock.sizes : stockedSizes(system.stock.system);
  const thick = shelf.filter((s) => s.areaMm2 >= least.areaMm2 * (1 - 1e-9));
  for (let count = 2; count <= MOST_PARALLEL; count++) {
    const chosen = withCircuit(system, index, { parallel: count });
    const label = sizeOf(settleChanged(chosen), index);
    if (label === null || unmetAt(chosen, index).length > 0) continue;
    const size = thick.find((s) => s.label === label);
    if (size !== undefined) return { count, size: label, source };
    // Enough would be thinner than may lie in parallel.
    const [first] = thick;
    const pinned = first === undefined ? null : withCircuit(system, index, { parallel: count, size: first });
    if (first !== undefined && pinned !== null && unmetAt(pinned, index).length === 0) {
      return { count, size: first.label, source };
    }
  }
  return null;
}
