import type { FaultDevice, FaultStudy } from "../size/index.ts";

/** A device by where it stands: `PNL:3`, `W12 at BP`, or its own name where it is a part. */
export const deviceLabel = ({ circuit, part, way }: Pick<FaultDevice, "circuit" | "part" | "way">): string =>
  way !== undefined ? `${part}:${way}` : circuit === null ? part : `${circuit} at ${part}`;

/** Labels of the devices of a study, by their place in its list; those that would be alike are counted. */
export function deviceLabels({ devices }: Pick<FaultStudy, "devices">): (device: number) => string {
  const seen = new Map<string, number>();
  const labels = devices.map((device) => {
    const label = deviceLabel(device);
    const count = (seen.get(label) ?? 0) + 1;
    seen.set(label, count);
    return count === 1 ? label : `${label} (${count})`;
  });
  return (device) => labels[device] ?? "?";
}
