import { cite } from "../../explain/citation.ts";
import { isTrust, weakestTrust, type Trust } from "../../explain/trust.ts";
import { findRow, trustOfCell } from "../../explain/table.ts";
import { hd361Letters, type Hd361LettersRow } from "../../reference/hd361-letters.ts";
import type { Stranding, StrandingName } from "../make/wire-make.ts";
import { fitnessOf } from "./fit-words.ts";
import { sayType } from "./say-type.ts";
import type { TypeCode, TypeFact } from "./type-code.ts";

/** What stands where in a harmonised code, and the place after it. */
interface Parts {
  readonly to: number;
  readonly code: string;
  readonly standard: Hd361LettersRow;
  readonly volts: Hd361LettersRow;
  /** Insulation, then screens and sheaths from the inside out. */
  readonly layers: readonly Hd361LettersRow[];
  readonly form: Hd361LettersRow | null;
  readonly conductor: Hd361LettersRow | null;
}

const letter = (place: string, letters: string) => findRow(hd361Letters, `${place} ${letters}`);
const isHyphen = (character: string) => character === "-" || character === "–" || character === "‑";
const isLetter = (character: string | undefined) => character !== undefined && /\p{L}/u.test(character);
const isDigit = (character: string | undefined) => character !== undefined && character >= "0" && character <= "9";

/** A letter with the digit that belongs to it, or the letter alone where no symbol has that digit: `F` in `H05VVF3G1.5`. */
function symbolAt(upper: string, at: number, places: readonly string[]): Hd361LettersRow | null {
  const two = isDigit(upper[at + 1]) ? upper.slice(at, at + 2) : null;
  for (const place of places) {
    const found = two === null ? null : letter(place, two);
    if (found !== null) return found;
  }
  for (const place of places) {
    const found = letter(place, upper.charAt(at));
    if (found !== null) return found;
  }
  return null;
}

/**
 * Splits a harmonised code at a place of a text.
 *
 * @param upper the text in capitals
 */
function partsAt(upper: string, from: number): Parts | null {
  const standard = letter("standard", upper.charAt(from));
  if (standard === null) return null;
  const two = letter("volts", upper.slice(from + 1, from + 3));
  const volts = two ?? letter("volts", upper.charAt(from + 1));
  if (volts === null) return null;
  let at = from + 1 + volts.letter.length;
  const layers: Hd361LettersRow[] = [];
  let form: Hd361LettersRow | null = null;
  let conductor: Hd361LettersRow | null = null;
  while (isLetter(upper[at])) {
    const places =
      layers.length === 0 ? ["cover"] : form === null ? ["cover", "screen", "form", "conductor"] : ["conductor"];
    const symbol = symbolAt(upper, at, places);
    if (symbol === null) break;
    if (symbol.place === "conductor") {
      // The hyphen was left out: `H07RNF`.
      conductor = symbol;
      at += symbol.letter.length;
      break;
    }
    if (symbol.place === "form") form = symbol;
    else layers.push(symbol);
    at += symbol.letter.length;
  }
  if (layers.length === 0) return null;
  if (conductor === null && isHyphen(upper.charAt(at))) {
    conductor = letter("conductor", upper.charAt(at + 1));
    if (conductor === null) return null;
    at += 2;
  }
  // `H07VK` and `H07VR`: the last letter is the conductor where no hyphen stands; R is a cover as well.
  const last = layers.at(-1);
  if (conductor === null && form === null && layers.length === 2 && last?.letter === "R" && volts.letter === "07") {
    conductor = letter("conductor", "R");
    layers.pop();
  }
  if (conductor === null && form?.letter === "H") {
    conductor = letter("conductor", "H");
    form = null;
  }
  if (isLetter(upper[at]) || upper[at] === "." || upper[at] === ",") return null;
  const body = `${standard.letter}${volts.letter}${layers.map((layer) => layer.letter).join("")}${form?.letter ?? ""}`;
  return {
    to: at,
    code: conductor === null ? body : `${body}-${conductor.letter}`,
    standard,
    volts,
    layers,
    form,
    conductor,
  };
}

const strandingNames: readonly string[] = [
  "class 1",
  "class 2",
  "class 5",
  "class 6",
  "tinsel",
] satisfies StrandingName[];
const isStrandingName = (text: string): text is StrandingName => strandingNames.includes(text);

function strandingOf(conductor: Hd361LettersRow | null): Stranding | null {
  const name = conductor?.stranding ?? null;
  return name !== null && isStrandingName(name) ? { name, wires: null, wireMm: null } : null;
}

