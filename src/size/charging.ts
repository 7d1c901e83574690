import type { Grid, Supply, SystemCircuit, SystemPart } from "../system/index.ts";
import type { Charging } from "./model.ts";

/** Share of the nominal volts that a charging circuit may lose; no rule set names one. */
const CHARGING_DROP = 0.03;

/** Between which terminals a circuit that starts at a charging source is judged; null where it is none. */
export function chargingOf(
  circuit: SystemCircuit,
  supply: Supply | undefined,
  parts: ReadonlyMap<string, SystemPart>,
  grid: Grid,
): Charging | null {
  const start = parts.get(circuit.from.part);
  const live = circuit.conductors.find((c) => c.role === "live");
  const back = circuit.conductors.find((c) => c.role === "return");
  if (start?.traits.charges !== true || live === undefined || back === undefined) return null;
  const fromPlus = grid.nodeOf(live.from);
  // The input of a DC-DC charger does not push.
  const feed = grid.feeds.find((f) => f.plus === fromPlus);
  const converter = grid.converters.find((c) => c.out.plus === fromPlus);
  const fromMinus = feed?.minus ?? converter?.out.minus;
  if (fromMinus === undefined) return null;
  const a = grid.nodeOf(back.from);
  const b = grid.nodeOf(back.to);
  const baseVolts = feed?.element.bestVolts?.low ?? supply?.nominal ?? 12;
  return {
    limitVolts: (circuit.dropLimit?.low ?? CHARGING_DROP) * baseVolts,
    baseVolts,
    fromPlus,
    fromMinus,
    toPlus: grid.nodeOf(live.to),
    toMinus: a === fromMinus ? b : a,
  };
}

/** Least current that the circuit of a solar module is made for, A. */
export function solarAmps(circuit: SystemCircuit, grid: Grid, parts: ReadonlyMap<string, SystemPart>): number {
  if (parts.get(circuit.from.part)?.traits.solar !== true) return 0;
  const live = circuit.conductors.find((c) => c.role === "live");
  if (live === undefined) return 0;
  const node = grid.nodeOf(live.from);
  return grid.feeds.reduce((sum, f) => (f.plus === node ? sum + f.element.amps.high : sum), 0);
}
