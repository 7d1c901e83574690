import { ampsText } from "../../draw/bank-sharing/index.ts";
import { deviceName } from "../../draw/time-current/index.ts";
import { deviceFamily } from "../../device/index.ts";
import type { PairInSeries } from "../../coordinate/index.ts";
import type { Outcome } from "../../fault/index.ts";
import type { FaultDevice } from "../../size/fault-study.ts";
import type { System } from "../../system/index.ts";
import type { NamedDevice, PairRow } from "./fault-answers.ts";

/** A single pole of a bar or switch needs no word of its own: `SW1:in:pole` is `SW1:in`. */
export const terminalText = (terminal: string): string => terminal.replace(/:pole$/, "");

/** What people call the devices of a build, and what each is. */
export function nameDevices(devices: readonly FaultDevice[]): readonly NamedDevice[] {
  const count = new Map<string, number>();
  for (const device of devices) count.set(deviceName(device), (count.get(deviceName(device)) ?? 0) + 1);
  return devices.map((device): NamedDevice => {
    const { circuit, part, family, rating, isPresent } = device;
    const kind = family === null ? "device of unknown kind" : deviceFamily(family).name;
    const name = deviceName(device);
    return {
      // A circuit with a device at each end: which of the two.
      name: (count.get(name) ?? 0) > 1 && name !== part ? `${name} at ${part}` : name,
      about: circuit === null ? `parts.${part}` : `circuits.${circuit}`,
      what:
        isPresent === "unknown"
          ? "nobody knows whether one is there"
          : rating === null
            ? kind
            : `${ampsText(rating)} ${kind}`,
    };
  });
}

/** What people call parts. */
export function partNames({ parts }: Pick<System, "parts">): (part: string) => string {
  const names = new Map(parts.map(({ id, name }) => [id, name]));
  return (part) => names.get(part) ?? part;
}

/** A pair in words. */
export const pairRow = (
  pair: PairInSeries,
  named: (device: number) => NamedDevice,
  partName: (part: string) => string,
): PairRow => {
  const { isNext, greatest, at, upstreamShare, lostToo, judgement } = pair;
  const { verdict, upTo, because, missing, trust, sources } = judgement;
  return {
    upstream: named(pair.upstream),
    downstream: named(pair.downstream),
    isNext,
    greatest,
    at,
    upstreamShare,
    verdict,
    upTo,
    because,
    missing,
    trust,
    sources: [...new Set(sources.map(({ document }) => document))],
    lostToo: lostToo.map(partName),
  };
};

const gravity: readonly Outcome[] = ["none", "cleared", "limited", "not proven", "too small", "not seen"];

/** The gravest of several ends. */
export const gravest = (outcomes: readonly Outcome[]): Outcome =>
  outcomes.reduce<Outcome>((a, b) => (gravity.indexOf(b) > gravity.indexOf(a) ? b : a), "none");
