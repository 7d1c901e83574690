import type { CircuitModel } from "./model.ts";
import type { Settled } from "./settled.ts";

/** What guards a return that is a circuit of its own, in words; null: it is none, or nothing does. */
export function guardedReturn({ devices, model }: Settled, c: CircuitModel, i: number): string | null {
  const own = devices.circuits[i];
  if (own === undefined || own.guardedBy.length === 0) return null;
  const a = (amps: number): string => `${Number(amps.toPrecision(3))} A`;
  const names = own.guardedBy.slice(0, 3).join(", ") + (own.guardedBy.length > 3 ? ", …" : "");
  const of = model.circuits[c.returnOf]?.circuit.id;
  const brings = of === undefined ? "" : `the return of ${of}${c.leader < 0 ? "" : ", of its size"}; `;
  const ratings = own.guards.flatMap(({ rating }) => rating ?? []);
  if (ratings.length > 0) return `${brings}guarded by the device of ${names}, ${a(Math.min(...ratings))}`;
  if (own.answersFor === 0) return `${brings}guarded by the device of ${names}, of unknown rating`;
  const together = own.guardedBy.length > 1 ? " together" : "";
  return `${brings}carries what the device of ${names} lets through, ${a(own.answersFor)}${together}`;
}
