import { cite, findRow, isDocumentId, trustOfCell, type Citation, type Trust } from "../explain/index.ts";
import { amps, volts, type Amps, type Volts } from "../quantity/index.ts";
import { families, type FamiliesRow } from "../reference/families.ts";

/** The kinds of protective device, in the order of `reference/device/families.csv`. */
export const deviceFamilyIds = [
  "blade_type_F",
  "blade_type_C",
  "blade_type_E",
  "strip_SF30",
  "strip_SF51",
  "anl_limiter",
  "ul_class_T",
  "terminal_post",
  "glass_6x32",
  "glass_5x20",
  "thermal_breaker",
  "surface_breaker",
  "mcb_B",
  "mcb_C",
  "mcb_D",
  "dc_mcb_C",
  "branch_breaker",
  "iec_gG",
  "ul_class_J",
  "hydraulic_breaker",
] as const;

export type DeviceFamilyId = (typeof deviceFamilyIds)[number];

export type DeviceKind = "fuse" | "breaker";

/** What is done after it has opened: another fuse, a hand on the handle, or nothing at all. */
export type Reset = "replace" | "manual" | "self";

export type Supply = "DC" | "AC";

/** A kind of protective device as the trade sells it. Plain data. */
export interface DeviceFamily {
  readonly id: DeviceFamilyId;
  /** Of the trade, never of a maker. */
  readonly name: string;
  readonly kind: DeviceKind;
  readonly reset: Reset;
  /** What it may be used on, unless the part is marked otherwise. */
  readonly supplies: readonly Supply[];
  /** Ratings on sale, ascending. */
  readonly standardRatings: readonly Amps[];
  readonly ratingsTrust: Trust;
  /** Greatest direct-current volts of the usual grade; null where none is known. */
  readonly dcVolts: Volts | null;
  readonly dcVoltsTrust: Trust;
  readonly source: Citation;
  /** What to mind about the holder or the mounting; empty where there is nothing. */
  readonly holder: string;
}

/** The citation of a row that names its own document. */
export function citeRow(row: { readonly document: string; readonly clause: string | null }, trust: Trust): Citation {
  if (!isDocumentId(row.document)) throw new Error(`a device table names the unknown document ${row.document}`);
  return cite(row.document, row.clause ?? "", trust);
}

/** The rows of a table of devices by family, in the order of the table: sizing asks thousands of times. */
export function groupByFamily<Row extends { readonly family: string }>(
  rows: readonly Row[],
): (family: DeviceFamilyId) => readonly Row[] {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const group = groups.get(row.family);
    if (group === undefined) groups.set(row.family, [row]);
    else group.push(row);
  }
  return (family) => groups.get(family) ?? [];
}

const supplies: Readonly<Record<string, readonly Supply[]>> = { DC: ["DC"], AC: ["AC"], both: ["DC", "AC"] };

function familyOfRow(id: DeviceFamilyId, row: FamiliesRow): DeviceFamily {
  const ratingsTrust = trustOfCell(families, row, "ratingsA");
  return {
    id,
    name: row.name,
    kind: row.kind === "breaker" ? "breaker" : "fuse",
    reset: row.reset === "manual" || row.reset === "self" ? row.reset : "replace",
    supplies: supplies[row.supply] ?? [],
    standardRatings: row.ratingsA.split(" ").map((rating) => amps(Number(rating))),
    ratingsTrust,
    dcVolts: row.dcVolts === null ? null : volts(row.dcVolts),
    dcVoltsTrust: row.dcVolts === null ? "missing" : trustOfCell(families, row, "dcVolts"),
    source: citeRow(row, ratingsTrust),
    holder: row.holder ?? "",
  };
}

/** Every kind of protective device that is known here. */
export const deviceFamilies: readonly DeviceFamily[] = deviceFamilyIds.map((id) => {
  const row = findRow(families, id);
  if (row === null) throw new Error(`device/families has no ${id}`);
  return familyOfRow(id, row);
});

const byId = new Map(deviceFamilies.map((family) => [family.id, family]));

