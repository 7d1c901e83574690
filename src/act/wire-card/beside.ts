import { printCitation } from "../../explain/index.ts";
import { convertSize, neighbours, type LadderSystem, type SizeRung } from "../../wire/convert/index.ts";
import type { PrintedSize } from "../../wire/make/wire-make.ts";
import type { Conductor } from "./conductor-of.ts";
import type { Neighbour, NeighbourSize, ShownConversion } from "./wire-card-shape.ts";
import type { ConvertWish } from "./wire-question.ts";

/** The side of the ladder on which a size stands; null: it stands between all of them. */
export function sideOf({ system }: PrintedSize): LadderSystem | null {
  if (system === "kcmil") return "AWG";
  if (system === "SAE metric label") return "SAE";
  return system === "strands" ? null : system;
}

/** The sizes beside a size in every system. */
export function besideOf(size: PrintedSize): readonly Neighbour[] {
  const own = sideOf(size);
  const shown = (rung: SizeRung | null): NeighbourSize | null =>
    rung === null ? null : { label: labelOfSize(rung.size), ratio: rung.size.areaMm2 / size.areaMm2, note: rung.note };
  return neighbours(size).map(({ side, down, same, up }) => ({
    system: side,
    down: shown(down),
    same: side === own ? null : shown(same),
    up: shown(up),
    isOwn: side === own,
  }));
}

/** Labels of some systems are those of another, `5.5 mm²`: written so that they read as this one. */
export function labelOfSize({ system, name, label }: PrintedSize): string {
  switch (system) {
    case "JIS":
      return `${name} SQ`;
    case "vehicle diameter":
      return `${name} mm auto cable`;
    case "solid diameter":
      return `${name} mm solid diameter`;
    default:
      return label;
  }
}

/** The size in another system. */
export function conversionOf({ size, kind }: Conductor, wish: ConvertWish): ShownConversion | null {
  const own = sideOf(size);
  const to = wish.to ?? (own === "mm²" ? "AWG" : "mm²");
  const found = convertSize({ size, to, by: wish.by, direction: wish.pick, from: kind });
  if (found === null) return null;
  return {
    to,
    label: found.to === null ? null : labelOfSize(found.to.size),
    says: found.says,
    isLess: found.to !== null && found.to.areaChange < -0.005,
    smaller: found.smaller === null ? null : found.smaller.says,
    cautions: found.cautions,
    pairing: found.pairing === null ? null : `${found.pairing.says} (${printCitation(found.pairing.source)})`,
    otherPairs: found.otherPairs.map(({ says }) => says),
    trust: found.trust,
  };
}
