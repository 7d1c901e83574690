import { colourName } from "../colour/index.ts";
import type { CableCores, PrintedSize, WireMake } from "../make/wire-make.ts";
import type { WireReading } from "./label-reading.ts";

/** Areas that are asked about in every spelling: a comma that got lost, and labels of vehicle cable. */
const ASKED = new Set(["2", "3", "5", "8", "15"]);

/** A size as no reader takes it for another. */
function exactSize({ system, name, label }: PrintedSize, type: string | null): string | null {
  switch (system) {
    case "vehicle diameter":
      return type === null ? `${name} mm auto cable` : `${name} mm, ${type}`;
    case "solid diameter":
      return type === null ? `${name} mm solid diameter` : `${name} mm`;
    case "SAE metric label":
      return `${name} mm² SAE`;
    case "strands":
      // Thin wires without a unit may be inches.
      return label.endsWith(" mm") && !/\/0\.(?:0|10\d)/.test(name) ? name : label;
    case "JIS":
      return `${name} SQ`;
    case "mm²":
      return ASKED.has(name) && (type === null || name === "15") ? null : label;
    default:
      return label;
  }
}

/** The size with the number of conductors, as the kind of cable counts them; null: there is no way to write it that is read in one way only. */
function exactCores(size: PrintedSize, named: string, cores: CableCores, make: WireMake): string | null {
  const { type, family } = make;
  const { insulated, total, ground, groundSize, others } = cores;
  const kind = type ?? family ?? "";
  if (others.length > 0) {
    // Three of SER are asked about: most has four.
    if (type === "SER" && total === 3) return null;
    const names = others.flatMap(({ count, size: other }) => Array.from({ length: count }, () => other.name));
    const first = Array.from({ length: total - names.length }, () => size.name);
    return size.system === "AWG" ? `${[...first, ...names].join("-")} ${kind}` : null;
  }
  if (insulated === 0) return `${named} bare${ground === "none" ? "" : " ground"}`;
  const area = size.system === "mm²" ? size.name : named;
  if (groundSize !== null) {
    if (family === "twin and earth")
      return `${area}/${groundSize.label} ${insulated === 2 ? kind : (type ?? `${insulated} core and earth`)}`;
    return type === null ? null : `${insulated}x${area}/${groundSize.name} ${kind}`;
  }
  if (cores.paired)
    return size.system === "AWG" ? `${insulated / 2} pair ${named} ${kind}` : `${insulated / 2}x2x${area} ${kind}`;
  if (size.system === "solid diameter" && type !== null) return `${type} ${named}x${insulated}C`;
  if (size.system === "mm²" && ground === "insulated" && !/^(?:MC|TC)/.test(kind))
    return `${insulated}G${area} ${kind}`;
  if (size.system === "vehicle diameter") return `${insulated}-core ${named}`;
  if (ground === "insulated" && kind === "") return null;
  const isExtra = ground === "insulated" && family === "building cable";
  const count = `${isExtra ? insulated - 1 : insulated}-core ${named} ${kind}`;
  if (ground === "none" && insulated > 2) return `${count} without ground`;
  const isSaid =
    (family === "building cable" && type === null && ground === "bare") ||
    (family === "boat cable" && ground === "insulated");
  return isSaid ? `${count} with ground` : count;
}

/** What the label itself says beside size and kind; what follows from a type its letters say. */
function beside(make: WireMake, from: WireReading["from"]): string[] {
  const { stranding, plating, metal, voltsSay, temperatureC, wetTemperatureC, colours, outsideMm, size } = make;
  const said: string[] = [];
  if (from.stranding !== undefined && stranding !== null) {
    const { name, wires, wireMm } = stranding;
    if (name !== null) said.push(name);
    if (wires !== null && size?.system !== "strands")
      said.push(wireMm === null ? `${wires} strands` : `${wires}/${wireMm}`);
  }
  if (from.plating !== undefined && plating !== null)
    said.push(plating === "plain" && metal === "copper" ? "bare" : plating);
  if (from.metal !== undefined && metal !== null) said.push(metal);
  if (from.volts !== undefined) said.push(`${voltsSay ?? ""} V`);
  if (from.temperatureC !== undefined) {
    if (temperatureC !== null) said.push(`${temperatureC} °C`);
    if (wetTemperatureC !== null) said.push(`${wetTemperatureC} °C wet`);
  }
  if (colours.length > 0) said.push(colours.map(colourName).join(", "));
  if (outsideMm !== null) said.push(`OD ${outsideMm} mm`);
  return said;
}

/**
 * A label for a make that can be read in one way only, without what is ordered of it.
 *
 * @param from what the label itself says
 * @returns null where there is no such label: only the context tells the readings apart
 */
export function exactLabel(make: WireMake, from: WireReading["from"]): string | null {
  const { size, cores, family, type, runs } = make;
  if (size === null) return null;
  const named = exactSize(size, type);
  if (named === null || (size.system === "vehicle diameter" && type === null && family !== null)) return null;
  const kind = size.system === "vehicle diameter" ? "" : (type ?? family ?? "");
  const whole =
    cores === null || (runs > 1 && cores.total === 1) ? `${named} ${kind}` : exactCores(size, named, cores, make);
  if (whole === null) return null;
  const sets =
    runs > 1
      ? cores?.total === 1
        ? `${runs}x(1x${size.system === "mm²" ? size.name : named}) ${kind}`
        : `${runs} runs ${whole}`
      : whole;
  return [sets, ...beside(make, from)].join(" ").replace(/ {2,}/g, " ").trim();
}
