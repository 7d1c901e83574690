import { deviceFamily, gatesOf, greatestOpeningTime, type DeviceFamilyId, type Gate } from "../../device/index.ts";
import type { FaultDevice } from "../../size/index.ts";
import type { Span } from "./guards.ts";

/** s: so long a conductor is taken to keep all the heat of a fault, and so soon a short is to be opened. */
export const FIVE_SECONDS = 5;

/** A device of which it is known what it is. */
export interface KnownDevice {
  readonly family: DeviceFamilyId;
  readonly rating: number;
}

export const knownDevice = ({ family, rating }: FaultDevice): KnownDevice | null =>
  family === null || rating === null ? null : { family, rating };

/**
 * Whether a device opens a current in a time. `unknown`: what its standard promises ends below that current, or nothing is published; a promise of
 * minutes that is made at twice the rating says nothing of twenty times it.
 */
export function opensIn(device: KnownDevice | null, amps: number, seconds: number): "yes" | "no" | "unknown" {
  if (device === null) return "unknown";
  const { family, rating } = device;
  if (amps <= rating) return "no";
  const most = greatestOpeningTime(family, rating, amps);
  if (most !== null && most.value <= seconds) return "yes";
  return gatesOf(family, rating).some(({ multiple, maxS }) => maxS !== null && multiple * rating > amps)
    ? "no"
    : "unknown";
}

/** The most that devices in series let through over all currents of a range, as far as anything is published. */
export interface WorstThrough {
  /** At a current at which the standard of the device that opens first allows it, within 5 s: A, s. */
  readonly allowed: { readonly amps: number; readonly seconds: number } | null;
  /** No current of the range lets more through, A²s; null: that cannot be said. */
  readonly atMost: number | null;
}

/**
 * The energy by current that devices in series may let through while they open, over a range of currents and within 5 s.
 *
 * Of a fuse what it lets through does not grow with the current beyond its last promise: the metal melts at the same energy or less, and the arc of a
 * few volts adds little. Of a breaker it does.
 */
export function worstThrough(devices: readonly KnownDevice[], { low, high }: Span): WorstThrough {
  let allowed: WorstThrough["allowed"] = null;
  for (const { within, amps } of steps(devices, { low, high })) {
    // Of a device that nothing is published of at that current, it may be that it opens first.
    if (devices.some((d) => opensIn(d, within, FIVE_SECONDS) === "unknown")) continue;
    const seconds = Math.min(...devices.map((d) => energyAt(d, amps, within))) / (amps * amps);
    if (seconds > FIVE_SECONDS) continue;
    if (allowed === null || amps * amps * seconds > allowed.amps ** 2 * allowed.seconds) allowed = { amps, seconds };
  }
  const ends = devices.flatMap((d) => {
    const last = promised(d).at(-1);
    if (last?.maxS === undefined || last.maxS === null || last.maxS > FIVE_SECONDS) return [];
    // Alone it lets no less through than with another one.
    const alone = steps([d], { low, high }).flatMap(({ within, amps }) => {
      const seconds = greatestOpeningTime(d.family, d.rating, within)?.value ?? Infinity;
      return seconds > FIVE_SECONDS ? [] : [energyAt(d, amps, within)];
    });
    return [Math.max(energyAt(d, high), ...alone)];
  });
  const told = allowed === null ? 0 : allowed.amps ** 2 * allowed.seconds;
  return { allowed, atMost: ends.length === 0 ? null : Math.max(told, Math.min(...ends)) };
}

/**
 * The stretches of current in which no promise changes, by a current within each and the one at which most is let through, A: the greatest time stays, so
 * that it is the upper end. Beyond the last promise of all it is the lower one: that a breaker may take as long at thousands of amperes is not said.
 */
function steps(devices: readonly KnownDevice[], { low, high }: Span): { within: number; amps: number }[] {
  const gates = devices.flatMap((d) => promised(d).map(({ multiple }) => multiple * d.rating));
  const edges = [...gates, ...devices.map(({ rating }) => rating)].filter((amps) => amps > low && amps < high);
  const at = [...new Set([low, ...edges])].sort((a, b) => a - b);
  const last = Math.max(...gates, 0);
  return at.map((from, i) => {
    const to = at[i + 1] ?? high;
    return { within: (from + to) / 2, amps: from >= last ? from : to };
  });
}

/** The most that a device lets through at a current in the time that holds for another one, A²s; Infinity where it need not open. */
function energyAt(device: KnownDevice, amps: number, within = amps): number {
  const { family, rating } = device;
  const most = greatestOpeningTime(family, rating, within);
  if (most === null) return Infinity;
  const last = promised(device).at(-1)?.multiple ?? Infinity;
  const counted = deviceFamily(family).kind === "fuse" ? Math.min(amps, last * rating) : amps;
  return counted * counted * most.value;
}

const promises = new WeakMap<readonly Gate[], readonly Gate[]>();

/** Gates by which a device has opened; asked for again, the same. */
function promised({ family, rating }: KnownDevice): readonly Gate[] {
  const gates = gatesOf(family, rating);
  let list = promises.get(gates);
  if (list === undefined) promises.set(gates, (list = gates.filter(({ maxS }) => maxS !== null)));
  return list;
}
