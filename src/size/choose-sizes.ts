import { boundsOf } from "./bounds.ts";
import type { Choose, Chosen, SearchLimits } from "./chosen.ts";
import type { CircuitCurrents } from "./design-currents.ts";
import { devicesAllow } from "./devices-allow.ts";
import { chooseFewest } from "./fewest-sizes.ts";
import { steadyAt } from "./ladder.ts";
import type { CircuitModel } from "./model.ts";
import type { Devices } from "./place-devices.ts";
import { chooseTogether } from "./same-sizes.ts";
import { searchSizes } from "./search-sizes.ts";
import type { Weigher } from "./weigher.ts";

/**
 * First rung of a circuit that carries its current, allows its devices and is not too thin, whatever the volts; one past the last where
 * none does.
 */
export function leastLocal(c: CircuitModel, currents: CircuitCurrents, devices: Devices["circuits"][number]): number {
  if (c.rungs === null) return 0;
  const { rungs } = c;
  const top = rungs.ladder.makes.length;
  for (let r = rungs.least; r < top; r++) {
    if (currents.steady <= steadyAt(rungs, r) + 1e-9 && devicesAllow(c, devices, rungs, r)) return r;
  }
  return top;
}

/**
 * Chooses the sizes by the aim of the plan, the loads' currents held: the least copper, the least cost, or the fewest sizes.
 *
 * @param least first rung that each circuit may have, from `leastLocal` and from rounds before; of two that share a size both get the greater
 * @param limits null: keep the core, and the sizes that are used, as they were chosen before, as far as they still may be
 * @param before the choice of the round before
 */
export function chooseSizes(
  weigher: Weigher,
  least: Int32Array,
  limits: SearchLimits | null,
  before: Chosen | null,
): Chosen {
  const { model } = weigher;
  const { circuits, aim } = model;
  for (const c of circuits) {
    if (c.leader < 0) continue;
    least[c.leader] = least[c.position] = Math.max(least[c.leader] ?? 0, least[c.position] ?? 0);
  }
  const choose: Choose = (open, was) =>
    chooseTogether(
      model,
      (only) => boundsOf(circuits, least, open, only),
      (bounds, from) => ({ ...searchSizes(weigher, bounds, limits, from), open }),
      was,
    );
  if (aim.choose !== "fewest sizes") return choose(aim.open, before);
  return limits === null ? choose(before?.open ?? null, before) : chooseFewest(weigher, least, choose, before);
}
