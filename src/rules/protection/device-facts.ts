import type { SystemPart } from "../../system/index.ts";
import type { Build, Subject } from "../build.ts";
import { factsOf } from "../stated.ts";
import { guardsOf } from "./guards.ts";
import type { Marked } from "./device-marks.ts";

/** The facts that the plan states of a device or a switch that is a part; of one that is only written in a line there are none. */
export function factsOfDevice(build: Build, { part }: Pick<Marked, "part">): ReturnType<typeof factsOf> {
  const view = part === null ? undefined : build.part(part.id);
  return view === undefined ? {} : factsOf(view);
}

/** Where a missing fact of a device belongs: with its part, else with its circuit. */
export const placeOfFact = ({ part, subject }: { part: SystemPart | null; subject: Subject }): Subject | string =>
  part === null ? subject : `parts.${part.id}`;

/** Edges of the grid in which a device stands: the contacts of a part, or the conductor at its end. */
export function edgesOfDevice(build: Build, { circuit, part, guard }: Marked): readonly number[] {
  const guards = guardsOf(build);
  const { grid } = guards;
  const own = circuit === null ? null : guards.of(circuit);
  if (own !== null && guard !== null) return [own.edge[guard.end]];
  return part === null ? [] : grid.edges.flatMap(({ contact }, e) => (contact?.part === part.id ? [e] : []));
}
