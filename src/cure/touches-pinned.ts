import { foldName } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import type { CureMove } from "../rules/index.ts";
import type { Case } from "./case.ts";
import { isWritten } from "./write.ts";

/** Moves that are about several things at once: each of them is what the finding speaks of. */
const OF_A_GROUP: ReadonlySet<CureMove> = new Set(["equal-leads", "matched-unit", "behind-switch"]);

/** What a circuit has pinned when it is written. */
const PINS = ["wire", "fuse", "breaker"];

/** Whether edits change what is pinned or as found in a circuit beside those that a finding is about. */
export function touchesPinned({ document, build, circuits }: Case, move: CureMove, edits: readonly Edit[]): boolean {
  if (OF_A_GROUP.has(move)) return false;
  const own = new Set(circuits.map((c) => c.id));
  return edits.some(({ path }) => {
    const [section, name] = path.map(String);
    if (section === undefined || name === undefined || foldName(section) !== "circuits" || own.has(name)) return false;
    const found = build.circuit(name)?.circuit.asFound === true;
    return found || PINS.some((key) => isWritten(document, [section, name, key]));
  });
}
