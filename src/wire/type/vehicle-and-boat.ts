import { cite } from "../../explain/citation.ts";
import { findRow, trustOfCell } from "../../explain/table.ts";
import { isTrust, weakestTrust, type Trust } from "../../explain/trust.ts";
import { vehicleLetters, type VehicleLettersRow } from "../../reference/vehicle-letters.ts";
import { noFitness } from "../make/wire-make.ts";
import { sayType } from "./say-type.ts";
import type { TypeCode } from "./type-code.ts";

const row = (place: string, letters: string) => findRow(vehicleLetters, `${place} ${letters}`);
const isHyphen = (character: string) => character === "-" || character === "–" || character === "‑";
const trustOf = (of: VehicleLettersRow): Trust => (isTrust(of.trust) ? of.trust : "memory");

/** What all single wires and cables of this page have in common. */
const bare = {
  inWords: false,
  wetTemperatureC: null,
  fitness: noFitness,
  metal: null,
  plating: null,
  stranding: null,
  form: null,
  limits: { sizes: null, cores: null },
  alsoMeans: null,
} as const;

/** Insulations, longest letters first, so that `2X` is not lost and `YW` is no `Y`. */
const insulations = vehicleLetters.rows
  .filter(({ place }) => place === "insulation")
  .sort((a, b) => (b.letters?.length ?? 0) - (a.letters?.length ?? 0));

function vehicleType(
  wall: VehicleLettersRow,
  insulation: VehicleLettersRow,
  layer: VehicleLettersRow | null,
): TypeCode {
  const code = `FL${wall.letters ?? ""}${insulation.letters ?? ""}${layer === null ? "" : `-${layer.letters ?? ""}`}`;
  const rows = [wall, insulation, ...(layer === null ? [] : [layer])];
  const type: Omit<TypeCode, "says"> = {
    ...bare,
    code,
    family: "vehicle wire",
    name: [
      "vehicle wire",
      `${insulation.meaning ?? ""} insulation`,
      ...rows.filter((of) => of !== insulation).map(({ meaning }) => meaning ?? ""),
    ].join(", "),
    volts: 60,
    voltsSay: "60 DC",
    temperatureC: insulation.temperatureC,
    stranding: { name: "stranded", wires: null, wireMm: null },
    counts: "single",
    ground: "none",
    cores: 1,
    traps: [
      "made for the 12 to 60 V of a vehicle: it is no mains wire.",
      ...(wall.letters === null
        ? []
        : ["its outside is thinner than that of other wire of the size: seals and crimps have to match."]),
    ],
    source: cite("din-72551", "type designation", weakestTrust(...rows.map(trustOf))),
    unverified: [
      "volts",
      ...(trustOfCell(vehicleLetters, insulation, "temperatureC") === "memory" ? (["temperatureC"] as const) : []),
    ],
  };
  return { ...type, says: sayType(type) };
}

const made = new Map<string, TypeCode>();
function once(key: string, make: () => TypeCode): TypeCode {
  let type = made.get(key);
  if (type === undefined) made.set(key, (type = make()));
  return type;
}

/**
 * The vehicle wire code (DIN 72551, ISO 6722) at a place of a text: FL, the wall, the insulation, the lay.
 *
 * @param upper the text in capitals
 */
export function vehicleWireAt(upper: string, from: number): { readonly to: number; readonly type: TypeCode } | null {
  if (!upper.startsWith("FL", from)) return null;
  let at = from + 2;
  const wall = row("wall", upper[at] === "R" || upper[at] === "U" ? upper.charAt(at++) : "");
  const insulation = insulations.find(({ letters }) => letters !== null && upper.startsWith(letters, at));
  if (wall === null || insulation === undefined) return null;
  at += insulation.letters?.length ?? 0;
  const hyphen = isHyphen(upper.charAt(at)) ? 1 : 0;
  const lay = row("lay", upper.charAt(at + hyphen));
  if (lay !== null) at += hyphen + 1;
  return { to: at, type: once(upper.slice(from, at).replace(/[–‑]/g, "-"), () => vehicleType(wall, insulation, lay)) };
}

function boatType(dry: VehicleLettersRow, wet: VehicleLettersRow | null): TypeCode {
  const type: Omit<TypeCode, "says"> = {
    ...bare,
    code: `BC-${dry.letters ?? ""}${wet === null ? "" : `W${wet.letters ?? ""}`}`,
    family: "boat cable",
    name: "boat cable",
    volts: 600,
    voltsSay: "600",
    temperatureC: dry.temperatureC,
    wetTemperatureC: wet?.temperatureC ?? null,
    fitness: { wet: wet === null ? null : true, oil: true, sun: null, flame: true, flexible: null },
    counts: "all",
    ground: "not stated",
    cores: null,
    limits: { sizes: ["18", "4/0"], cores: null },
    traps: [
      "a green wire is counted: 14/3 has three wires, not four.",
      "the mark does not ask for tinned wire and allows Type 2 strands: look for both.",
    ],
    source: cite("ul-1426", "marks BC-", weakestTrust(trustOf(dry), ...(wet === null ? [] : [trustOf(wet)]))),
    unverified: ["fitness"],
  };
  return { ...type, says: sayType(type) };
}

/**
 * The boat-cable mark at a place of a text: `BC-5W2` is 105 °C dry and 75 °C wet.
 *
 * @param upper the text in capitals
 */
export function boatMarkAt(upper: string, from: number): { readonly to: number; readonly type: TypeCode } | null {
  if (!upper.startsWith("BC", from)) return null;
  let at = from + 2;
  if (isHyphen(upper.charAt(at)) || upper[at] === " ") at++;
  const dry = row("boat", upper.charAt(at));
  if (dry === null || dry.temperatureC === null) return null;
  at++;
  const wet = upper[at] === "W" ? row("boat", upper.charAt(at + 1)) : null;
  if (wet !== null) at += 2;
  // `BC 5` alone may be bare copper and a number.
  else if (upper[from + 2] === " ") return null;
  return { to: at, type: once(`BC${dry.letters ?? ""}${wet?.letters ?? ""}`, () => boatType(dry, wet)) };
}
