import { printCitation, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";
import {
  bendRadius,
  cableMass,
  cableMetal,
  cableOutside,
  smallestConduit,
  whatFits,
  type BendRadius,
  type Raceway,
  type WhatFits,
} from "../../wire/geometry/index.ts";
import type { WireMake } from "../../wire/make/wire-make.ts";
import type { ShownFit } from "./wire-card-shape.ts";

/** Raceways that are met most, of each side of the ocean. */
const RACEWAYS: readonly Raceway[] = ["EMT", "rigid PVC", "pliable corrugated"];

const mm = (value: number): string => `${decimalText(value, { figures: 3 })} mm`;
const fit = (what: string, says: string, trust: Trust, source: Citation | null): ShownFit => ({
  what,
  says,
  trust,
  source: source === null ? "" : printCitation(source),
});

/**
 * How thick and heavy a wire or cable is, how it may be bent, and what goes on it and round it.
 *
 * @returns empty where the size is not stated; what needs care is told beside what it is about
 */
export function fitsOf(make: WireMake): readonly ShownFit[] {
  const outside = cableOutside(make);
  const fitting = whatFits(make);
  if (outside === null || fitting === null) return [];
  const { mm: wide, heightMm, isStated } = outside;
  const across = wide > heightMm ? `${mm(wide)} × ${mm(heightMm)}` : `⌀ ${mm(wide)}`;
  const taken = isStated
    ? make.outsideMm === null
      ? "which is what its name counts"
      : "as the label says"
    : "worked out from the usual make: measure before you drill";
  return [
    fit("outside", `${across}, ${taken}`, outside.trust, null),
    ...masses(make),
    ...bends(make),
    ...ends(fitting),
    ...RACEWAYS.flatMap((raceway) => {
      const found = smallestConduit(raceway, [{ count: 1, outsideMm: wide }]);
      return found === null
        ? []
        : [fit("conduit", `${found.size.label} for one`, weakestTrust(found.trust, outside.trust), found.size.source)];
    }),
  ];
}

/** Of the whole and of its metal, which alone is what scrap and price lists go by. */
function masses(make: WireMake): readonly ShownFit[] {
  const [metal, whole] = [cableMetal(make), cableMass(make)];
  if (metal === null || whole === null) return [];
  const isCable = make.cores !== null && make.cores.total > 1;
  // The walls are usual ones: a third figure would be invented.
  const all = `about ${decimalText(Number(whole.gramsPerMetre.toPrecision(2)), { figures: 2 })} g/m, the whole ${isCable ? "cable, its insulation and sheath" : "wire, its insulation"} worked out`;
  return [
    fit("mass", all, whole.trust, null),
    fit("mass", `${decimalText(metal.gramsPerMetre, { figures: 3 })} g/m of it is ${metal.metal}`, metal.trust, null),
  ];
}

function bends(make: WireMake): readonly ShownFit[] {
  const told = (bend: BendRadius | null, how: string): readonly ShownFit[] =>
    bend === null ? [] : [fit("bend", `${how}, radius ${mm(bend.mm)} at least: ${bend.says}`, bend.trust, bend.source)];
  return [...told(bendRadius(make, "fixed"), "fixed"), ...told(bendRadius(make, "moved"), "moved in use")];
}

/** Lugs, ferrule and glands. */
function ends({ lugs, ferrule, glands, notes }: WhatFits): readonly ShownFit[] {
  const [gland] = glands;
  return [
    ...lugs.map(({ says, studs, trust, source }) => fit("lug", `${says}, studs ${studs.join(", ")}`, trust, source)),
    ...(ferrule === null
      ? []
      : [fit("ferrule", `${ferrule.says}; ${ferrule.lengthsMm.join(", ")} mm long`, ferrule.trust, ferrule.source)]),
    ...(gland === undefined
      ? []
      : [
          fit(
            "gland",
            glands
              .map((one) => `${one.gland} (${one.leastMm} to ${one.mostMm} mm, hole ${one.holeMm} mm)`)
              .join(" or "),
            gland.trust,
            gland.source,
          ),
        ]),
    ...notes.map((note) => fit("mind", note, "derived", null)),
  ];
}
