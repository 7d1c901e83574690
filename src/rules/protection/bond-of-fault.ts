import type { EndFault, EndFaults } from "../../size/index.ts";
import type { Build, CircuitView } from "../build.ts";

/** A bond by which a short comes back, and what it bears. */
export interface BondOfFault {
  readonly view: CircuitView;
  /** The metal that the short is to. */
  readonly metal: string;
  /** k²S², A²s; null: not known. */
  readonly limit: number | null;
}

/**
 * The bond by which a short to hull, chassis or frame comes back: of those that land on that metal the one that hinders least.
 *
 * @returns null: the short is to a return, or no bond of which the size is known lands there
 */
export function bondOfFault(build: Build, study: EndFaults, { to, against }: EndFault): BondOfFault | null {
  if (to !== "structure") return null;
  const { grid, circuits } = build.settled.model;
  const node = grid.nodeOf(against);
  let best: { found: BondOfFault; ohms: number } | null = null;
  for (const { lead, position } of build.settled.leads ?? []) {
    if (lead.to !== "metal" || grid.nodeOf(`${lead.part}:pole`) !== node) continue;
    const view = build.circuit(circuits[position]?.circuit.id ?? "");
    const area = view?.design.size?.areaMm2;
    if (view === undefined || area === undefined) continue;
    const ohms = view.run.lengthM.high / (area * view.circuit.parallel);
    const own = study.circuits.find((c) => c?.circuit === view.id);
    const limit = own?.conductors[0]?.withstand.limit ?? null;
    if (best === null || ohms < best.ohms) best = { found: { view, metal: lead.part, limit }, ohms };
  }
  return best?.found ?? null;
}
