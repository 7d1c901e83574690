import type { Conductor, Fn, Supply } from "../system/index.ts";
import { findClashes, looksLike, schemeColours, type ColourUse, type WireFunction } from "../wire/colour/index.ts";
import type { PrintedColour } from "../wire/make/wire-make.ts";
import { ruleSetIdOf } from "./rule-set-of.ts";

/** The colour scheme that a rule set names for its systems; where it names none, nothing is proposed. */
const SCHEMES: Readonly<Record<string, Readonly<Partial<Record<"DC" | "AC", string>>>>> = {
  "us-small-craft": { DC: "abyc-dc", AC: "abyc-ac" },
  "iso-small-craft": { DC: "iso-small-craft", AC: "iso-small-craft" },
  "us-cabin": { AC: "nec" },
  "us-rv": { AC: "nec" },
  "iec-cabin": { DC: "iec-2017", AC: "iec-2017" },
  "iec-caravan": { AC: "iec-2017" },
  "au-nz-vehicle": { AC: "iec-2017" },
};

/** What a conductor is for, as colour schemes call it; null: none of them says. */
function wireFunctionOf({ fn, role, from, to }: Conductor, current: "DC" | "AC"): WireFunction | null {
  switch (fn) {
    case "+":
      return "DC positive";
    case "−":
      return "DC negative";
    case "L":
    case "L1":
      return "line";
    case "L2":
      return "line 2";
    case "L3":
      return "line 3";
    case "N":
      return "neutral";
    case "PE":
      return current === "DC" ? "DC bonding" : "protective earth";
    case "pole":
      if (current === "AC") return null;
      if (role === "return") return "DC negative";
      // A link between units of a string is live on both sides: no scheme has a colour for it.
      return from.endsWith(":−") || to.endsWith(":−") ? null : "DC positive";
  }
}

/** Those that law leaves least freedom first: each takes a colour that the ones before it leave without danger. */
const ORDER: readonly (readonly [WireFunction, "DC" | "AC"])[] = [
  ["protective earth", "AC"],
  ["neutral", "AC"],
  ["line", "AC"],
  ["line 2", "AC"],
  ["line 3", "AC"],
  ["DC bonding", "DC"],
  ["DC positive", "DC"],
  ["DC negative", "DC"],
];

/** Colours by function for each pair of schemes. */
const proposals = new Map<string, ReadonlyMap<WireFunction, PrintedColour>>();

/**
 * The colours that the rule sets of a build propose by what a conductor is for: the usual one of their schemes that cannot be taken for another of the build.
 *
 * @returns empty where no rule set has a scheme
 */
export function proposedColours(supplies: readonly Supply[]): ReadonlyMap<WireFunction, PrintedColour> {
  const schemeOf = (current: "DC" | "AC"): string => {
    const id = ruleSetIdOf(supplies.find((s) => s.current === current && s.rules !== undefined));
    return SCHEMES[id ?? ""]?.[current] ?? "";
  };
  const schemes = { DC: schemeOf("DC"), AC: schemeOf("AC") };
  const isHarmonised = supplies.some(
    (s) => s.current === "AC" && s.phases !== "split" && s.nominal >= HARMONISED_VOLTS,
  );
  const key = `${schemes.DC} ${schemes.AC} ${isHarmonised}`;
  let proposed = proposals.get(key);
  if (proposed === undefined) proposals.set(key, (proposed = propose(schemes, isHarmonised)));
  return proposed;
}

/** Where a line has so many volts to neutral, cable is sold in harmonised colours; common practice. */
const HARMONISED_VOLTS = 200;

/** The colours of a scheme, those first that are harmonised where such cable is sold: a scheme for boats of both worlds lists the colours of both. */
function coloursOf(
  scheme: string,
  wanted: WireFunction,
  system: "DC" | "AC",
  isHarmonised: boolean,
): readonly PrintedColour[] {
  const colours = schemeColours(scheme, wanted, system);
  if (!isHarmonised || system === "DC") return colours;
  const [harmonised] = schemeColours("iec-2017", wanted, system);
  const rank = (colour: PrintedColour): number => (harmonised !== undefined && looksLike(colour, harmonised) ? 0 : 1);
  return [...colours].sort((a, b) => rank(a) - rank(b));
}

function propose(
  schemes: Readonly<Record<"DC" | "AC", string>>,
  isHarmonised: boolean,
): ReadonlyMap<WireFunction, PrintedColour> {
  const taken: ColourUse[] = [];
  const proposed = new Map<WireFunction, PrintedColour>();
  for (const [wanted, system] of ORDER) {
    for (const colour of coloursOf(schemes[system], wanted, system, isHarmonised)) {
      const use: ColourUse = { colour, function: wanted, system, where: "" };
      if (findClashes([...taken, use]).length > 0) continue;
      taken.push(use);
      proposed.set(wanted, colour);
      break;
    }
  }
  return proposed;
}

/** The core of a circuit that a colour belongs to, as schemes call it. */
export const functionOfCore = (conductors: readonly Conductor[], fn: Fn, current: "DC" | "AC"): WireFunction | null => {
  const conductor = conductors.find((c) => c.fn === fn);
  return conductor === undefined ? null : wireFunctionOf(conductor, current);
};
