import { printCitation, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";
import {
  bendRadius,
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
  const metal = cableMetal(make);
  if (outside === null || fitting === null) return [];
  const { mm: wide, heightMm, isStated } = outside;
  const across = wide > heightMm ? `${mm(wide)} × ${mm(heightMm)}` : `⌀ ${mm(wide)}`;
  const taken = isStated ? "as the label says" : "worked out from the usual make: measure before you drill";
  return [
    fit("outside", `${across}, ${taken}`, outside.trust, null),
    ...(metal === null
      ? []
      : [fit("metal", `${decimalText(metal.gramsPerMetre, { figures: 3 })} g/m of ${metal.metal}`, metal.trust, null)]),
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
