import type { PrintedSize, PrintedSystem } from "../make/wire-make.ts";
import { areaText } from "./area-text.ts";
import { sayNumber } from "./say-number.ts";
import type { NameDialect } from "./wire-name.ts";

/** Systems in which a dialect thinks. A size of another is named in its own system, and the neighbours are told. */
export const ownSystems: Readonly<Record<NameDialect, readonly PrintedSystem[]>> = {
  "north american": ["AWG", "kcmil", "strands"],
  boat: ["AWG", "kcmil", "SAE", "mm²", "strands"],
  european: ["mm²", "strands"],
  british: ["mm²", "SWG", "strands"],
  australian: ["mm²", "AWG", "vehicle diameter", "strands"],
  japanese: ["JIS", "mm²", "solid diameter", "strands"],
  vehicle: ["mm²", "SAE", "SAE metric label", "vehicle diameter", "strands"],
};

/**
 * A size as a dialect writes it, standing by itself; the most usual first.
 *
 * @param size what is named
 * @returns at least one; a size of a foreign system keeps its own, with the area beside it where it is metal
 * @example
 * sizeNames({ system: "AWG", name: "8", label: "8 AWG", areaMm2: 8.366, basis: "metal" }, "australian")[0] //=> "8 B&S"
 * sizeNames({ system: "AWG", name: "12", label: "12 AWG", areaMm2: 3.309, basis: "metal" }, "european")[0] //=> "AWG 12 (3.31 mm²)"
 */
export function sizeNames(size: PrintedSize, dialect: NameDialect): readonly string[] {
  const { system, name, label } = size;
  if (system === "AWG" && dialect === "australian") return [`${name} B&S`, label];
  if (system === "AWG" && !ownSystems[dialect].includes("AWG"))
    return [`AWG ${name} (${areaText(size.areaMm2)})`, label];
  if (system === "JIS") return [`${name} SQ`, label];
  if (system === "solid diameter") return [`${name} mm solid diameter`, label];
  if (system === "vehicle diameter") return [`${name} mm auto cable`, label];
  if (system === "SAE metric label") return [`${name} mm² SAE`, `${name} mm²`, label];
  return [label];
}

/** The shortest form inside a compound: `12` of `12/2`, `2.5` of `3G2.5`. */
export const bareSize = ({ system, name }: PrintedSize): string =>
  system === "solid diameter" ? Number(name).toFixed(1) : name;

/**
 * A size as it is spoken, without `gauge` or `square` where the dialect leaves it out of a compound.
 *
 * @param inCompound behind it comes the number of conductors or a kind of cable
 * @example
 * saySize({ system: "AWG", name: "4/0", label: "4/0 AWG", areaMm2: 107.2, basis: "metal" }, "north american") //=> "four aught"
 * saySize({ system: "mm²", name: "35", label: "35 mm²", areaMm2: 35, basis: "label" }, "european") //=> "thirty-five square"
 */
export function saySize({ system, name, label }: PrintedSize, dialect: NameDialect, inCompound = false): string {
  const aught = /^([1-4])\/0$/.exec(name)?.[1];
  const number = Number(aught ?? name);
  if (!Number.isFinite(number)) return label;
  const spoken = aught === undefined ? sayNumber(number) : `${sayNumber(number)} aught`;
  switch (system) {
    case "AWG":
      if (dialect === "australian") return `${spoken} B and S`;
      return aught !== undefined || inCompound ? spoken : `${spoken} gauge`;
    case "kcmil":
      return `${spoken} MCM`;
    case "SAE":
      return `${spoken} gauge SAE`;
    case "SWG":
      return `${spoken} SWG`;
    case "mm²":
      if (dialect === "british" || dialect === "australian") return inCompound ? spoken : `${spoken} mil`;
      return inCompound && dialect !== "north american" && dialect !== "boat" ? spoken : `${spoken} square`;
    case "JIS":
      return `${spoken} square`;
    case "SAE metric label":
      return `${spoken} square SAE`;
    case "vehicle diameter":
      return `${spoken} mil auto`;
    case "solid diameter":
      return `${spoken} millimetre solid`;
    case "strands":
      return label;
  }
}
