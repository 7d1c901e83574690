import type { Build, CircuitView } from "./build.ts";

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
