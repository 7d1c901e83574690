import { cite } from "../../explain/citation.ts";
import { findRow } from "../../explain/table.ts";
import { cordLetters, type CordLettersRow } from "../../reference/cord-letters.ts";
import { fitnessOf } from "./fit-words.ts";
import { sayType } from "./say-type.ts";
import type { TypeCode } from "./type-code.ts";

const row = (place: string, letters: string): CordLettersRow => {
  const found = findRow(cordLetters, `${place} ${letters}`);
  if (found === null) throw new Error(`cord_letters has no ${place} "${letters}"`);
  return found;
};

/** Cord codes that are words or other things as well. */
const alsoMeans: Readonly<Record<string, string>> = {
  S: "a second or a slate colour",
  SE: "a service-entrance cable",
  SO: "the word so",
  ST: "the word street or a screw terminal",
  SW: "a switch, or black in German letters",
  SV: "a number or a name",
};

function typeOf(service: string, material: string, oil: string, wet: boolean): TypeCode {
  const code = `${service}${material}${oil}${wet ? "W" : ""}`;
  const base = row("service", service);
  const oils = oil === "" ? null : row("oil", oil);
  const suffix = wet ? row("suffix", "W") : null;
  const traps = [
    ...(wet ? [] : [`${code} without W is not for wet places or sunlight.`]),
    "a green conductor is counted: 12/3 has three wires.",
    "60 °C unless the cord prints more.",
    ...(service === "S" ? [] : [`${base.meaning} is 300 V; the S cords are 600 V.`]),
    ...(service === "SV" && wet ? ["the table of the law has no SV cord with W: read the letters again."] : []),
  ];
  const type: Omit<TypeCode, "says"> = {
    code,
    inWords: false,
    family: "flexible cord",
    name: [
      `flexible cord, ${base.meaning}`,
      row("material", material).meaning,
      ...(oils === null ? [] : [oils.meaning]),
    ].join(", "),
    volts: base.volts,
    voltsSay: String(base.volts),
    temperatureC: 60,
    wetTemperatureC: null,
    fitness: { ...fitnessOf(base.fit, oils?.fit ?? null, suffix?.fit ?? "not-wet not-sun") },
    metal: null,
    plating: null,
    stranding: { name: "stranded", wires: null, wireMm: null },
    form: null,
    counts: "all",
    ground: "not stated",
    cores: null,
    limits: {
      sizes: base.thinnest === null || base.thickest === null ? null : [base.thinnest, base.thickest],
      cores: base.coresFrom === null ? null : [base.coresFrom, base.coresTo],
    },
    traps,
    alsoMeans: alsoMeans[code] ?? null,
    source: cite("nfpa-70-2023", "Table 400.4", "article"),
    unverified: ["temperatureC"],
  };
  return { ...type, says: sayType(type) };
}

const made = new Map<string, TypeCode>();

/**
 * The cord code at a place of a text, by its letters: S, SJ or SV, then T or E, then O or OO, then W.
 *
 * @param upper the text in capitals
 * @returns null also where a letter or a mark follows that no cord has
 */
export function cordAt(upper: string, from: number): { readonly to: number; readonly type: TypeCode } | null {
  if (upper[from] !== "S") return null;
  let at = from + 1;
  let service = "S";
  if (upper[at] === "J" || upper[at] === "V") service += upper.charAt(at++);
  const material = upper[at] === "T" || upper[at] === "E" ? upper.charAt(at++) : "";
  let oil = "";
  while (oil.length < 2 && upper[at] === "O") oil += upper.charAt(at++);
  const wet = upper[at] === "W";
  if (wet) at++;
  const code = upper.slice(from, at);
  let type = made.get(code);
  if (type === undefined) made.set(code, (type = typeOf(service, material, oil, wet)));
  return { to: at, type };
}
