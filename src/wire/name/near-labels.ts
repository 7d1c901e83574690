import { stockedSizeAtLeast } from "../stocked-sizes.ts";
import type { WireMake } from "../make/wire-make.ts";
import { isSingle } from "./compound-names.ts";

/**
 * Labels that stand on the next reel and are taken for a make: the same figures of another kind of cable, and the size of another system that people
 * call the same.
 *
 * @source common practice
 */
export function nearLabels(make: WireMake): readonly string[] {
  const { size, cores } = make;
  if (size === null) return [];
  const { name, system } = size;
  const counts = isSingle(make) || cores === null ? null : cores;
  switch (system) {
    case "AWG":
      if (counts !== null)
        return [
          `${name}/${counts.insulated}`,
          `${name}/${counts.insulated} w/G NM-B`,
          `${name}/${counts.insulated} boat cable`,
          `${name}/${counts.insulated} SOOW`,
        ];
      return [`${name} SAE`, `${name} SWG`, ...(name.endsWith("/0") ? [`${name.slice(0, -2)} AWG`] : [`#${name}`])];
    case "SAE":
      return [`${name} AWG`, `${name} gauge`];
    case "SWG":
      return [`${name} AWG`];
    case "mm²": {
      const american = stockedSizeAtLeast(size.areaMm2, "AWG")?.name ?? null;
      if (counts === null) return [`${name} mm`, `${name} SQ`];
      const { total } = counts;
      return [
        `${total}G${name}`,
        `${total}X${name}`,
        `${total}x${name}`,
        `${total}-core ${name} mm² flex`,
        ...(total === 3 ? [`${name} mm² twin and earth`] : []),
        ...(american === null ? [] : [`${american}/${total}`]),
      ];
    }
    case "JIS":
    case "SAE metric label":
      return [`${name} mm²`];
    case "vehicle diameter":
      return [`${name} mm`, `${name} mm²`];
    case "solid diameter":
      return [`${name} mm`, `${name} mm²`];
    default:
      return [];
  }
}
