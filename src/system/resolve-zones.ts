import { known, type Plan } from "../plan/index.ts";
import type { Zone } from "./system.ts";
import { given } from "./value.ts";

/** Words for a kind of zone that may be used without defining one: there is nothing more to say of them. */
export const plainZones = ["dry", "wet", "bilge", "outside", "sun", "buried", "moving", "inaccessible"] as const;

/** The zones of the plan; an engine space is told by its kind, not by its name. */
export function resolveZones(plan: Plan): Zone[] {
  return plan.zones.map(({ key, facts }): Zone => {
    const kinds = (known(facts.kind) ?? []).flatMap((k) => (k.value === "unknown" ? [] : [k.value]));
    const ambient = known(facts.ambient);
    return {
      id: key,
      engine: kinds.includes("engine"),
      kinds,
      ...(ambient === undefined ? {} : { ambient: given(ambient) }),
    };
  });
}
