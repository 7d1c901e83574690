import { weakestTrust } from "../../explain/index.ts";
import type { PrintedSize } from "../make/wire-make.ts";
import type { Conversion, ConvertBy, ConvertDirection, ConvertedSize, ConvertInput } from "./conversion.ts";
import { cautionsOf } from "./conversion-cautions.ts";
import { allPaired, pairedSize, pairingIds, pairings, type Paired } from "./pairings.ts";
import { percentSays } from "./percent.ts";
import { sizesOn, type SizeRung } from "./size-ladder.ts";
import { sizeResistance, usualKind, type ConductorKind } from "./size-resistance.ts";

/** Rounding of the tables: six digits, and resistances that were worked back from 75 °C. */
const SLACK = 1e-6;

/**
 * The size of another system that does for a given one.
 *
 * By area it compares metal with what stands on metric labels, which may be up to 14 % more than the metal; by resistance it compares like with like. A
 * published list is followed to the letter, loss and all. Ampacity is not looked up: that is done in the table of the size that is bought.
 *
 * @returns the size with gain or loss in area and resistance, the next smaller one, what published lists say, and cautions; null where the tables have no
 * figures for the given size
 * @throws RangeError at a temperature outside −40…250 °C
 * @accuracy areas by ASTM B258 and as labelled; resistances as `resistancePerMetre20` tells
 * @source own comparison; published pairs as named in each
 * @example 6 AWG is not the 16 mm² it is sold for
 * const six = { system: "AWG", name: "6", label: "6 AWG", areaMm2: 13.302, basis: "metal" }
 * convertSize({ size: six, to: "mm²" }).to.size.label //=> "16 mm²"
 * const sixteen = { system: "mm²", name: "16", label: "16 mm²", areaMm2: 16, basis: "label" }
 * convertSize({ size: sixteen, to: "AWG" }).to.size.label //=> "4 AWG"
 * convertSize({ size: sixteen, to: "AWG", by: "table" }).to.size.label //=> "6 AWG"
 * convertSize({ size: sixteen, to: "AWG", by: "table" }).to.areaChange //=> -0.1686
 */
export function convertSize(input: ConvertInput): Conversion | null {
  const { size, to, by = "area", direction = "not smaller", among = "stocked", conductorC = 20 } = input;
  if (!(conductorC >= -40 && conductorC <= 250)) throw new RangeError(`${conductorC} °C is outside −40…250 °C`);
  const given: ConductorKind = { ...usualKind(size), ...input.from };
  const own = sizeResistance(size, given, conductorC);
  if (own === null) return null;
  const into = { metal: given.metal, plating: given.plating, ...input.into };

  const figures = (rung: SizeRung): ConvertedSize | null => {
    const resistance = sizeResistance(rung.size, into, conductorC);
    if (resistance === null) return null;
    return {
      size: rung.size,
      ohmsPerMetre: resistance.ohmsPerMetre,
      isStocked: rung.isStocked,
      areaChange: rung.size.areaMm2 / size.areaMm2 - 1,
      resistanceChange: resistance.ohmsPerMetre / own.ohmsPerMetre - 1,
    };
  };
  const candidates = sizesOn(to, among).flatMap((rung) => figures(rung) ?? []);
  const paired = by === "table" ? pairFor(input) : null;
  const found =
    by === "table"
      ? (sizesOn(to, "all")
          .filter((rung) => rung.size.system === paired?.system && rung.size.name === paired.name)
          .flatMap((rung) => figures(rung) ?? [])[0] ?? null)
      : choose(candidates, by, direction);
  const below =
    found === null ? null : candidates.findLast((each) => each.size.areaMm2 < found.size.areaMm2 * (1 - SLACK));
  const smaller = below == null ? null : { ...below, says: whyNot(below, by, direction) };
  const others = allPaired(size, to);
  const isFound = (pair: Paired): boolean => pair.system === found?.size.system && pair.name === found.size.name;
  const pair = paired ?? others.find(isFound) ?? null;
  const pairing =
    pair === null
      ? null
      : {
          id: pair.pairing,
          says: pairings[pair.pairing].says,
          trust: pair.trust,
          source: pairings[pair.pairing].source,
        };
  const rungTrust = sizesOn(to, "all").find((rung) => rung.size.label === found?.size.label)?.trust ?? "derived";
  const result: Omit<Conversion, "cautions"> = {
    from: { size, ohmsPerMetre: own.ohmsPerMetre },
    to: found,
    by,
    direction,
    among,
    smaller,
    pairing,
    otherPairs: others
      .filter((each) => !isFound(each))
      .map((each) => {
        const label = `${each.name} ${each.system}`;
        return { pairing: each.pairing, label, says: `${pairings[each.pairing].says} has ${label}` };
      }),
    says: found === null ? nothingSays(input) : foundSays(size, found, by, direction, among, paired),
    trust: weakestTrust(rungTrust, own.trust, ...(by === "table" && paired !== null ? [paired.trust] : [])),
  };
  return { ...result, cautions: cautionsOf(result, candidates, given, { ...usualKindOf(found), ...into }) };
}

