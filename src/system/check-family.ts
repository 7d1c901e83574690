import type { Diagnostic, Span } from "../diagnostic.ts";
import { deviceFamilies, readDeviceFamily } from "../device/index.ts";
import { listed, nearestNames, shown } from "../plan/index.ts";

/** Says when no kind of protective device is called so: its volts lost, its opening and its interrupt rating are then not known. */
export function checkFamily(family: string, at: readonly Span[], about: string, say: (d: Diagnostic) => void): void {
  if (readDeviceFamily(family) !== null) return;
  const names = deviceFamilies.map((f) => f.name);
  const near = nearestNames(family, names);
  say({
    id: "system/device-family-unknown",
    level: "warning",
    at,
    about,
    message: `no kind of fuse or breaker is called \`${shown(family)}\`; only its rating counts`,
    hint: near.length > 0 ? `did you mean ${listed(near, "or")}?` : `some kinds are ${listed(names.slice(0, 8))}`,
  });
}
