import type { CircuitDesign, SizeOnPaper } from "../../size/index.ts";
import { stockedSizes } from "../../wire/stocked-sizes.ts";
import type { KeyPath } from "../contract.ts";
import type { PagePlan, PageThing } from "../worker/protocol.ts";

/** The circuit that is asked about, whatever of it: `W12`, `W12.drop`, `W12@at anchor`; null: something else is. */
export function circuitOf(subject: string, { design }: PagePlan): CircuitDesign | null {
  const fits = design.circuits.filter(
    ({ id }) => subject === id || subject.startsWith(`${id}.`) || subject.startsWith(`${id}@`),
  );
  // Of two names that fit, one begins with the other.
  return fits.sort((a, b) => b.id.length - a.id.length)[0] ?? null;
}

/** Sizes on sale of the kind that a circuit has. */
export function sizesBeside(circuit: CircuitDesign | null, { stockSizes }: PagePlan): readonly SizeOnPaper[] {
  const label = circuit?.size?.label;
  const systems = [stockSizes, "mm²", "AWG", "SAE"] as const;
  const system = systems.find((s) => label !== undefined && stockedSizes(s).some((size) => size.label === label));
  return stockedSizes(system ?? stockSizes);
}

/** The next thinner and the next thicker size on sale. */
export function neighbours(
  { areaMm2 }: SizeOnPaper,
  onSale: readonly SizeOnPaper[],
): { readonly smaller: SizeOnPaper | null; readonly larger: SizeOnPaper | null } {
  return {
    smaller: onSale.findLast((s) => s.areaMm2 < areaMm2 - 1e-9) ?? null,
    larger: onSale.find((s) => s.areaMm2 > areaMm2 + 1e-9) ?? null,
  };
}

/** The thing of the plan that a line such as `W12, length: 8.6 m` speaks of. */
export function thingIn(says: string, things: readonly PageThing[]): PageThing | null {
  const fits = things.filter(({ id }) => says.startsWith(`${id}, `) || says.startsWith(`${id}:`) || says === id);
  const named = fits.sort((a, b) => b.id.length - a.id.length)[0];
  return named ?? things.find(({ about }) => says === about || says.startsWith(`${about}:`)) ?? null;
}

/** The thing that an assumption is of first; null: of the whole plan. */
export function assumedOf(says: string, { design, things }: PagePlan): KeyPath | null {
  const names = design.assumptions.find((a) => a.says === says)?.about ?? [];
  return things.find(({ id, what }) => names.includes(id) && (what === "part" || what === "circuit"))?.about ?? null;
}

/** The circuit before or behind in the order of the plan, going round. */
export function circuitBeside(subject: string, plan: PagePlan, by: 1 | -1): string | null {
  const { circuits } = plan.design;
  const at = circuits.findIndex((c) => c.id === circuitOf(subject, plan)?.id);
  const next = at < 0 ? circuits[0] : circuits.at((at + by) % circuits.length);
  return next?.id ?? null;
}

/** Names in backticks of a hint: what may have been meant. */
export const namesIn = (hint: string): readonly string[] =>
  [...hint.matchAll(/`([^`]+)`/g)].flatMap(([, name]) => (name === undefined || name.startsWith("--") ? [] : [name]));
