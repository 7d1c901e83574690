import { circuitKeys } from "../grammar/circuit-keys.ts";
import { interlockKeys } from "../grammar/interlock-keys.ts";
import type { KeyRules, Takes } from "../grammar/rule.ts";
import {
  climateKeys,
  measuredKeys,
  placeKeys,
  stateKeys,
  stockKeys,
  systemKeys,
  waiverKeys,
  wayKeys,
  zoneKeys,
} from "../grammar/section-keys.ts";
import type { sectionNames } from "../read-plan.ts";

/** What a section holds, for whoever writes in it. */
export interface SectionHelp {
  readonly says: string;
  /** Keys of the section itself. */
  readonly record?: KeyRules;
  /** It holds things by names of the person's own: what its keys are called, and what stands under each. */
  readonly map?: { readonly of: string; readonly keys?: KeyRules; readonly value?: Takes };
}

const rate: Takes = {};

/** Sections by name. Keys of a part hang on its kind and are looked up there. */
export const sectionHelp: Readonly<Record<(typeof sectionNames)[number], SectionHelp>> = {
  wireworthy: { says: "Version of the language: `1`." },
  name: { says: "What the build is called." },
  revision: { says: "Letter, number or date of this version of the plan." },
  country: { says: "Where it is used." },
  for: { says: "Whom it is made for." },
  axes: { says: "What x, y and z mean, in words." },
  note: { says: "Anything worth writing down." },
  rules: { says: "Rule set and edition of each system.", map: { of: "system", value: { names: ["a rule set"] } } },
  systems: {
    says: "Each supply: its current, nominal volts, where its return goes.",
    map: { of: "", keys: systemKeys },
  },
  stock: { says: "What is bought: size system, metal, strands, insulation.", record: stockKeys },
  "drop classes": { says: "Drop classes of your own." },
  colours: { says: "Colour scheme of the insulation." },
  languages: { says: "Languages of the labels." },
  climate: { says: "Air temperature where no zone says otherwise.", record: climateKeys },
  zones: { says: "What it is like along the runs.", map: { of: "", keys: zoneKeys } },
  places: { says: "Names for positions.", map: { of: "", keys: placeKeys } },
  ways: { says: "Stretches along which wire can run.", map: { of: "", keys: wayKeys } },
  parts: { says: "Everything with terminals.", map: { of: "" } },
  circuits: { says: "The conductors, by wire number.", map: { of: "wire number", keys: circuitKeys } },
  interlocks: {
    says: "What keeps switches, plugs and sources from standing in positions that must not meet.",
    map: { of: "", keys: interlockKeys },
  },
  states: {
    says: "Moments: what runs, which sources feed, how full the batteries are.",
    map: { of: "", keys: stateKeys },
  },
  modes: { says: "Names of days of different habit." },
  use: { says: "Hours or energy a day, by mode.", map: { of: "part", value: rate } },
  site: { says: "Where, and in which months." },
  family: { says: "Parameters and options of a series of builds." },
  waivers: { says: "Findings that stay, with reason and date.", map: { of: "finding", keys: waiverKeys } },
  measured: { says: "What was measured, with what, when.", map: { of: "thing", keys: measuredKeys } },
  photos: { says: "Photos by file name.", map: { of: "thing", value: rate } },
};
