import type { CircuitView } from "../rules/index.ts";
import { compareSizes, stockedSizes, type WireSize } from "../wire/index.ts";
import type { Case } from "./case.ts";

/** At most so many steps are tried, and then the size that the constraints ask for. */
const STEPS = 3;

/**
 * Sizes on sale that are thicker than a circuit has: the next ones, and the one that its constraints ask for.
 *
 * @returns labels, thin first; none where its size is not known
 */
export function thickerSizes({ build }: Pick<Case, "build">, { circuit, design }: CircuitView): readonly string[] {
  const now = design.size;
  if (now === null || circuit.size === "unknown") return [];
  const { stock } = build.system;
  const system = circuit.size?.system ?? stock.system;
  const sale: readonly WireSize[] =
    stock.sizes.length > 0 && stock.system === system ? stock.sizes : stockedSizes(system === "kcmil" ? "AWG" : system);
  const thicker = sale.filter((s) => s.areaMm2 > now.areaMm2).sort(compareSizes);
  const asked = Math.max(0, ...design.constraints.map((c) => c.alone?.areaMm2 ?? 0));
  const last = thicker.find((s) => s.areaMm2 >= asked);
  const next = thicker.slice(0, STEPS);
  const beyond = last === undefined || next.includes(last) ? [] : [last];
  return [...next, ...beyond].map((s) => s.label);
}