/** The facts of a kind of protective device. */
export function deviceFamily(id: DeviceFamilyId): DeviceFamily {
  const family = byId.get(id);
  if (family === undefined) throw new Error(`no device family ${id}`);
  return family;
}

/** Whether a text is the id of a device family. */
export const isDeviceFamilyId = (text: string): text is DeviceFamilyId =>
  (deviceFamilyIds as readonly string[]).includes(text); // widened so that any text may be asked for

/** Words of the trade beside the names in the table, folded. */
const aliases: Readonly<Record<string, DeviceFamilyId>> = {
  blade: "blade_type_C",
  "standard blade": "blade_type_C",
  "standard blade fuse": "blade_type_C",
  "blade type c": "blade_type_C",
  "small blade": "blade_type_F",
  "mini blade": "blade_type_F",
  "mini blade fuse": "blade_type_F",
  "blade type f": "blade_type_F",
  "large blade": "blade_type_E",
  "maxi blade": "blade_type_E",
  "maxi blade fuse": "blade_type_E",
  "blade type e": "blade_type_E",
  sf30: "strip_SF30",
  "strip 30 mm": "strip_SF30",
  sf51: "strip_SF51",
  "strip 51 mm": "strip_SF51",
  anl: "anl_limiter",
  "anl fuse": "anl_limiter",
  "strip fuse": "strip_SF30",
  "strip fuse 30 mm": "strip_SF30",
  "strip fuse 51 mm": "strip_SF51",
  "class t": "ul_class_T",
  "t class": "ul_class_T",
  "battery post": "terminal_post",
  "battery post fuse": "terminal_post",
  "terminal fuse": "terminal_post",
  "terminal post": "terminal_post",
  "terminal post fuse": "terminal_post",
  glass: "glass_6x32",
  "glass fuse": "glass_6x32",
  "thermal breaker": "thermal_breaker",
  "surface breaker": "surface_breaker",
  mcb: "mcb_C",
  "miniature breaker": "mcb_C",
  "mcb b": "mcb_B",
  "mcb c": "mcb_C",
  "mcb d": "mcb_D",
  "dc mcb": "dc_mcb_C",
  "dc miniature breaker": "dc_mcb_C",
  gg: "iec_gG",
  "gg fuse link": "iec_gG",
  "class gg": "iec_gG",
  "class j": "ul_class_J",
  "j class": "ul_class_J",
  "hydraulic magnetic": "hydraulic_breaker",
  "magnetic hydraulic breaker": "hydraulic_breaker",
  "magnetic breaker": "hydraulic_breaker",
  // Names by which they are asked for over the counter.
  ato: "blade_type_C",
  atc: "blade_type_C",
  ats: "blade_type_C",
  maxi: "blade_type_E",
  "maxi fuse": "blade_type_E",
  mini: "blade_type_F",
  "mini fuse": "blade_type_F",
  midi: "strip_SF30",
  "midi fuse": "strip_SF30",
  ami: "strip_SF30",
  mega: "strip_SF51",
  "mega fuse": "strip_SF51",
  amg: "strip_SF51",
  mrbf: "terminal_post",
  nh: "iec_gG",
  nh00: "iec_gG",
};

const fold = (text: string) =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, " ")
    .replaceAll("×", "x");
const names = new Map<string, DeviceFamilyId>([
  ...Object.entries(aliases),
  ...deviceFamilies.flatMap(({ id, name }): [string, DeviceFamilyId][] => [
    [fold(name), id],
    [fold(id), id],
  ]),
]);

/**
 * The family that a person means.
 *
 * @param text a name, an id or a word of the trade, in any case, with blanks or hyphens
 * @returns null when no family is called so
 * @example
 * readDeviceFamily("Class T fuse") //=> "ul_class_T"
 * readDeviceFamily("blade") //=> "blade_type_C"
 * readDeviceFamily("cartridge") //=> null
 */
export const readDeviceFamily = (text: string): DeviceFamilyId | null => names.get(fold(text)) ?? null;
