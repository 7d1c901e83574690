import { given, type Value } from "../../system/index.ts";
import type { Build, PartView } from "../build.ts";
import { zonesOfPlace } from "../zone-kinds.ts";

/** The air where a part sits, °C. */
export interface AirAt {
  /** Undefined: the plan does not say how cold it gets. */
  readonly lowest: number | "unknown" | undefined;
  readonly highest: number;
  /** The zone that decides; null: the air of the plan. */
  readonly zone: string | null;
  readonly isEngineSpace: boolean;
}

/**
 * The coldest and the warmest air around a part: its own, where the plan gives it as a figure or a range; else that of the zones of its place;
 * else that of the plan. A single figure of warm air says nothing of the cold: then the plan's lowest counts.
 */
export function airAt(build: Build, { plan }: PartView): AirAt {
  const { system } = build;
  const zones = zonesOfPlace(build, plan);
  const own = plan?.facts.ambient;
  const air: readonly Value[] =
    own !== undefined && own.value !== "unknown" ? [given(own.value)] : zones.flatMap((z) => z.ambient ?? []);
  const lowest = system.lowestAmbient;
  const cold = lowest === undefined || lowest === "unknown" ? lowest : lowest.low;
  const ranges = air.filter((a) => a.low < a.high);
  return {
    lowest: own?.value === "unknown" ? "unknown" : ranges.length > 0 ? Math.min(...ranges.map((a) => a.low)) : cold,
    highest: air.length > 0 ? Math.max(...air.map((a) => a.high)) : system.ambient.high,
    zone: zones[0]?.id ?? null,
    isEngineSpace: zones.some((z) => z.engine),
  };
}
