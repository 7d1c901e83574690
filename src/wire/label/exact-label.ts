import type { PrintedSize, WireMake } from "../make/wire-make.ts";

/** A size as no reader takes it for another. */
function exactSize({ system, name, label }: PrintedSize): string | null {
  switch (system) {
    case "vehicle diameter":
      return `${name} mm vehicle cable`;
    case "solid diameter":
      return `${name} mm solid diameter`;
    case "SAE metric label":
    case "strands":
      return null;
    case "JIS":
      return `${name} SQ`;
    case "mm²":
      // A lost comma, and labels of vehicle cable: these are asked in every spelling.
      return ["2", "3", "5", "8", "15"].includes(name) ? null : label;
    default:
      return label;
  }
}

/**
 * A label for the size, the conductors and the kind of a make that can be read in one way only.
 *
 * What the letters of a type add is left to the type.
 *
 * @returns null where there is no such label
 */
export function exactLabel(make: WireMake): string | null {
  const { size, cores, family, type, runs } = make;
  if (size === null) return null;
  const named = exactSize(size);
  if (named === null || size.system === "vehicle diameter" || size.system === "solid diameter")
    return cores === null && runs === 1 ? named : null;
  if (cores === null) return [named, type ?? family ?? ""].join(" ").trim();
  if (cores.others.length > 0 || cores.groundSize !== null || cores.paired) return null;
  const kind = type ?? family;
  if (runs > 1) return cores.total === 1 ? `${runs}x(1x${size.system === "mm²" ? size.name : named})` : null;
  const count = cores.insulated;
  if (size.system === "mm²" && cores.ground === "insulated")
    return `${count}G${size.name}${kind === null ? "" : ` ${kind}`}`;
  if (cores.ground === "insulated" && kind === null) return null;
  if (cores.ground === "none" && count > 2)
    return [`${count}-core ${named}`, kind ?? "", "without ground"].join(" ").replace("  ", " ");
  const ground = family === "building cable" && type === null && cores.ground === "bare" ? " with ground" : "";
  return `${count}-core ${named}${kind === null ? "" : ` ${kind}`}${ground}`;
}
