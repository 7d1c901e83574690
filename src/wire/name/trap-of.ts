import { stockedSizes } from "../stocked-sizes.ts";
import type { SizeSystem } from "../wire-size.ts";
import { awgSize, saeSize } from "../wire-size.ts";
import type { PrintedSize, WireMake } from "../make/wire-make.ts";
import { isOwnSize, isSingle } from "./compound-names.ts";
import { areaText } from "./area-text.ts";
import type { NameDialect, NameWish } from "./wire-name.ts";

const percent = (share: number): string => `${Math.round(100 * Math.abs(share))} %`;

/** Why a written name misleads, the gravest reason alone; null: none is known. */
export function trapOf(make: WireMake, size: PrintedSize, { dialect, use }: NameWish): string | null {
  return diameterTrap(size) ?? foreignTrap(size, dialect) ?? countTrap(make, size, use === "order") ?? sizeTrap(size);
}

/** Why what is called aloud misleads. */
export function spokenTrap(make: WireMake, size: PrintedSize, dialect: NameDialect): string | null {
  return diameterTrap(size) ?? countTrap(make, size, false) ?? heardTrap(size, dialect) ?? sizeTrap(size);
}

function diameterTrap({ system, name, areaMm2 }: PrintedSize): string | null {
  if (system === "vehicle diameter")
    return `the ${name} mm of this cable is its diameter over the insulation: there are ${areaText(areaMm2)} of copper in it, not ${name} mm²`;
  if (system === "solid diameter")
    return `the ${name} mm is the diameter of a solid wire: that is ${areaText(areaMm2)}, not ${name} mm²`;
  return null;
}

/** The system in whose stock a dialect looks for a neighbour. */
const stockOf: Readonly<Record<NameDialect, SizeSystem>> = {
  "north american": "AWG",
  boat: "AWG",
  european: "mm²",
  british: "mm²",
  australian: "mm²",
  japanese: "mm²",
  vehicle: "mm²",
};

/** A size from elsewhere tempts a shop to send the nearest of its own. */
function foreignTrap(size: PrintedSize, dialect: NameDialect): string | null {
  if (isOwnSize(size, dialect)) return null;
  const stock = stockedSizes(stockOf[dialect]);
  const below = stock.filter(({ areaMm2 }) => areaMm2 < size.areaMm2 * 0.995).at(-1);
  const above = stock.find(({ areaMm2 }) => areaMm2 >= size.areaMm2 * 0.995);
  const thinner = below === undefined ? "" : `${below.label} is ${percent(1 - below.areaMm2 / size.areaMm2)} thinner`;
  const thicker =
    above === undefined
      ? "no stocked size is as thick"
      : `${above.label} ${percent(above.areaMm2 / size.areaMm2 - 1)} thicker`;
  return `not a size of this dialect, and no stocked one is the same: ${[thinner, thicker].filter((s) => s !== "").join(", ")} by the areas on the labels`;
}

function countTrap(make: WireMake, size: PrintedSize, isOrder: boolean): string | null {
  const { cores, family } = make;
  if (cores === null || isSingle(make)) return null;
  const { insulated, total, ground, groundSize } = cores;
  if (family === "twin and earth" && groundSize !== null && groundSize.name !== size.name)
    return `the bare earth is ${groundSize.label}, thinner than the cores, and is not counted: three wires, not two`;
  if (family === "twin and earth") return "the bare earth is not counted, and may be thinner than the cores";
  if (size.system === "AWG" && ground === "bare")
    return `the number counts the ${insulated} insulated conductors alone: the bare ground makes ${total}; the same figures on a boat or on a cord are ${insulated} in all`;
  if (size.system === "AWG" && family !== "building cable" && isOrder && isHouseGauge(size))
    return `the number counts every wire${ground === "insulated" ? ", the green one too" : ""}: a house cable of the same figures has a bare one more`;
  if (size.system === "AWG" && family !== "building cable" && isHouseGauge(size))
    return `\`${size.name}/${total}\` without its kind is ${total} wires here, and ${total + 1} with the bare ground of a house cable`;
  if (size.system === "mm²" && total > 2 && (ground === "insulated" || ground === "none")) {
    const [here, other] = ground === "insulated" ? ["G", "X"] : ["X", "G"];
    return `the letter decides: ${total}${here}${size.name} has ${ground === "insulated" ? "a" : "no"} green-yellow core, ${total}${other}${size.name} has ${ground === "insulated" ? "none" : "one"}`;
  }
  return null;
}

/** House cable begins at 14 AWG; what is thinner cannot be taken for it. */
const isHouseGauge = ({ areaMm2 }: PrintedSize): boolean => areaMm2 > 2;

function sizeTrap({ system, name, areaMm2 }: PrintedSize): string | null {
  const aught = /^([1-4])\/0$/.exec(name)?.[1];
  if (aught !== undefined && (system === "AWG" || system === "SAE")) {
    const bare = awgSize(aught);
    return bare === null
      ? null
      : `with the stroke lost \`${name}\` is read as ${bare.label}, which has ${percent(1 - bare.areaMm2 / areaMm2)} less copper`;
  }
  if (system === "SAE") {
    const american = awgSize(name);
    return american === null
      ? null
      : `a vehicle size: ${percent(1 - areaMm2 / american.areaMm2)} less copper than ${american.label}`;
  }
  if (system === "SWG") {
    const american = awgSize(name);
    return american === null
      ? null
      : `not AWG: ${american.label} has ${areaText(american.areaMm2)}, this ${areaText(areaMm2)}`;
  }
  if (system === "SAE metric label")
    return `the figure is a label of vehicle cable, not its copper; count the strands where the copper matters`;
  if (system === "JIS") return "a Japanese size; terminals and cable of the same figure elsewhere are sized otherwise";
  if (system === "kcmil")
    return "thousands of circular mils, also printed MCM: the first M is a thousand, not a million";
  return null;
}

/** What the ear gets wrong. */
function heardTrap({ system, name }: PrintedSize, dialect: NameDialect): string | null {
  if (system === "mm²" && (dialect === "british" || dialect === "australian")) {
    const auto =
      dialect === "australian" ? "vehicle cable of that many millimetres outside, which is thinner, or " : "";
    return `\`mil\` is mm² here; it can be taken for ${auto}a thousandth of an inch`;
  }
  if (system === "mm²") return "`square` is mm²; write the unit";
  if (system === "AWG" && dialect !== "australian" && saeSize(name) !== null && !name.includes("/"))
    return `\`gauge\` is AWG here; vehicle cable of ${name} gauge SAE has less copper`;
  return null;
}
