import { leadAcidRestVoltage } from "../reference/lead-acid-rest-voltage.ts";
import { lfpOcv } from "../reference/lfp-ocv.ts";
import type { Store } from "./element.ts";

const curves = {
  LFP: { charge: lfpOcv.rows.map((r) => r.soc), volts: lfpOcv.rows.map((r) => r.cellV), cellVolts: 3.2 },
  lead: {
    charge: leadAcidRestVoltage.rows.map((r) => r.soc),
    volts: leadAcidRestVoltage.rows.map((r) => r.battery12vV),
    cellVolts: 12, // the table is of a whole 12 V battery
  },
} as const;

/**
 * Volts of a battery at rest, by its state of charge: straight lines between the rows of a measured curve.
 *
 * Ignores temperature, age, and whether it was charged or discharged last.
 *
 * @param charge share of the capacity, 0…1; beyond its ends the curve stays at its end
 * @source `reference/energy/lfp_ocv.csv` (derived), `reference/energy/lead_acid_rest_voltage.csv` (memory)
 */
export function storeVolts(store: Pick<Store, "curve" | "nominalVolts">, charge: number): number {
  const { charge: xs, volts: ys, cellVolts } = curves[store.curve];
  const cells = store.curve === "LFP" ? Math.round(store.nominalVolts / cellVolts) : store.nominalVolts / cellVolts;
  return cells * interpolate(xs, ys, charge);
}

function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  const last = xs.length - 1;
  if (x <= (xs[0] ?? 0)) return ys[0] ?? 0;
  for (let i = 1; i <= last; i++) {
    const x1 = xs[i] ?? 1;
    if (x > x1) continue;
    const x0 = xs[i - 1] ?? 0;
    const y0 = ys[i - 1] ?? 0;
    return y0 + ((ys[i] ?? 0) - y0) * ((x - x0) / (x1 - x0));
  }
  return ys[last] ?? 0;
}
