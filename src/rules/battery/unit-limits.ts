import type { Store, Value } from "../../system/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import type { BankFlow } from "./bank-flows.ts";
import type { Bank } from "./banks.ts";

/** What a battery may give or take; undefined: its maker states nothing, and need not. */
export type Limit = Value | "unknown" | undefined;

/** A current of one battery against its limit. */
export interface Load {
  readonly part: string;
  readonly amps: number;
  readonly limit: Value;
  readonly state: string;
  readonly charging: boolean;
}

/** What comes nearest to its limit, or furthest beyond; and the limits that are missing where a current could pass them. */
export interface Loads {
  readonly worst: Load | null;
  readonly needs: readonly Needed[];
}

/** Limits for long, in the sense of a discharge and of a charge. A lithium battery always has a management, so one that states none is not known. */
export function limitsOf({ curve, unit, strings }: Store): { out: Limit; into: Limit } {
  const own = unit.continuousAmps ?? (curve === "LFP" ? "unknown" : undefined);
  return { out: many(own, strings), into: many(unit.chargingAmps ?? unit.continuousAmps, strings) };
}

/** A limit of each, for units abreast behind one pair of terminals. */
export const many = (limit: Limit, strings: number): Limit =>
  limit === undefined || limit === "unknown"
    ? limit
    : { low: limit.low * strings, high: limit.high * strings, origin: limit.origin };

/**
 * Weighs the currents of a bank's units against their limits in a list of conditions.
 *
 * @param limitFor of a store for a current that leaves it (or enters it), in a condition; and what is missing where nobody knows
 * @param without index of the store that is off
 * @param share how currents divide: as solved, or, where nobody knows the leads, between evenly and all through one unit
 */
export function weighUnits(
  build: Build,
  bank: Bank,
  flows: readonly BankFlow[],
  limitFor: (store: Store, charging: boolean, flow: BankFlow) => { readonly limit: Limit; readonly fact: string },
  without: number | null = null,
  share: "solved" | "even" | "all" = "solved",
): Loads {
  const { stores } = build.settled.model.grid;
  let worst: Load | null = null;
  const needs = new Map<string, Needed>();
  for (const flow of flows) {
    const total = bank.top.reduce((sum, i) => sum + (flow.amps[i] ?? 0), 0);
    bank.units.forEach((i, k) => {
      const store = stores[i]?.element;
      const part = bank.parts[k];
      if (store === undefined || part === undefined || i === without) return;
      const abreast = (bank.abreast[k] ?? 1) - (without === null ? 0 : 1);
      const solved = flow.amps[i] ?? 0;
      const amps = Math.abs(share === "solved" || abreast < 2 ? solved : share === "even" ? total / abreast : total);
      if (amps < 1e-6) return;
      const charging = solved < 0;
      const { limit, fact } = limitFor(store, charging, flow);
      if (limit === undefined) return;
      if (limit === "unknown") {
        needs.set(fact, needed(fact, part.subject));
        return;
      }
      const beyond = amps / limit.low;
      if (worst === null || beyond > worst.amps / worst.limit.low)
        worst = { part: part.id, amps, limit, state: flow.state, charging };
    });
  }
  return { worst, needs: [...needs.values()] };
}
