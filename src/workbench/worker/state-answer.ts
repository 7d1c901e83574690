import type { StateDesign } from "../../size/index.ts";
import type { GivenState, Store, System, Value } from "../../system/index.ts";

/** A state in a few figures: what leaves the bank, at what volts, and how long it lasts so. */
export interface StateAnswer {
  /** Of the least charged bank that pushes, 0 … 1; null: the state does not say. */
  readonly charge: number | null;
  /** Out of all batteries together, A; negative: into them. Null: the state could not be solved. */
  readonly bankA: number | null;
  /** At the terminals of the battery that gives or takes most. */
  readonly bankV: number | null;
  /** At this current, until the least of them is at its lowest charge; null: none is being emptied, or the capacity is not known. */
  readonly hours: number | null;
  /** The charge at which that count ends. */
  readonly downTo: number | null;
}

/** A current below this is rounding of the solution. */
const NOTHING_A = 1e-6;

/**
 * Works out the figures of a state.
 *
 * Ignores that volts fall as a bank empties, that its capacity shrinks with current, cold and age, and that loads come and go.
 */
export function answerState(design: StateDesign | undefined, given: GivenState, system: System): StateAnswer {
  const stores = system.elements.filter((e): e is Store => e.is === "store");
  const told = design?.converged === true ? design.sources : [];
  const at = stores.map((store) => ({ store, source: told.find(({ part }) => part === store.part) }));
  const working = at.filter(({ source }) => Math.abs(source?.amps ?? 0) > NOTHING_A);
  const charges = (working.length > 0 ? working : at).flatMap(({ store }) => {
    const charge = given.charge[store.part];
    return charge === undefined ? [] : [charge.low];
  });
  const bankA = told.length === 0 ? null : at.reduce((sum, { source }) => sum + (source?.amps ?? 0), 0);
  const busiest = [...at].sort((a, b) => Math.abs(b.source?.amps ?? 0) - Math.abs(a.source?.amps ?? 0))[0];
  const lasting = working.flatMap(({ store, source }) => {
    const capacity = store.unit.capacityCoulombs;
    const charge = given.charge[store.part];
    const amps = source?.amps ?? 0;
    if (!isValue(capacity) || charge === undefined || amps <= NOTHING_A) return [];
    const coulombs = capacity.low * store.strings * Math.max(0, charge.low - store.lowestCharge.high);
    return [{ hours: coulombs / amps / 3600, downTo: store.lowestCharge.high }];
  });
  const first = lasting.sort((a, b) => a.hours - b.hours)[0];
  return {
    charge: charges.length === 0 ? null : Math.min(...charges),
    bankA: bankA !== null && Math.abs(bankA) < NOTHING_A ? 0 : bankA,
    bankV: busiest?.source?.volts ?? null,
    hours: bankA !== null && bankA > NOTHING_A ? (first?.hours ?? null) : null,
    downTo: first?.downTo ?? null,
  };
}

const isValue = (value: Value | "unknown" | undefined): value is Value => value !== undefined && value !== "unknown";
