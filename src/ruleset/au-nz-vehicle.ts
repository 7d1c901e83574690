import { cite, type Trust } from "../explain/index.ts";
import { celsius, metres, ratio } from "../quantity/index.ts";
import { metricSize } from "../wire/index.ts";
import type { AmpacityRules } from "./ampacity-rules.ts";
import { flexibleAmpacity } from "./flexible-ampacity.ts";
import { iecAmpacity } from "./iec-ampacity.ts";
import { IEC_OPENS_BY, iecDevice, iecLate } from "./iec-overload.ts";
import type { RuleSet } from "./rule-set.ts";
import { iecSolar } from "./solar-practice.ts";

const clause = (text: string, trust: Trust) => cite("as-nzs-3001-2-2022", text, trust);

/** The tables of AS/NZS 3008.1 hold for air of 40 °C: what stands in for them is corrected to that at least. */
const atForty = (rules: AmpacityRules): AmpacityRules => ({
  ...rules,
  leastAirC: celsius(40),
  notes: ["AS/NZS 3008.1 is not carried: another table stands in, corrected to air of 40 °C"],
});

/** Connectable electrical installations of vehicles in Australia and New Zealand. */
export const auNzVehicle: RuleSet = {
  id: "au-nz-vehicle",
  title: "Vehicles and caravans, Australia and New Zealand: AS/NZS 3001.2",
  editions: [
    {
      name: "2022",
      also: ["3001.2", "AS/NZS 3001.2", "AS/NZS 3001"],
      years: [2022, 2022],
      says: "AS/NZS 3001.2:2022 as articles quote it; the tables of AS/NZS 3008.1 are not carried",
    },
  ],
  scope:
    "AS/NZS 3001.2:2022, in force from 18 November 2023 where law calls it, with AS/NZS 3000 behind it; repairs follow the rule of their day",
  cautions: [
    "devices of which nothing is published that says when they are sure to open are chosen by In ≤ Iz alone; whether I2 ≤ 1.45 Iz holds is to be read off the maker's curve",
    "the ampacity tables of AS/NZS 3008.1 are not carried: DIN VDE 0298-4 (extra-low voltage) and IEC 60364-5-52 (mains) stand in, corrected to air of 40 °C",
    "drop and terminal temperatures of this set are unverified; distances of devices are as quoted in articles",
  ],
  ampacity: atForty(flexibleAmpacity),
  ampacityAC: atForty({
    ...iecAmpacity,
    terminals: {
      tables: [],
      assumed: [{ upTo: null, terminalsC: celsius(75) }],
      source: clause("terminals of equipment", "memory"),
    },
  }),
  solar: iecSolar,
  deviceSize: {
    DC: { ...iecDevice, source: clause("device against conductor, as AS/NZS 3000", "memory") },
    AC: { ...iecDevice, source: clause("device against conductor, as AS/NZS 3000", "memory") },
    late: iecLate,
    opensBy: IEC_OPENS_BY,
    law: null,
  },
  deviceDistance: {
    cases: [
      {
        from: ["battery post"],
        current: ["DC"],
        sheathed: true,
        limit: metres(1),
        says: "suitably enclosed all the way to the device",
        source: clause("device near the battery", "article"),
      },
      {
        from: ["battery post"],
        current: ["DC"],
        sheathed: false,
        limit: metres(0.2),
        says: "of the battery, or directly outside its enclosure",
        source: clause("device near the battery", "article"),
      },
      {
        from: ["charging source", "other source"],
        current: ["DC"],
        sheathed: false,
        limit: metres(0.2),
        says: "as of a battery, which stands in",
        source: cite("trade-practice", "stand-in: as of a battery", "practice"),
      },
    ],
    exemptions: [
      {
        for: "cranking main",
        says: "the main feed of the starter",
        source: cite("trade-practice", "starter cables", "practice"),
      },
    ],
  },
  drop: {
    classes: [],
    rest: { limit: ratio(0.1), because: "rest", source: clause("drop at extra-low voltage", "memory") },
  },
  dropAC: {
    classes: [],
    rest: { limit: ratio(0.05), because: "rest", source: clause("drop at low voltage", "memory") },
  },
  leastSize: {
    strands: "class 5",
    cases: [
      ...(["sheath", "alone"] as const).map((use) => ({
        current: ["AC"] as const,
        use,
        size: metricSize(1.5),
        says: "mains; 2.5 mm² in thermal insulation",
        source: clause("wiring of the mains side", "article"),
      })),
      ...(["sheath", "alone"] as const).map((use) => ({
        current: ["DC"] as const,
        use,
        size: metricSize(1.5),
        says: "as of the mains side, which stands in",
        source: cite("trade-practice", "stand-in: as of the mains side", "practice"),
      })),
    ],
  },
  conductor: {
    metals: { value: ["copper"], source: clause("wiring", "memory") },
    solidAllowed: { value: false, source: clause("seven strands or more", "article") },
    flexing: {
      value: ["class 5", "class 6", "type 3", "class K", "class M"],
      source: cite("trade-practice", "conductors that bend", "practice"),
    },
    leastInsulationC: { value: celsius(60), source: clause("wiring", "memory") },
    engineInsulationC: {
      value: celsius(80),
      source: cite("trade-practice", "vehicle wire in engine bays", "practice"),
    },
    purchase: [],
  },
};
