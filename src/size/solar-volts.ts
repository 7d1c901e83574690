import { coldVolts } from "../system/index.ts";
import { liveMetal } from "./live-metal.ts";
import type { Model } from "./model.ts";

/** Volts from the least to the most that they may be. */
type Volts = Readonly<Record<"low" | "high", number>>;

const known = new WeakMap<Model, (node: number) => Volts | undefined>();

/**
 * Open-circuit volts, in the cold, of the solar modules on the metal of a node. Undefined: none stand on it, or a battery there holds them lower.
 */
export function solarVoltsBy(model: Model): (node: number) => Volts | undefined {
  let by = known.get(model);
  if (by === undefined) known.set(model, (by = findVolts(model)));
  return by;
}

function findVolts({ grid, system }: Model): (node: number) => Volts | undefined {
  const most = new Map<number, Volts>();
  const pieces = liveMetal(grid);
  const held = new Set(grid.stores.map(({ plus }) => pieces[plus]));
  for (const { element, plus } of grid.feeds) {
    if (element.runsWith !== "sun") continue;
    const { low, high } = coldVolts(element, system.lowestAmbient);
    const piece = pieces[plus] ?? -1;
    if (held.has(piece)) continue;
    const other = most.get(piece);
    most.set(piece, { low: Math.max(low, other?.low ?? 0), high: Math.max(high, other?.high ?? 0) });
  }
  return (node) => most.get(pieces[node] ?? -1);
}
