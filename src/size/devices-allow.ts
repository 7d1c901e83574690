import { deviceFamily, type DeviceFamilyId } from "../device/index.ts";
import { amps, volts } from "../quantity/index.ts";
import { deviceLimit, type RuleSet, type SmallConductor } from "../ruleset/index.ts";
import { ampacityAt, type Rungs } from "./ladder.ts";
import type { CircuitModel } from "./model.ts";
import type { CircuitDevices, PlacedDevice } from "./place-devices.ts";

/** By the rules of a set, then by nominal volts and family, then by ampacity: the choice of sizes asks the same few again and again. */
const asked = new WeakMap<RuleSet["deviceSize"], Map<string, Map<number, number>>>();

/** The most that a rule set lets the devices of a circuit be at an ampacity; what a device of a family may be rated. */
export function mostAllowed(
  c: Pick<CircuitModel, "supply">,
  { deviceSize }: RuleSet,
  ampacity: number,
  family: DeviceFamilyId | null,
  small: SmallConductor | null,
): number {
  const nominal = c.supply?.nominal ?? 12;
  const key = `${nominal} ${family ?? ""} ${small?.size.label ?? ""} ${small?.upTo ?? ""}`;
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

/** The same at a rung of a circuit's ladder: where it follows several sets, the strictest. */
export function mostAllowedAt(c: CircuitModel, rungs: Rungs, rung: number, family: DeviceFamilyId | null): number {
  const bySet = rungs.bySet ?? [{ ruleSet: rungs.ruleSet, rungs }];
  return Math.min(
    ...bySet.map((each) =>
      mostAllowed(c, each.ruleSet, ampacityAt(each.rungs, rung), family, each.rungs.ladder.small[rung] ?? null),
    ),
  );
}

/** Whether the devices of a circuit suit a rung of its ladder, by every rule set that it follows. */
export function devicesAllow(c: CircuitModel, devices: CircuitDevices, rungs: Rungs, rung: number): boolean {
  const { bySet } = rungs;
  return bySet === undefined
    ? allowedBy(c, devices, rungs, rung)
    : bySet.every((each) => allowedBy(c, devices, each.rungs, rung));
}

function allowedBy(c: CircuitModel, devices: CircuitDevices, rungs: Rungs, rung: number): boolean {
  const { ruleSet } = rungs;
  const ampacity = ampacityAt(rungs, rung);
  const small = rungs.ladder.small[rung] ?? null;
  // What stands behind it guards a small conductor no better than its own device would.
  if (devices.answersFor > Math.min(ampacity, small?.upTo ?? Infinity) + 1e-9) return false;
  // Only for small conductors and devices that open late does a set ask for less than the ampacity itself.
  const goesToAmpacity = small === null && ruleSet.deviceSize.late === undefined;
  const isAllowed = ({ rating, family }: PlacedDevice): boolean =>
    rating === null ||
    (goesToAmpacity && rating <= ampacity) ||
    rating <= mostAllowed(c, ruleSet, ampacity, family, small) + 1e-9;
  return devices.devices.every(isAllowed) && devices.guards.every(isAllowed);
}
