import type { PrintedColour } from "../make/wire-make.ts";
import { looksLike } from "./looks-like.ts";
import { colourName } from "./read-colour.ts";
import { allSchemes, schemeNamed, type ColourMeaning } from "./scheme.ts";
import { wireFunctions, type Potential, type WireFunction, type WireSystem } from "./wire-function.ts";

/** A colour in use for a function, or one that a scheme asks for. */
export interface ColourUse {
  readonly colour: PrintedColour;
  readonly function: WireFunction;
  readonly system: WireSystem;
  /** Enclosure, zone or scheme in which it is met; words of the caller. */
  readonly where: string;
}

/** What can happen where two meanings are taken for each other. */
export type ClashHazard = "shock" | "lost earth" | "short circuit" | "reversed";

/** Two uses of one colour that are dangerous to mix up. */
export interface ColourClash {
  readonly first: ColourUse;
  readonly second: ColourUse;
  /** They meet in one place: `where` is the same. */
  readonly together: boolean;
  readonly hazard: ClashHazard;
  /** The clash in a sentence. */
  readonly says: string;
  /** Which of the two is freer to have another colour. */
  readonly change: "first" | "second";
  /** A colour that a scheme of the same kind of system gives to that function and that clashes with no other use; null: mark both ends instead. */
  readonly to: PrintedColour | null;
  /** The next step, in a sentence. */
  readonly hint: string;
}

/** A pair of potentials, in the order of the alphabet. */
const pair = (a: Potential, b: Potential): string => (a < b ? `${a}|${b}` : `${b}|${a}`);

/** Pairs of potentials that are dangerous to mix up, and how; pairs that are not here are at worst a nuisance. */
const hazards: ReadonlyMap<string, ClashHazard> = new Map(
  (
    [
      ["AC live", "AC neutral", "shock"],
      ["AC live", "DC negative", "shock"],
      ["AC live", "DC positive", "shock"],
      ["AC live", "DC circuit", "shock"],
      ["AC live", "protective", "shock"],
      ["AC live", "functional earth", "shock"],
      ["AC neutral", "DC negative", "shock"],
      ["AC neutral", "DC positive", "shock"],
      ["AC neutral", "DC circuit", "shock"],
      ["AC neutral", "protective", "lost earth"],
      ["AC neutral", "functional earth", "shock"],
      ["DC positive", "protective", "lost earth"],
      ["DC circuit", "protective", "lost earth"],
      ["DC negative", "protective", "lost earth"],
      ["DC negative", "DC positive", "reversed"],
      ["DC circuit", "DC negative", "short circuit"],
    ] as const
  ).map(([a, b, hazard]) => [pair(a, b), hazard]),
);

const whatHappens: Readonly<Record<ClashHazard, string>> = {
  shock: "whoever takes one for the other touches or joins mains",
  "lost earth": "whoever takes one for the other leaves a case without earth or puts current on it",
  "short circuit": "joined to the bus of the other it is a short circuit, or a device that never switches off",
  reversed: "whoever takes one for the other reverses a device or shorts the battery",
};

/** How free a conductor is to have another colour: laws fix the protective one, then the neutral, then the live; nothing fixes a DC circuit. */
const freedom: readonly Potential[] = [
  "protective",
  "AC neutral",
  "AC live",
  "functional earth",
  "DC positive",
  "DC negative",
  "DC circuit",
];

/** The harness of a vehicle and the code of a plug come with it. */
const isGiven = ({ system }: ColourUse): boolean => system === "vehicle" || system === "trailer";

const freedomOf = (use: ColourUse): number => (isGiven(use) ? -1 : freedom.indexOf(wireFunctions[use.function]));

/** How two uses of alike colours are dangerous to mix; null: they are not. */
function hazardOf(a: ColourUse, b: ColourUse): ClashHazard | null {
  if (!looksLike(a.colour, b.colour)) return null;
  return hazards.get(pair(wireFunctions[a.function], wireFunctions[b.function])) ?? null;
}

/** Schemes that lend a colour to a DC conductor whose own scheme has no other. No other scheme may: brown is DC positive in one and line in the next. */
const lenders: readonly string[] = ["abyc-dc", "iso-small-craft"];

/** Another colour for a use that clashes with nothing: of a scheme that has the colour in use, then of the boat schemes. */
function freeColour(use: ColourUse, uses: readonly ColourUse[]): PrintedColour | null {
  const follows = (meaning: ColourMeaning) => meaning.colours.some((colour) => looksLike(colour, use.colour));
  const lends = (meaning: ColourMeaning) => lenders.includes(meaning.scheme);
  const own = allSchemes().flatMap(({ meanings }) =>
    meanings.filter((meaning) => meaning.function === use.function && meaning.system === use.system),
  );
  const others = uses.filter((other) => other !== use);
  const free = [...own.filter(follows), ...own.filter(lends)]
    .flatMap(({ colours }) => colours)
    .find(
      (colour) =>
        !looksLike(colour, use.colour) &&
        !colour.includes("*") &&
        others.every((other) => hazardOf({ ...use, colour }, other) === null),
    );
  return free ?? null;
}

