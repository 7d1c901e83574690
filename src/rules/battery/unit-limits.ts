import type { Store, Value } from "../../system/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import type { BankFlow } from "./bank-flows.ts";
import { nameOf, type Bank } from "./banks.ts";

/** What a battery may give or take; undefined: its maker states nothing, and need not. */
export type Limit = Value | "unknown" | undefined;

/** A current of one battery against its limit. */
export interface Load {
  readonly part: string;
  readonly amps: number;
  readonly limit: Value;
  readonly state: string;
  readonly charging: boolean;
  readonly flow: BankFlow;
}

/** A unit of a bank in words. */
export const placeOf = (bank: Bank, { part }: Load): string =>
  bank.parts.length === 1 ? nameOf(bank) : `${part} in ${nameOf(bank)}`;

/** Of a bank of which one unit of those abreast is off, what comes nearest to its limit; needs: of all such. */
export interface LeftWhenOneIsOff {
  readonly worst: { readonly load: Load; readonly off: string } | null;
  readonly needs: readonly Needed[];
}

/** What comes nearest to its limit, or furthest beyond; and the limits that are missing where a current could pass them. */
export interface Loads {
  readonly worst: Load | null;
  readonly needs: readonly Needed[];
}

/** Limits for long, in the sense of a discharge and of a charge. A lithium battery always has a management, so one that states none is not known. */
export function limitsOf({ curve, unit, strings }: Store): { out: Limit; into: Limit } {
  const own = unit.continuousAmps ?? (curve === "LFP" ? "unknown" : undefined);
  return { out: many(own, strings), into: many(unit.continuousAmps, strings) };
}

/** A limit of each, for units abreast behind one pair of terminals. */
export const many = (limit: Limit, strings: number): Limit =>
  limit === undefined || limit === "unknown"
    ? limit
    : { low: limit.low * strings, high: limit.high * strings, origin: limit.origin };

/** The limit for a current of a store, positive while it is charged too, in a condition; and what is missing where nobody knows it. */
export type LimitFor = (
  store: Store,
  at: { readonly amps: number; readonly charging: boolean; readonly flow: BankFlow },
) => { readonly limit: Limit; readonly fact: string };

/**
 * Weighs the currents of a bank's units against their limits in a list of conditions.
 *
 * @param without index of the store that is off
 * @param share how currents divide: as solved, or, where nobody knows the leads, between evenly and all through one unit
 */
export function weighUnits(
  build: Build,
  bank: Bank,
  flows: readonly BankFlow[],
  limitFor: LimitFor,
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
      // Rounding in the last digits is no excess.
      const amps = Number(
        Math.abs(share === "solved" || abreast < 2 ? solved : share === "even" ? total / abreast : total).toPrecision(
          9,
        ),
      );
      if (amps < 1e-6) return;
      const charging = solved < 0;
      const { limit, fact } = limitFor(store, { amps, charging, flow });
      if (limit === undefined) return;
      if (limit === "unknown") {
        needs.set(fact, needed(fact, part.subject));
        return;
      }
      const beyond = amps / limit.low;
      if (worst === null || beyond > worst.amps / worst.limit.low)
        worst = { part: part.id, amps, limit, state: flow.state, charging, flow };
    });
  }
  return { worst, needs: [...needs.values()] };
}

/**
 * Weighs a bank with each of its units switched off in turn, where others stand abreast of it.
 *
 * @param all conditions with all units
 * @param without the same with one store off
 */
export function weighWhenOneIsOff(
  build: Build,
  bank: Bank,
  all: readonly BankFlow[],
  without: (store: number) => readonly BankFlow[],
  limitFor: LimitFor,
): LeftWhenOneIsOff {
  const { stores } = build.settled.model.grid;
  let worst: LeftWhenOneIsOff["worst"] = null;
  const needs: Needed[] = [];
  const take = ({ worst: load, needs: more }: Loads, off: string): void => {
    needs.push(...more);
    if (load === null) return;
    if (worst === null || load.amps / load.limit.low > worst.load.amps / worst.load.limit.low) worst = { load, off };
  };
  bank.units.forEach((i, k) => {
    const store = stores[i]?.element;
    if (store === undefined) return;
    if ((bank.abreast[k] ?? 1) > 1) take(weighUnits(build, bank, without(i), limitFor, i), store.part);
    if (store.strings > 1) {
      const one = { ...bank, units: [i], parts: bank.parts.slice(k, k + 1), abreast: [1] };
      // What all of them may carry, less one.
      const left = 1 - 1 / store.strings;
      const fewer: LimitFor = (s, at) => {
        const { limit, fact } = limitFor(s, { ...at, amps: at.amps / left });
        return { limit: many(limit, left), fact };
      };
      take(weighUnits(build, one, all, fewer), "one of its units");
    }
  });
  return { worst, needs: [...new Map(needs.map((n) => [`${n.about} ${n.fact}`, n])).values()] };
}
