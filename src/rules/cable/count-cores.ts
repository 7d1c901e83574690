import type { WrittenCable } from "../../plan/index.ts";
import { coresOf } from "../../system/index.ts";
import type { CircuitView } from "../build.ts";

/** Cores that circuits need, those that carry current apart from the earth. */
export interface CoresNeeded {
  readonly live: number;
  /** One earth serves all that share a cable. */
  readonly earth: boolean;
}

/**
 * The cores that circuits need in one cable, by what they do.
 *
 * Parallel conductors lie in cables of their own, one set in each.
 */
export function coresNeeded(circuits: readonly CircuitView[]): CoresNeeded {
  let live = 0;
  let earth = false;
  for (const { circuit } of circuits) {
    const functions = coresOf(circuit.conductors);
    live += functions.filter((fn) => fn !== "PE").length;
    earth ||= functions.includes("PE");
  }
  return { live, earth };
}

/** Cores that a cable has. */
export interface CoresThere {
  /** That may carry current: with an insulated earth that may be among them, from the fewest to the most. */
  readonly live: { readonly low: number; readonly high: number };
  readonly earth: boolean | "not stated";
}

/** The cores of a cable by what they may do: a green one is for the earth alone. */
export function coresThere({ cores }: WrittenCable): CoresThere {
  const { insulated, ground } = cores;
  const own = ground === "insulated" ? insulated - 1 : insulated;
  // Of two cores none is an earth: there would be no way back.
  if (ground === "not stated" && insulated === 2) return { live: { low: 2, high: 2 }, earth: false };
  if (ground === "not stated")
    return { live: { low: Math.max(0, insulated - 1), high: insulated }, earth: "not stated" };
  return { live: { low: own, high: own }, earth: ground !== "none" };
}
