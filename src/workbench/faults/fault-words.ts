import type { Outcome, Range } from "../../fault/index.ts";
import type { Units } from "../contract.ts";
import { NOTHING, printNumber } from "../look/print-in-units.ts";
import { outcomeWords } from "../look/outcome-mark.tsx";
import type { Clearing, PairRow, Prospective, Sight } from "../worker/fault-answers.ts";

const metric: Units = { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." };

/**
 * Fault current: three figures, thousands as kA.
 *
 * @param amps A
 * @example
 * printFault(2614.5) //=> "2.61 kA"
 * printFault(85.2) //=> "85.2 A"
 */
export function printFault(amps: number | null | undefined, units: Units = metric): string {
  if (amps === null || amps === undefined) return NOTHING;
  const thousands = Math.abs(amps) >= 999.5;
  return `${printNumber(thousands ? amps / 1000 : amps, { figures: 3 }, units)} ${thousands ? "kA" : "A"}`;
}

/**
 * A range of fault current; one figure where both read alike.
 *
 * @example
 * printFaultRange({ low: 774, high: 1038 }) //=> "774 A…1.04 kA"
 */
export function printFaultRange(range: Range | null, units: Units = metric): string {
  if (range === null) return NOTHING;
  const [low, high] = [printFault(range.low, units), printFault(range.high, units)];
  return low === high ? high : `${low}…${high}`;
}

/**
 * A time as it is said of devices.
 *
 * @param s seconds
 * @example
 * printSeconds(0.15) //=> "0.15 s"
 * printSeconds(3600) //=> "1 h"
 */
export function printSeconds(s: number, units: Units = metric): string {
  const [value, unit] = s >= 3600 ? [s / 3600, "h"] : s >= 120 ? [s / 60, "min"] : [s, "s"];
  return `${printNumber(value, { figures: 2 }, units)} ${unit}`;
}

/** How a fault ends and when: `cleared within 1 s`. */
export function endsWords(outcome: Outcome, seconds: Clearing, units: Units): string {
  const word = outcomeWords[outcome];
  return (outcome === "cleared" || outcome === "limited") && seconds.high !== null && seconds.high > 0
    ? `${word} within ${printSeconds(seconds.high, units)}`
    : word;
}

/** When a device opens for a fault: `1st, within 0.3 s`. */
export function opensWords({ why, least, most, order }: Sight, units: Units): string {
  if (why !== "opens" || most === null) return why === "not published" ? "may open: not published when" : why;
  const from = least === null || least < 1e-3 ? "within" : `${printSeconds(least, units)}…`;
  const when = `${from}${from === "within" ? " " : ""}${printSeconds(most, units)}`;
  return order === null ? `would open ${when}` : `${ordinals[order - 1] ?? `${order}th`} ${when}`;
}

const ordinals = ["1st", "2nd", "3rd"] as const;

/** Prospective current at a terminal in a state; over all of them where the state is none of the plan's. */
export function inState(
  at: Prospective | null,
  state: string | null,
): { readonly greatest: number; readonly least: number | null } | null {
  return at === null ? null : (at.states.find((one) => one.state === state) ?? at);
}

/** `selective up to 60 A`. */
export const verdictWords = ({ verdict, upTo }: Pick<PairRow, "verdict" | "upTo">, units: Units): string =>
  upTo === null ? verdict : `${verdict} ${printFault(upTo, units)}`;

/** A few of many: `fridge, VHF and 3 more`. */
export function someOf(list: readonly string[], most: number): string {
  if (list.length <= most + 1) return list.join(", ");
  return `${list.slice(0, most).join(", ")} and ${list.length - most} more`;
}
