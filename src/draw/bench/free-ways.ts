import type { System } from "../../system/index.ts";

/**
 * How many ways of each panel nothing hangs on, by part; parts without ways are not among them.
 *
 * @param system as resolved
 */
export function freeWays(system: System): ReadonlyMap<string, number> {
  const ways = new Map<string, Set<string>>();
  for (const e of system.elements) {
    if (e.is !== "contact" || e.way === undefined) continue;
    const list = ways.get(e.part);
    if (list === undefined) ways.set(e.part, new Set([e.way]));
    else list.add(e.way);
  }
  for (const { from, to } of system.circuits) for (const { part, port } of [from, to]) ways.get(part)?.delete(port);
  return new Map([...ways].map(([part, free]) => [part, free.size]));
}
