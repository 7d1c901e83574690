import { leakageSum, usualLeakage } from "../protect/earth-fault/leakage.ts";
import { residualChain } from "../protect/earth-fault/residual-time.ts";
import { residualOf } from "./study-earth-faults-devices.ts";
import type { ResidualStudied } from "./study-earth-faults-shapes.ts";
import type { EarthStudying } from "./study-earth-faults-feeding.ts";
import { wayTo } from "./study-earth-faults-ways.ts";

/**
 * Residual guards in series, and what usually leaks behind each.
 *
 * Chargers leak as chargers do; of any other load nobody says its filter, so that of a heater to that of electronics counts. What is plugged into sockets counts as one
 * apparatus each.
 */
export function studyResidual(studying: EarthStudying): ResidualStudied[] {
  const { guards, feeding, system } = studying;
  const upstream = guards.map(() => new Set<number>());
  const behind = guards.map(() => new Map<string, { low: number; high: number }>());
  const order = (way: readonly (string | null)[]): number[] => {
    const seen: number[] = [];
    for (const contact of way)
      guards.forEach((g, i) => {
        if (contact !== null && g.contacts.includes(contact) && !seen.includes(i)) seen.push(i);
      });
    return seen;
  };
  for (const { feed, line } of feeding) {
    for (const element of system.elements) {
      const terminal =
        element.is === "draw" && element.current === "AC"
          ? element.plus
          : element.is === "converter" && element.inCurrent === "AC"
            ? element.inPlus
            : null;
      if (terminal === null || !line.has(terminal)) continue;
      const seen = order(wayTo(line, terminal).map((hop) => hop.contact));
      seen.forEach((g, place) => {
        behind[g]?.set(element.id, leakOf(element.is, feed.volts));
        const before = seen[place - 1];
        if (before !== undefined) upstream[g]?.add(before);
      });
    }
  }
  return guards.map((guard, i): ResidualStudied => {
    const own = residualOf(guard);
    return {
      id: guard.id,
      part: guard.part,
      amps: own.amps,
      chain: [...(upstream[i] ?? [])].flatMap((u) => {
        const other = guards[u];
        if (other === undefined) return [];
        const { isSelective, because } = residualChain(residualOf(other), own);
        return [{ upstream: u, isSelective, because }];
      }),
      leakage: own.amps === null ? null : leakageSum(own.amps, [...(behind[i]?.values() ?? [])]),
    };
  });
}

function leakOf(is: string, volts: number): { low: number; high: number } {
  if (is === "converter") return usualLeakage("charger or inverter", volts);
  return { low: usualLeakage("motor", volts).low, high: usualLeakage("electronics with a filter", volts).high };
}
