import { deviceFamily, type DeviceFamilyId } from "../device/index.ts";
import { amps, volts } from "../quantity/index.ts";
import { deviceLimit } from "../ruleset/index.ts";
import type { CircuitModel } from "./model.ts";
import type { CircuitDevices } from "./place-devices.ts";

/** The most that a circuit's rule set lets its devices be at an ampacity; what a device of a family may be rated. */
export function mostAllowed(c: CircuitModel, ampacity: number, family: DeviceFamilyId | null): number {
  if (c.ruleSet === null) return Infinity;
  return deviceLimit(c.ruleSet.deviceSize, {
    ampacity: amps(ampacity),
    current: "DC",
    nominal: volts(c.supply?.nominal ?? 12),
    ratings: family === null ? [] : deviceFamily(family).standardRatings,
  }).upTo;
}

/** Whether the devices of a circuit suit an ampacity. */
export function devicesAllow(c: CircuitModel, devices: CircuitDevices, ampacity: number): boolean {
  if (devices.answersFor > ampacity + 1e-9) return false;
  // No rule set asks for less than the ampacity itself.
  return devices.devices.every(
    ({ rating, family }) => rating === null || rating <= ampacity || rating <= mostAllowed(c, ampacity, family) + 1e-9,
  );
}
