import {
  deviceFamily,
  gatesOf,
  interruptRating,
  openingBand,
  preArcing,
  type DeviceFamilyId,
  type Supply,
} from "../../device/index.ts";
import { weakestTrust } from "../../explain/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";
import type { PlotDevice, PlotPoint } from "./plot.ts";

/** A device of the chain, as the plan and the design name it. */
export interface DeviceInChain {
  readonly about: string | null;
  /** `F3`. */
  readonly name: string;
  readonly family: DeviceFamilyId;
  /** A. */
  readonly rating: number;
  readonly volts: number;
  readonly supply: Supply;
  /** A, as marked on the part. */
  readonly interruptAmps?: number;
}

/** A: as far as a line of constant energy is followed. */
const FAR = 1e6;

/**
 * The band of a device by its published gates, as corners for the plot: steps, since nothing is known between gates, and a straight line of constant
 * energy where a least melting energy is published.
 *
 * @returns edges that are not published are null
 */
export function plotDevice(device: DeviceInChain): PlotDevice {
  const { about, name, family, rating, volts, supply, interruptAmps } = device;
  const kind = deviceFamily(family);
  const gates = gatesOf(family, rating);
  const { lacks, notProven } = openingBand(family, rating, rating);
  const opens = interruptAmps ?? interruptRating(family, volts, { supply, rating }).current;
  const told =
    opens === null
      ? `interrupt rating at ${print(volts)} V ${supply} not known`
      : `opens ${opens >= 1000 ? `${print(opens / 1000)} kA` : `${print(opens)} A`}`;
  return {
    about,
    label: `${name} ${print(rating)} A`,
    says: `${kind.name}, ${told}`,
    min: lacks.includes("min") ? null : leastCorners(device),
    max: lacks.includes("max") ? null : greatestCorners(device),
    missing: notProven,
    trust: weakestTrust(...gates.map(({ trust }) => trust)),
    opensTo: opens,
  };
}

const print = (value: number): string => decimalText(value, { figures: 4 });

/** At each gate the time falls to that of the next, up to which it holds. */
function leastCorners({ family, rating }: DeviceInChain): readonly PlotPoint[] {
  const energy = preArcing(family, rating).min?.value ?? null;
  const gates = gatesOf(family, rating).flatMap(({ multiple, minS }) => (minS === null ? [] : [[multiple * rating, minS] as const])); // prettier-ignore
  const corners: PlotPoint[] = [];
  const melts = (amps: number): number => (energy === null ? 0 : energy / (amps * amps));
  const first = gates[0];
  if (first !== undefined) corners.push(first);
  for (const [i, [amps]] of gates.slice(0, -1).entries()) {
    const [next, holds] = gates[i + 1] ?? [amps, 0];
    const meet = energy === null ? 0 : Math.sqrt(energy / holds);
    if (melts(amps) > holds) corners.push([amps, melts(amps)], [Math.min(meet, next), Math.max(holds, melts(next))]);
    else corners.push([amps, holds]);
    corners.push([next, Math.max(holds, melts(next))]);
  }
  const last = corners.at(-1);
  if (energy !== null && last !== undefined) corners.push([last[0], melts(last[0])], [FAR, melts(FAR)]);
  return corners;
}

function greatestCorners({ family, rating }: DeviceInChain): readonly PlotPoint[] {
  let before: number | null = null;
  return gatesOf(family, rating).flatMap(({ multiple, maxS }): PlotPoint[] => {
    if (maxS === null) return [];
    const amps = multiple * rating;
    const corners: PlotPoint[] = before === null ? [[amps, maxS]] : [[amps, before], [amps, maxS]]; // prettier-ignore
    before = maxS;
    return corners;
  });
}
