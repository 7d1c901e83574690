import { celsius, type Celsius } from "../quantity/index.ts";
import { ruleSets } from "../ruleset/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import { ampacity, type Ampacity } from "./ampacity.ts";
import type { Installed } from "./installed.ts";
import type { Stretch } from "./stretch.ts";

/** A way in which a conductor may lie, for a figure without a build. */
export type Lying = "alone in free air" | "together" | "in an engine space";

/** What a conductor carries in one of the ways that it may lie. */
export interface CarriesLying {
  readonly lies: Lying;
  /** Loaded conductors that lie together, this one included: 1 is alone. */
  readonly loaded: number;
  readonly ampacity: Ampacity;
}

/** What a conductor carries by one rule set, in each way that it may lie. */
export interface Carries {
  /** Rule set, and its first edition. */
  readonly ruleSet: string;
  readonly title: string;
  readonly edition: string;
  /** One for each way; empty where the set carries no numbers. */
  readonly lying: readonly CarriesLying[];
  /** Why the set tells nothing of it; null where it does. */
  readonly cannotTell: string | null;
}

const calm: Stretch = { engineSpace: false, ambientC: celsius(30), ambientStated: false, bundle: 1 };
/** Fewer than this count as this many: E-11 counts two in a sheath with three, and who buys one cable lays it beside another. */
const LEAST_TOGETHER = 3;

const waysOf = (loaded: number): readonly (readonly [Lying, Stretch, Installed])[] => {
  const together = Math.max(LEAST_TOGETHER, loaded);
  const sheathed = loaded > 1;
  const inCable: Installed = { sheathed, loaded: Math.max(2, loaded) };
  return [
    ["alone in free air", calm, { method: "free air" }],
    ["together", { ...calm, bundle: together }, inCable],
    // Loaded cores of one cable are together wherever it goes.
    [
      "in an engine space",
      { ...calm, engineSpace: true, bundle: sheathed ? together : 1 },
      sheathed ? inCable : { method: "free air" },
    ],
  ];
};

/**
 * What a conductor carries by every rule set: alone at 30 °C, with others that carry current, in an engine space.
 *
 * A figure to learn by and to order by; a build is rated along its own run (`ampacity`).
 *
 * @param insulationC °C, of the insulation
 * @param loaded conductors of its own cable that carry current, itself included, 1…; two count as three, and from two on they are together in the engine space too
 * @returns one for each rule set
 * @source the tables and factors of each rule set, in the result
 * @example 10 AWG boat cable, 105 °C: 60 A alone by 33 CFR 183.425 Table 5
 * carriesBy({ size: awgSize("10"), metal: "copper", plating: "tinned", strands: "type 3" }, celsius(105))[0].lying[0].ampacity.amps //=> 60
 */
export const carriesBy = (make: ConductorMake, insulationC: Celsius, loaded = 1): readonly Carries[] =>
  ruleSets.map((ruleSet) => {
    const { id, title, editions } = ruleSet;
    const lying = waysOf(loaded).map(([lies, stretch, installed]) => ({
      lies,
      loaded: stretch.bundle,
      ampacity: ampacity({ ruleSet, make, insulationC, installed, stretches: [stretch] }),
    }));
    const cannotTell = lying[0]?.ampacity.cannotTell ?? null;
    return { ruleSet: id, title, edition: editions[0].name, lying, cannotTell };
  });