const named = (use: ColourUse): string => `${use.function} (${use.system}, ${use.where})`;

function clashOf(first: ColourUse, second: ColourUse, hazard: ClashHazard, uses: readonly ColourUse[]): ColourClash {
  const change = freedomOf(second) >= freedomOf(first) ? "second" : "first";
  const freer = change === "second" ? second : first;
  const to = isGiven(freer) ? null : freeColour(freer, uses);
  const where = first.where === second.where ? `, both in ${first.where}` : "";
  const a = first.where === second.where ? `${first.function} (${first.system})` : named(first);
  const b = first.where === second.where ? `${second.function} (${second.system})` : named(second);
  return {
    first,
    second,
    together: first.where === second.where,
    hazard,
    says: `${colourName(first.colour)} is ${a} and ${b}${where}: ${whatHappens[hazard]}.`,
    change,
    to,
    hint:
      to === null
        ? `mark the ${freer.function} at both ends with a sleeve and post a legend.`
        : `make the ${freer.function} ${colourName(to)}, or mark both ends with sleeves and post a legend.`,
  };
}

const graver: readonly ClashHazard[] = ["shock", "lost earth", "reversed", "short circuit"];

/**
 * Pairs of uses in which one colour has two meanings that are dangerous to mix up; those in one place first, graver ones before others.
 *
 * Uses that differ only in what they feed, such as pumps and tail lamps, are a nuisance and not told.
 *
 * @param uses one for each colour, function and place that occur; the same use given twice is one
 * @example
 * const black = { colour: ["BK"], where: "panel" }
 * const found = findClashes([{ ...black, function: "DC negative", system: "DC" }, { ...black, function: "line", system: "AC" }])
 * found.map(({ hazard, change, to }) => [hazard, change, to]) //=> [["shock", "first", ["YE"]]]
 */
export function findClashes(uses: readonly ColourUse[]): readonly ColourClash[] {
  const distinct = distinctUses(uses);
  const clashes: ColourClash[] = [];
  distinct.forEach((first, i) => {
    for (const second of distinct.slice(i + 1)) {
      const hazard = hazardOf(first, second);
      if (hazard !== null) clashes.push(clashOf(first, second, hazard, distinct));
    }
  });
  return sorted(clashes);
}

function distinctUses(uses: readonly ColourUse[]): readonly ColourUse[] {
  const seen = new Map<string, ColourUse>();
  for (const use of uses) {
    const key = [use.colour.join("/"), use.function, use.system, use.where].join("\n");
    if (!seen.has(key)) seen.set(key, use);
  }
  return [...seen.values()];
}

const sorted = (clashes: readonly ColourClash[]): readonly ColourClash[] =>
  clashes.toSorted(
    (a, b) => Number(b.together) - Number(a.together) || graver.indexOf(a.hazard) - graver.indexOf(b.hazard),
  );

const usesOf = (id: string): readonly ColourUse[] => {
  const scheme = schemeNamed(id);
  if (scheme === null) return [];
  const where = scheme.edition === "" ? scheme.standard : `${scheme.standard}: ${scheme.edition}`;
  return scheme.meanings.flatMap((meaning) =>
    meaning.colours.map((colour) => ({ colour, function: meaning.function, system: meaning.system, where })),
  );
};

/**
 * Where two colour schemes contradict each other dangerously when both are used in one build.
 *
 * @param schemeA id of `allSchemes`; the same id twice tells where a scheme contradicts itself
 * @returns empty where they can stand side by side, and where an id is not known
 * @example
 * clashBetween("abyc-dc", "abyc-ac").map(({ first, second }) => `${first.colour} ${first.function} / ${second.function}`).includes("BK DC negative / line") //=> true
 * clashBetween("iec-2017", "iec-2017") //=> []
 */
export function clashBetween(schemeA: string, schemeB: string): readonly ColourClash[] {
  if (schemeA === schemeB) return findClashes(usesOf(schemeA));
  const [ofA, ofB] = [usesOf(schemeA), usesOf(schemeB)];
  const both = [...ofA, ...ofB];
  return sorted(
    ofA.flatMap((first) =>
      ofB.flatMap((second) => {
        const hazard = hazardOf(first, second);
        return hazard === null ? [] : [clashOf(first, second, hazard, both)];
      }),
    ),
  );
}
