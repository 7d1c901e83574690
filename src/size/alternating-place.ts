import { steadyShare, type DevicePlace } from "../protect/index.ts";
import type { CircuitModel } from "./model.ts";

const BY_IEC: DevicePlace = { at: "alternating", by: "IEC" };
const BY_UL: DevicePlace = { at: "alternating", by: "UL" };

/** Alternating current is guarded by the breakers that are sold where its rules hold; null: direct current. */
export function alternatingPlace({ supply, ruleSet }: CircuitModel): DevicePlace | null {
  if (supply?.current !== "AC") return null;
  return ruleSet?.id.startsWith("us-") === true ? BY_UL : BY_IEC;
}

/** Share of its rating that a device of a circuit is loaded with for hours. */
export const steadyShareOf = (c: CircuitModel): number => steadyShare(alternatingPlace(c) ?? { at: "elsewhere" });
