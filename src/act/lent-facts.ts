import { foldName, known } from "../plan/index.ts";
import type { CompiledPlan } from "../cure/try-edits.ts";

/** What a label leaves open and the plan lends: a wire that is judged as tinned may not be. Null: the label says all of it. */
export function lentFacts({ plan, system }: CompiledPlan, id: string, field: "wire" | "cable"): string | null {
  const item = plan.circuits.find(({ key }) => foldName(key) === foldName(id));
  const circuit = system.circuits.find((c) => foldName(c.id) === foldName(id));
  const make = (field === "wire" ? known(item?.facts.wire) : known(item?.facts.cable))?.make;
  if (item === undefined || circuit === undefined || make === undefined) return null;
  const isOpen = make.metal === null || (make.metal === "copper" && make.plating === null);
  const lent: readonly (readonly [key: string, value: string])[] = [
    ...(isOpen ? [["metal", circuit.metal] as const] : []),
    ...(make.stranding?.name == null ? [["strands", circuit.strands] as const] : []),
    ...(make.temperatureC === null ? [["insulation", `rated ${circuit.insulationC.low} °C`] as const] : []),
  ];
  if (lent.length === 0) return null;
  const isOwn = lent.some(([key]) => item.keys[key] !== undefined);
  return `taken as ${lent.map(([, value]) => value).join(", ")}, as the plan's ${isOwn ? "circuit or stock" : "stock"} is: the label does not say it`;
}
