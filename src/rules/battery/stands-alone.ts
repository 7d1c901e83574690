import type { Store } from "../../system/index.ts";
import type { Bank } from "./banks.ts";

/** Why nothing of a bank shares its current with anything that can be told apart; null: units of it stand abreast. */
export function standsAlone(bank: Bank, own: readonly Store[]): string | null {
  if (bank.abreast.some((n) => n > 1)) return null;
  return own.some((s) => s.strings > 1) ? "its units stand behind one pair of terminals" : "nothing stands abreast";
}
