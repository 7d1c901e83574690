import { routeRuns } from "../route/index.ts";
import type { System } from "../system/index.ts";
import type { ConstraintId } from "./design.ts";
import { settle } from "./settle.ts";
import { weighConstraints } from "./weigh-constraints.ts";

/** The constraints that a circuit does not meet when a build is settled anew. */
export function unmetAt(system: System, index: number): ConstraintId[] {
  const runs = routeRuns(system).value;
  const settled = settle(system, runs);
  const weighed = weighConstraints(settled, runs)[settled.model.at[index] ?? -1];
  return (weighed?.constraints ?? []).filter((c) => c.outcome === "not met").map((c) => c.id);
}
