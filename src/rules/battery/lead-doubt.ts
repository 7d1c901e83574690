import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { numbersNeeded } from "../lacks-numbers.ts";
import { needed } from "../report.ts";
import { wireNeeded } from "../wire-needed.ts";
import type { Bank } from "./banks.ts";
import { leadsAt } from "./lead-ohms.ts";

/** What is not known of the conductors at the terminals of a bank's units, without which nobody can say how its current divides. */
export function leadDoubt(build: Build, bank: Bank): readonly Needed[] {
  if (bank.abreast.every((n) => n < 2)) return [];
  const needs = new Map<string, Needed>();
  for (const view of new Set(bank.units.flatMap((u) => leadsAt(build, u)))) {
    const { circuit, subject, run, id } = view;
    const numbers = numbersNeeded(build, view);
    const own = [
      ...(numbers === null ? [] : [numbers]),
      ...(circuit.size === "unknown" ? [wireNeeded(view, `the wire of ${id}`)] : []),
      ...(run.lengthM.origin === "unknown" ? [needed(`the length of ${id}`, subject)] : []),
    ];
    for (const need of own) needs.set(`${need.about} ${need.fact}`, need);
  }
  return [...needs.values()];
}
