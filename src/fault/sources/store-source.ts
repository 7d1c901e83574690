import { weakestTrust, type Trust } from "../../explain/index.ts";
import type { Store } from "../../system/element.ts";
import { storeVolts } from "../../system/store-volts.ts";
import { sourceFigure } from "./source-figure.ts";

/** Both ends of what a figure can be. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** What the figures of a battery as a source of fault current rest on. */
export type StoreBasis = "short-circuit current" | "resistance" | "cranking current" | "capacity";

/** A management that opens when more flows than it lets through. */
export interface ManagementOpening {
  /** Amps above which it may open; null: nobody says. */
  readonly aboveAmps: number | null;
  /** How long it lets more than its steady current through, s; null: nobody says. */
  readonly seconds: number | null;
}

/** A battery as a source of fault current, all that stands behind its pair of terminals together. */
export interface StoreSource {
  readonly part: string;
  /** Full, warm and new: volts at rest, and amps into a dead short at its terminals. */
  readonly best: { readonly volts: number; readonly amps: Range };
  /** At its lowest charge, cold and aged: volts at rest, and resistance inside, Ω. */
  readonly worst: { readonly volts: number; readonly ohms: Range };
  readonly basis: StoreBasis;
  /** Null: nothing in it opens. Where something may, it is no certain source of the least current. */
  readonly opens: ManagementOpening | null;
  readonly trust: Trust;
}

const ampHours = (coulombs: number): number => coulombs / 3600;

/**
 * What a battery gives into a fault, at best and at worst.
 *
 * Its maker's short-circuit current counts first, then a stated resistance, then its cranking current, then its capacity. Ignores its inductance, the
 * sag of its volts while the fault lasts, and any device inside it.
 *
 * @source `reference/protection/source_fault_current.csv`; the definition of the cranking current: 7.2 V left of 12.6 V
 */
export function storeSource(store: Store): StoreSource {
  const full = storeVolts(store, 1);
  const low = storeVolts(store, store.lowestCharge.low);
  const isLfp = store.curve === "LFP";
  const aged = sourceFigure(
    isLfp
      ? "LFP battery resistance cold and aged over new and warm"
      : "lead-acid battery resistance cold and aged over new and warm",
  );
  const opens = managementOf(store);
  const { crankingAmps, capacityCoulombs } = store.unit;
  const make = (basis: StoreBasis, amps: Range, fresh: Range, times: Range, trust: Trust): StoreSource => ({
    part: store.part,
    best: { volts: full, amps },
    worst: { volts: low, ohms: { low: fresh.low * times.low, high: fresh.high * times.high } },
    basis,
    opens,
    trust,
  });
  const ofAmps = ({ low: least, high: most }: Range): Range => ({
    low: store.nominalVolts / most,
    high: store.nominalVolts / least,
  });

  if (store.shortCircuitAmps.origin === "given") {
    const amps = store.shortCircuitAmps;
    return make("short-circuit current", amps, ofAmps(amps), aged, aged.trust);
  }
  if (store.ohms.origin === "given") {
    const amps = { low: full / store.ohms.high, high: full / store.ohms.low };
    return make("resistance", amps, store.ohms, aged, aged.trust);
  }
  if (crankingAmps !== undefined && crankingAmps !== "unknown") {
    const warm = sourceFigure("lead-acid starting battery warm short-circuit current over cold-cranking amperes");
    const older = sourceFigure("lead-acid starting battery resistance aged over that of its cold-cranking figure");
    const amps = {
      low: warm.low * crankingAmps.low * store.strings,
      high: warm.high * crankingAmps.high * store.strings,
    };
    // The resistance that follows from its cranking current is that of a cold battery already.
    return make("cranking current", amps, store.ohms, older, weakestTrust(warm.trust, older.trust));
  }
  const perHour = sourceFigure(
    isLfp
      ? "LFP battery short-circuit current for each ampere-hour"
      : "lead-acid battery short-circuit current for each ampere-hour",
  );
  const capacity =
    capacityCoulombs === undefined || capacityCoulombs === "unknown"
      ? { low: 100, high: 100 }
      : { low: ampHours(capacityCoulombs.low), high: ampHours(capacityCoulombs.high) };
  const amps = {
    low: perHour.low * capacity.low * store.strings,
    high: perHour.high * capacity.high * store.strings,
  };
  // Of a battery of which nobody says how large it is, the figures stand for nothing: they bound no fault.
  const isKnown = capacityCoulombs !== undefined && capacityCoulombs !== "unknown";
  return make("capacity", amps, ofAmps(amps), aged, isKnown ? weakestTrust(perHour.trust, aged.trust) : "missing");
}

/** A lithium battery has a management, whether or not the plan speaks of it. */
function managementOf(store: Store): ManagementOpening | null {
  const { peakAmps, continuousAmps, peakSeconds } = store.unit;
  if (peakAmps === undefined && continuousAmps === undefined && store.curve !== "LFP") return null;
  const known = (v: typeof peakAmps): number | null => (v === undefined || v === "unknown" ? null : v.low);
  const above = known(peakAmps);
  return { aboveAmps: above === null ? null : above * store.strings, seconds: known(peakSeconds) };
}