const usualKindOf = (found: ConvertedSize | null): Partial<ConductorKind> =>
  found === null ? {} : usualKind(found.size);

/** How much less a candidate is than what was given, as the logarithm of the measure: above 0 is more. */
const measure = ({ areaChange, resistanceChange }: ConvertedSize, by: ConvertBy): number =>
  by === "resistance" ? -Math.log1p(resistanceChange) : Math.log1p(areaChange);

function choose(
  candidates: readonly ConvertedSize[],
  by: ConvertBy,
  direction: ConvertDirection,
): ConvertedSize | null {
  if (direction === "not smaller") return candidates.find((each) => measure(each, by) >= -SLACK) ?? null;
  let best: ConvertedSize | null = null;
  for (const each of candidates)
    if (best === null || Math.abs(measure(each, by)) < Math.abs(measure(best, by))) best = each;
  return best;
}

/** The pair of the list that was asked for, else of the first that has the size. */
function pairFor({ size, to, pairing }: ConvertInput): Paired | null {
  for (const id of pairing === undefined ? pairingIds : [pairing]) {
    const pair = pairedSize(id, size, to);
    if (pair !== null) return pair;
  }
  return null;
}

function whyNot(below: ConvertedSize, by: ConvertBy, direction: ConvertDirection): string {
  const what =
    by === "resistance" ? percentSays(below.resistanceChange, "resistance") : percentSays(below.areaChange, "area");
  const rest = by === "table" ? "and is not what the list pairs" : direction === "nearest" ? "and is farther off" : "";
  return `${below.size.label} has ${what}${rest === "" ? "" : `, ${rest}`}`;
}

const bySays: Readonly<Record<ConvertBy, string>> = {
  area: "by area",
  resistance: "by resistance",
  table: "by name in a published list",
};

const amongSays = { stocked: "among sizes on sale", all: "among all sizes" } as const;

function foundSays(
  size: PrintedSize,
  found: ConvertedSize,
  by: ConvertBy,
  direction: ConvertDirection,
  among: "stocked" | "all",
  paired: Paired | null,
): string {
  const change = `${percentSays(found.areaChange, "area")}, ${percentSays(found.resistanceChange, "resistance")}`;
  const how =
    paired === null
      ? `${bySays[by]}, ${direction}, ${amongSays[among]}`
      : `${bySays[by]}: ${pairings[paired.pairing].says}`;
  return `${size.label} → ${found.size.label}: ${change}; ${how}`;
}

function nothingSays({ size, to, by = "area", among = "stocked", pairing }: ConvertInput): string {
  if (by !== "table") return `nothing ${amongSays[among]} of ${to} is as thick as ${size.label}`;
  if (pairing === undefined)
    return `no published list pairs ${size.label} with ${to}; convert by area or by resistance`;
  const isBackwards =
    !pairings[pairing].isBothWays && pairing === (size.system === "mm²" ? "not-smaller guide" : "workshop list");
  return isBackwards
    ? `${pairings[pairing].says} holds in the other direction only; read backwards it loses metal`
    : `${pairings[pairing].says} does not have ${size.label}; convert by area or by resistance`;
}
