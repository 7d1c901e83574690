import { functionOfCore } from "../../size/index.ts";
import type { Fn } from "../../system/index.ts";
import { findClashes, type ColourClash, type ColourUse } from "../../wire/colour/index.ts";
import type { Build } from "../build.ts";

/** A colour that the plan gives to a core. */
export interface UsedColour extends Omit<ColourUse, "where"> {
  readonly circuit: string;
  readonly fn: Fn;
  /** What its conductors end in, and the cable that it shares: key paths of parts, and names of cables. */
  readonly places: readonly string[];
}

/** Every colour that the plan or a label gives; what is only proposed is no fact. */
export function coloursOfBuild({ circuits }: Build): readonly UsedColour[] {
  return circuits.flatMap(({ circuit }) => {
    const { id, conductors, current, colours, from, to, cable } = circuit;
    const places = [`parts.${from.part}`, `parts.${to.part}`];
    if (cable !== undefined && cable.circuits.length > 1 && cable.name !== null) places.push(`cables.${cable.name}`);
    return colours.flatMap(({ fn, colour }): UsedColour[] => {
      const wanted = functionOfCore(conductors, fn, current);
      return wanted === null ? [] : [{ circuit: id, fn, colour, function: wanted, system: current, places }];
    });
  });
}

/** One colour with two dangerous meanings, and where both meet. */
export interface BuildClash extends ColourClash {
  /** Places in which both are; empty: they are in one build only. */
  readonly places: readonly string[];
}

/** Dangers that a legend at the next enclosure does not take away: mains, and an earth that is none. */
const EVERYWHERE: ReadonlySet<string> = new Set(["shock", "lost earth"]);

/**
 * Colours that mean two things in a build, where mixing them up is dangerous. Poles of one voltage that only share a colour in two distant places are left to the
 * legend; mains are not.
 */
export function colourClashes(used: readonly UsedColour[]): readonly BuildClash[] {
  const same = (use: UsedColour, of: ColourUse): boolean =>
    use.function === of.function && use.system === of.system && use.colour.join() === of.colour.join();
  return findClashes(
    used.map(({ colour, function: wanted, system }) => ({ colour, function: wanted, system, where: "this build" })),
  )
    .map((clash): BuildClash => {
      const of = (one: ColourUse): Set<string> => new Set(used.filter((u) => same(u, one)).flatMap((u) => u.places));
      const second = of(clash.second);
      return { ...clash, places: [...of(clash.first)].filter((place) => second.has(place)) };
    })
    .filter(({ places, hazard }) => places.length > 0 || EVERYWHERE.has(hazard));
}
