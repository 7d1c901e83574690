import { cite, type Trust } from "../explain/index.ts";
import { amps, celsius, inches, ratio } from "../quantity/index.ts";
import { ambientHighTempInsulation } from "../reference/ambient-high-temp-insulation.ts";
import { nec552_10E } from "../reference/nec-552-10-e.ts";
import { necAmbient } from "../reference/nec-ambient.ts";
import { necDropAC } from "./alternating-drop.ts";
import { ambientColumns, ambientTable } from "./ambient-table.ts";
import { markedTerminals, plainRules, type AmpacityRules } from "./ampacity-rules.ts";
import { neededCell } from "./ampacity-table.ts";
import type { SmallConductor } from "./device-limit.ts";
import { gauge, nec, necAmpacity } from "./nec-ampacity.ts";
import type { RuleSet } from "./rule-set.ts";
import { necNextSize, necSmallConductors } from "./us-cabin.ts";
import { usSmallCraft } from "./us-small-craft.ts";

const practice = (clause: string) => cite("trade-practice", clause, "practice");
const parkTrailer = (clause: string, trust: Trust) => nec(`552.10${clause}`, trust);

/** Fixed devices of the low-voltage side to 10 AWG. */
const small: readonly SmallConductor[] = [
  ...nec552_10E.rows.map(({ sizeAwg }): SmallConductor => {
    const { value, source } = neededCell(nec552_10E, sizeAwg, "maxOcpdAmps");
    return { metal: "copper", size: gauge(sizeAwg), upTo: amps(value), source };
  }),
  { metal: "copper", size: gauge("8"), upTo: null, source: parkTrailer("(E)(1)", "memory") },
];

/** No table of ampacities is published for the low-voltage side: that of boats stands in. */
const lowVoltage: AmpacityRules = {
  ...plainRules,
  table: usSmallCraft.ampacity.table,
  baseAmbientC: celsius(30),
  ambient: ambientTable(
    ambientColumns(necAmbient, ({ ambientMaxC }) => celsius(ambientMaxC), "nothing", [
      [celsius(60), "factor60C"],
      [celsius(75), "factor75C"],
      [celsius(90), "factor90C"],
    ]),
    ambientColumns(ambientHighTempInsulation, ({ ambientC }) => celsius(ambientC), "square root", [
      [celsius(105), "factor105C"],
      [celsius(125), "factor125C"],
      [celsius(200), "factor200C"],
    ]),
  ),
  engineAmbientC: celsius(50),
  engineAmbientSource: practice("an engine bay whose air nobody measured"),
  engineRefusal: null,
  engineRefusalSource: practice("an engine bay whose air nobody measured"),
  bundle: usSmallCraft.ampacity.bundle,
  terminals: markedTerminals,
  notes: [
    "no ampacity table is published for the 12 V side of recreational vehicles: the free-air table and the bundle factors of boats stand in",
  ],
};

/** Recreational vehicles in the United States. */
export const usRv: RuleSet = {
  id: "us-rv",
  title: "Recreational vehicles, United States",
  editions: [
    {
      name: "NEC 2023",
      also: ["NFPA 70", "NFPA 70 2023", "NFPA 1192", "RVIA LV"],
      years: [2023, 2023],
      says: "120 V: NFPA 70 of 2023, articles 551 and 552; 12 V: what 552.10 says of park trailers, and stand-ins",
    },
  ],
  scope:
    "120 V: NFPA 70 articles 551 and 552; 12 V of park trailers: 552.10. Article 551 leaves the 12 V side of other vehicles to NFPA 1192 and ANSI/RVIA LV",
  cautions: [
    "the ampacity table and the bundle factors of the 12 V side are those of boats, as stand-ins",
    "the fixed device sizes of small 12 V conductors (552.10(E)(1)) are unverified",
    "drop classes of the 12 V side are those of boats, as common practice",
    "the 18 in from battery to device are as quoted in a handbook of the trade",
  ],
  ampacity: lowVoltage,
  ampacityAC: necAmpacity,
  solar: { factor: 1.25, forHours: 1.25, source: nec("690.8(A)(1), 690.8(B)") },
  deviceSize: {
    DC: { ...necNextSize, source: practice("next rating up, as on the 120 V side") },
    AC: necNextSize,
    small: { DC: small, AC: necSmallConductors },
    law: null,
  },
  deviceDistance: {
    cases: [
      {
        from: ["battery post", "charging source", "other source"],
        current: ["DC"],
        sheathed: false,
        limit: inches(18),
        says: "of the battery, or of the point where the conductor joins another",
        source: parkTrailer("(E)(4)", "article"),
      },
      {
        from: ["shore inlet", "charging source", "other source"],
        current: ["AC"],
        sheathed: false,
        limit: inches(18),
        says: "where the conductor gets its supply; 18 in stand in for that point",
        source: practice("stand-in for 240.21, at the point of supply"),
      },
    ],
    exemptions: [
      { for: "cranking main", says: "the main feed of the vehicle's starter", source: practice("starter cables") },
    ],
  },
  drop: {
    classes: (["panel feeder", "electronics", "critical"] as const).map((because) => ({
      limit: ratio(0.03),
      because,
      source: practice("drop in recreational vehicles, classes of boats"),
    })),
    rest: { limit: ratio(0.1), because: "rest", source: practice("drop in recreational vehicles, classes of boats") },
  },
  dropAC: necDropAC,
  leastSize: {
    strands: "class B",
    cases: (["sheath", "alone"] as const).flatMap((use) => [
      {
        current: ["DC"] as const,
        use,
        size: gauge("18"),
        says: "low-voltage wire",
        source: parkTrailer("(B)", "read"),
      },
      {
        current: ["AC"] as const,
        use,
        size: gauge("14"),
        says: "alternating current",
        source: nec("551.47", "memory"),
      },
    ]),
  },
  conductor: {
    metals: { value: ["copper"], source: parkTrailer("(B)", "read") },
    solidAllowed: { value: false, source: parkTrailer("(B)", "read") },
    flexing: {
      value: ["type 3", "class 5", "class 6", "class K", "class M"],
      source: practice("conductors that bend"),
    },
    leastInsulationC: { value: celsius(60), source: nec("Table 310.16") },
    engineInsulationC: { value: celsius(80), source: practice("vehicle wire in engine bays") },
    purchase: [
      {
        value: "low-voltage wire of types GXL, HDT, SGT, SGR, SXL, or of NEC article 310",
        source: parkTrailer("(B)", "read"),
      },
    ],
  },
};
