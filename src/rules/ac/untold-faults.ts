import type { EarthFault } from "../../size/study-earth-faults-shapes.ts";
import type { Build } from "../build.ts";
import type { Report } from "../report.ts";
import { earthFaultsOf } from "./as-designed.ts";
import { unsureOf } from "./missing-neutral-earth-join.ts";
import { alternatingPart } from "./switching-of.ts";

/** Tells of a fault whose loop nobody knows, for nobody says whether its source or a part joins neutral and earth: then nobody knows what opens either. */
export function tellUnsureJoin(build: Build, { join, source }: EarthFault, report: Report): void {
  const found = build.system.elements.find((e) => e.is === "earth join" && e.id === join);
  const part = found?.part ?? earthFaultsOf(build).sources[source]?.part ?? "";
  report.cannotTell(alternatingPart(build, part), [unsureOf(build, part)]);
}

/** What is asked of a device that may open too late for all that is published of it; what opens on leakage has published times. */
export const untoldTime = (device: string, current: string): string =>
  `how soon its ${device} opens ${current} (what is published of it does not tell; a residual device ahead would settle it)`;
