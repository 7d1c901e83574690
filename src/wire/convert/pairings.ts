import { cite, takeCell, type Citation, type Trust } from "../../explain/index.ts";
import { sizePairings } from "../../reference/size-pairings.ts";
import type { PrintedSize } from "../make/wire-make.ts";

/** Published lists that pair sizes of two systems. */
export type PairingId = "terminals" | "stranding chart" | "not-smaller guide" | "workshop list";

interface PairingFacts {
  readonly says: string;
  readonly source: Citation;
  /** A customary pair holds both ways; other lists were made for one direction. */
  readonly isBothWays: boolean;
}

/** The lists by name, the one to try first before the others. */
export const pairings: Readonly<Record<PairingId, PairingFacts>> = {
  terminals: {
    says: "customary pairs of terminals, IEC 60947-1 Table 1",
    source: cite("iec-60947-1", "Table 1", "memory"),
    isBothWays: true,
  },
  "not-smaller guide": {
    says: "smallest metric size with at least the AWG area, an application guide after ASTM B258 and IEC 60228",
    source: cite("data-sheets", "application guide, smallest metric size not smaller", "article"),
    isBothWays: false,
  },
  "stranding chart": {
    says: "a European and US stranding chart",
    source: cite("data-sheets", "European and US cable stranding", "article"),
    isBothWays: true,
  },
  "workshop list": {
    says: "a car workshop manual of 1998, metric to AWG",
    source: cite("data-sheets", "workshop manual, wire size conversion chart", "article"),
    isBothWays: false,
  },
};

/** The lists in the order in which they are tried. */
export const pairingIds = [
  "terminals",
  "not-smaller guide",
  "stranding chart",
  "workshop list",
] as const satisfies readonly PairingId[];

/** A size in a list, and whether the list was read against its direction. */
export interface Paired {
  readonly pairing: PairingId;
  readonly system: string;
  readonly name: string;
  readonly trust: Trust;
}

/** American sizes are one side: gauge up to 4/0, kcmil above. */
const isSide = (system: string, side: string): boolean => system === side || (system === "kcmil" && side === "AWG");

/**
 * What a published list makes of a size.
 *
 * @param side the system that is sought, `AWG` or `mm²`
 * @returns null where the list has no such size, or was not made for this direction
 * @example
 * pairedSize("terminals", { system: "mm²", name: "50" }, "AWG").name //=> "1/0"
 * pairedSize("stranding chart", { system: "mm²", name: "50" }, "AWG").name //=> "1"
 * pairedSize("workshop list", { system: "AWG", name: "12" }, "mm²") //=> null
 */
export function pairedSize(
  pairing: PairingId,
  size: Pick<PrintedSize, "system" | "name">,
  side: string,
): Paired | null {
  const rows = sizePairings.rows.filter((row) => row.pairing === pairing);
  const there = rows.find(
    (row) => row.fromSystem === size.system && row.fromSize === size.name && isSide(row.toSystem, side),
  );
  if (there !== undefined) {
    const trust = takeCell(sizePairings, there, "toSize")?.trust ?? "memory";
    return { pairing, system: there.toSystem, name: there.toSize, trust };
  }
  if (!pairings[pairing].isBothWays) return null;
  // Where two sizes are paired with one, the thicker.
  const back = rows.findLast(
    (row) => row.toSystem === size.system && row.toSize === size.name && isSide(row.fromSystem, side),
  );
  if (back === undefined) return null;
  const trust = takeCell(sizePairings, back, "fromSize")?.trust ?? "memory";
  return { pairing, system: back.fromSystem, name: back.fromSize, trust };
}

/** What each list makes of a size; those that say nothing are left out. */
export const allPaired = (size: Pick<PrintedSize, "system" | "name">, side: string): readonly Paired[] =>
  pairingIds.flatMap((id) => pairedSize(id, size, side) ?? []);
