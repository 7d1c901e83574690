import type { Build } from "../build.ts";
import type { Bank } from "./banks.ts";

/** Nominal volts between the ends of a bank: those of its units, from its minus to its plus. */
export function bankVolts(build: Build, bank: Bank): number {
  const { stores } = build.settled.model.grid;
  const at = (node: number): number => bank.pieces[node] ?? -1;
  let volts = 0;
  let end = bank.plus;
  // A ring of units would never end.
  for (let steps = 0; steps < bank.units.length && end !== bank.minus; steps++) {
    const unit = bank.units.map((i) => stores[i]).find((s) => s !== undefined && at(s.plus) === end);
    if (unit === undefined) break;
    volts += unit.element.nominalVolts;
    end = at(unit.minus);
  }
  return volts;
}

/** So many times twelve volts: a bank of LFP cells has 12.8 V for each. */
export function twelves(build: Build, bank: Bank): number {
  const first = build.settled.model.grid.stores[bank.units[0] ?? -1]?.element;
  return bankVolts(build, bank) / (first?.curve === "LFP" ? 12.8 : 12);
}
