import { deviceFamily, type DeviceFamilyId } from "../device/index.ts";
import { amps, volts } from "../quantity/index.ts";
import { deviceLimit, type CarriedRuleSet, type SmallConductor } from "../ruleset/index.ts";
import { ampacityAt, type Rungs } from "./ladder.ts";
import type { CircuitModel } from "./model.ts";
import type { CircuitDevices } from "./place-devices.ts";

/** By the rules of a set, then by nominal volts and family, then by ampacity: the choice of sizes asks the same few again and again. */
const asked = new WeakMap<CarriedRuleSet["deviceSize"], Map<string, Map<number, number>>>();

/** The most that a circuit's rule set lets its devices be at an ampacity; what a device of a family may be rated. */
export function mostAllowed(
  c: CircuitModel,
  ampacity: number,
  family: DeviceFamilyId | null,
  small: SmallConductor | null,
): number {
  if (c.ruleSet === null) return Infinity;
  const { deviceSize } = c.ruleSet;
  const nominal = c.supply?.nominal ?? 12;
  const key = `${nominal} ${family ?? ""} ${small?.size.label ?? ""}`;
  let bySet = asked.get(deviceSize);
  if (bySet === undefined) asked.set(deviceSize, (bySet = new Map<string, Map<number, number>>()));
  let known = bySet.get(key);
  if (known === undefined) bySet.set(key, (known = new Map<number, number>()));
  let most = known.get(ampacity);
  if (most === undefined) {
    most = deviceLimit(deviceSize, {
      ampacity: amps(ampacity),
      current: "DC",
      nominal: volts(nominal),
      ratings: family === null ? [] : deviceFamily(family).standardRatings,
      family,
      small,
    }).upTo;
    // Volts and surroundings come from plans.
    if (known.size > 5000) known.clear();
    if (bySet.size > 200) bySet.clear();
    known.set(ampacity, most);
  }
  return most;
}

/** Whether the devices of a circuit suit a rung of its ladder. */
export function devicesAllow(c: CircuitModel, devices: CircuitDevices, rungs: Rungs, rung: number): boolean {
  const ampacity = ampacityAt(rungs, rung);
  const small = rungs.ladder.small[rung] ?? null;
  // What stands behind it guards a small conductor no better than its own device would.
  if (devices.answersFor > Math.min(ampacity, small?.upTo ?? Infinity) + 1e-9) return false;
  // Only for small conductors and devices that open late does a set ask for less than the ampacity itself.
  const goesToAmpacity = small === null && c.ruleSet?.deviceSize.late === undefined;
  return devices.devices.every(
    ({ rating, family }) =>
      rating === null ||
      (goesToAmpacity && rating <= ampacity) ||
      rating <= mostAllowed(c, ampacity, family, small) + 1e-9,
  );
}
