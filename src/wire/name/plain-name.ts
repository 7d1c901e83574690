import type { PrintedSystem, WireMake } from "../make/wire-make.ts";
import { homesOf } from "./homes.ts";
import { nameWire } from "./name-wire.ts";
import type { NameDialect } from "./wire-name.ts";

const homeOf: Readonly<Record<PrintedSystem, NameDialect>> = {
  AWG: "north american",
  kcmil: "north american",
  "mm²": "european",
  SAE: "vehicle",
  "SAE metric label": "vehicle",
  SWG: "british",
  JIS: "japanese",
  "solid diameter": "japanese",
  "vehicle diameter": "australian",
  strands: "european",
};

/**
 * The dialect in which a make is at home: that of its kind of cable, else that of its size.
 *
 * @example
 * homeDialect({ family: "twin and earth", size: null }) //=> "british"
 */
export function homeDialect({ family, size }: WireMake): NameDialect {
  const ofFamily = family === null ? undefined : homesOf[family][0];
  if (ofFamily !== undefined) return ofFamily;
  return size === null ? "european" : homeOf[size.system];
}

/**
 * What to write instead of a label that can be misread: it means this make, as far as size, conductors and kind go, wherever it stands.
 *
 * @returns null where there is no such label
 * @example
 * const size = { system: "AWG", name: "14", label: "14 AWG", areaMm2: 2.081, basis: "metal" };
 * const cores = { insulated: 3, total: 4, ground: "bare", groundSize: null, others: [], paired: false };
 * plainName({ ...emptyMake, size, cores, family: "building cable" }) //=> "14/3 w/G building cable"
 */
export function plainName(make: WireMake): string | null {
  const named = nameWire(make, { dialect: homeDialect(make), use: "drawing" });
  return named.label === null || named.context !== null ? null : named.label;
}
