import { decimalText } from "../../quantity/decimal-text.ts";
import type { System } from "../../system/index.ts";

/**
 * Residual current at which what holds any of some contacts opens, `30 mA`.
 *
 * @param contacts ids
 * @returns empty: it watches no leakage; `? mA`: it does, and nobody says at how much
 */
export function residualText({ elements }: Pick<System, "elements">, contacts: ReadonlySet<string>): string {
  const guards = elements.filter((e) => e.is === "residual guard" && e.contacts.some((id) => contacts.has(id)));
  return guards.map((e) => (e.is === "residual guard" ? milliamps(e.amps) : "")).join(", ");
}

type Amps = Extract<System["elements"][number], { readonly is: "residual guard" }>["amps"];

/** `30 mA`. */
export const milliamps = (amps: Amps): string =>
  amps === "unknown" || amps.origin === "unknown" ? "? mA" : `${decimalText(1000 * amps.high, { figures: 3 })} mA`;
