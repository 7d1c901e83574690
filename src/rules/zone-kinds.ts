import { foldName, known } from "../plan/index.ts";
import type { Zone } from "../system/index.ts";
import type { Build, CircuitView, PartView } from "./build.ts";

/** Kinds of the zones that a run crosses, each once. */
export function zoneKinds({ system }: Build, { run }: CircuitView): ReadonlySet<string> {
  const kinds = new Set<string>();
  for (const { zone, engineSpace } of run.stretches) {
    if (engineSpace) kinds.add("engine");
    if (zone === undefined) continue;
    for (const kind of system.zones.find((z) => z.id === zone)?.kinds ?? []) kinds.add(kind);
  }
  return kinds;
}

/** The zones of the place that a part sits in; none: the plan does not say it. */
export function zonesOfPlace(build: Build, plan: PartView["plan"]): readonly Zone[] {
  const place = known(plan?.facts.in);
  const at = place === undefined ? undefined : build.plan.places.find((p) => foldName(p.key) === foldName(place));
  const names = (known(at?.facts.zone) ?? []).flatMap((z) => (z.value === "unknown" ? [] : [foldName(z.value)]));
  return build.system.zones.filter((z) => names.includes(foldName(z.id)));
}