const trustOf = (row: Hd361LettersRow): Trust => (isTrust(row.trust) ? row.trust : "memory");

function trapsOf({ code, volts, conductor, layers, form }: Parts): string[] {
  const traps: string[] = [];
  if (conductor === null)
    traps.push(`the letter of the conductor is missing: ${code}-F, -K, -R and -U are different cables.`);
  if (conductor?.letter === "K")
    traps.push("-K is finely stranded but meant for fixed wiring: fineness is no leave to move it.");
  if (conductor?.letter === "U" || conductor?.letter === "R")
    traps.push("solid or stiffly stranded: not for a boat or a moving vehicle.");
  if (layers.length > 1 || form !== null)
    traps.push("G after the number of cores means one of them is green-yellow, X means none is.");
  if (volts.letter !== "1") traps.push(`${volts.letter} is a voltage (${volts.meaning} V), not a size.`);
  return traps;
}

const special: Readonly<Record<string, Partial<TypeCode>>> = {
  "H1Z2Z2-K": {
    family: "solar cable",
    name: "harmonised solar cable, cross-linked low-smoke insulation and sheath, finely stranded",
    volts: 1500,
    voltsSay: "1500 DC",
    metal: "copper",
    plating: "tinned",
    counts: "single",
    cores: 1,
    ground: "none",
    fitness: { wet: true, oil: null, sun: true, flame: true, flexible: null },
    source: cite("en-50618", "", "memory"),
    unverified: ["volts", "temperatureC", "fitness"],
  },
};

function typeOf(parts: Parts): TypeCode {
  const { code, standard, volts, layers, form, conductor } = parts;
  const [insulation, ...outer] = layers;
  const sheath = outer.findLast((layer) => layer.place === "cover") ?? null;
  const single = outer.length === 0 && form === null;
  const rows = [
    standard,
    volts,
    ...layers,
    ...(form === null ? [] : [form]),
    ...(conductor === null ? [] : [conductor]),
  ];
  const cover = sheath ?? insulation ?? null;
  const weak: TypeFact[] = [];
  if (
    insulation !== undefined &&
    insulation.temperatureC !== null &&
    trustOfCell(hd361Letters, insulation, "temperatureC") === "memory"
  )
    weak.push("temperatureC");
  if (cover?.letter === "N" || cover?.letter === "Q") weak.push("fitness");
  const welding = conductor?.letter === "D" || conductor?.letter === "E";
  const name = [
    `${standard.meaning} ${welding ? "welding cable" : single ? "single wire" : "cable"}`,
    `${insulation?.meaning ?? ""} insulation`,
    ...outer.map((layer) =>
      layer.place === "cover" ? `${layer.meaning}${layer.meaning.endsWith("braid") ? "" : " sheath"}` : layer.meaning,
    ),
    ...(form === null ? [] : [form.meaning]),
    ...(conductor === null ? [] : [conductor.meaning]),
  ].join(", ");
  const type: Omit<TypeCode, "says"> = {
    code,
    inWords: false,
    family: welding ? "welding cable" : "harmonised cable",
    name,
    volts: volts.volts,
    voltsSay: volts.meaning,
    temperatureC: insulation?.temperatureC ?? null,
    wetTemperatureC: null,
    fitness: fitnessOf(cover?.fit ?? null, conductor?.fit ?? null),
    metal: null,
    plating: null,
    stranding: strandingOf(conductor) ?? (welding ? { name: "stranded", wires: null, wireMm: null } : null),
    form: form === null || form.letter === "H8" ? null : "flat",
    counts: single ? "single" : "all",
    ground: single ? "none" : "not stated",
    cores: single ? 1 : null,
    limits: { sizes: null, cores: null },
    traps: trapsOf(parts),
    alsoMeans: null,
    source: cite("hd-361", "tables of symbols", weakestTrust(...rows.map(trustOf))),
    unverified: weak,
    ...special[code],
  };
  return { ...type, says: sayType(type) };
}

const made = new Map<string, TypeCode>();

/**
 * The harmonised code (HD 361) at a place of a text; cores and size may be joined to it.
 *
 * @param upper the text in capitals, as long as the text
 */
export function hd361At(upper: string, from: number): { readonly to: number; readonly type: TypeCode } | null {
  const parts = partsAt(upper, from);
  if (parts === null) return null;
  let type = made.get(parts.code);
  if (type === undefined) {
    type = typeOf(parts);
    // Codes are few; a text made to hold many must not fill the memory.
    if (made.size < 2000) made.set(parts.code, type);
  }
  return { to: parts.to, type };
}
