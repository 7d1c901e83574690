import { cite } from "../explain/index.ts";
import { amps, celsius, feet, inches, ratio } from "../quantity/index.ts";
import { nec240_4D } from "../reference/nec-240-4-d.ts";
import type { Metal } from "../wire/index.ts";
import { necDropAC } from "./alternating-drop.ts";
import { neededCell } from "./ampacity-table.ts";
import type { DeviceSizeRule, SmallConductor } from "./device-limit.ts";
import { gauge, nec, necAmpacity } from "./nec-ampacity.ts";
import { necStandardRatings } from "./nec-standard-ratings.ts";
import type { RuleSet } from "./rule-set.ts";

const practice = (clause: string) => cite("trade-practice", clause, "practice");

const smallest = (metal: Metal, conductor: string, sizes: readonly string[]): readonly SmallConductor[] =>
  sizes.map((name) => {
    const label = `${conductor} ${name}`;
    const { value, source } = neededCell(nec240_4D, label, "maxOcpdAmps");
    return { metal, size: gauge(name), upTo: amps(value), source };
  });

/** From 8 AWG up 240.4(D) says nothing. */
const free = (metal: Metal): SmallConductor => ({ metal, size: gauge("8"), upTo: null, source: nec("240.4(D)") });

/** Greatest devices of small conductors in buildings. */
export const necSmallConductors: readonly SmallConductor[] = [
  ...smallest("copper", "Cu", ["18", "16", "14", "12", "10"]),
  free("copper"),
  ...smallest("aluminium", "Al/CCA", ["12", "10"]),
  free("aluminium"),
];

/** The next standard rating above an ampacity that is none itself, to 800 A. */
export const necNextSize: DeviceSizeRule = {
  upTo: "next rating up",
  ceiling: null,
  nextUpTo: amps(800),
  standard: necStandardRatings,
  source: nec("240.4(B), with the ratings of 240.6(A)"),
};

/** Buildings in the United States. */
export const usCabin: RuleSet = {
  id: "us-cabin",
  title: "Cabins and huts, United States: National Electrical Code",
  editions: [
    {
      name: "NEC 2023",
      also: ["NFPA 70", "NFPA 70 2023", "National Electrical Code 2023"],
      years: [2023, 2023],
      says: "NFPA 70 of 2023 as public transcriptions of its tables and clauses give it",
    },
  ],
  scope:
    "NFPA 70 articles 110, 210, 215, 240, 250, 310, 400, 690, 705, 706 and 710; below 50 V article 720 unless another article covers the circuit",
  cautions: [
    "every load counts as continuous: conductors carry its current × 1.25 before correction (210.19), and devices do (210.20)",
    "terminals of which the plan says nothing count as 60 °C up to 1 AWG and 75 °C above (110.14(C))",
    "conductors count as lying in a raceway or cable (Table 310.16) where no `method` is written",
    "the next rating up is not for branch circuits that feed several receptacles (240.4(B)(1)): such a circuit has to be watched by hand",
    "12 AWG is the least below 50 V (720.4); 10 AWG for several appliances or receptacles is not counted",
    "voltage drop is advice in the code; below 60 V the classes of boats stand in, as common practice",
    "the distance of a device from a battery is given in words only (240.21(H)): 7 in, or 40 in enclosed, stand in",
  ],
  ampacity: necAmpacity,
  solar: { factor: 1.25, source: nec("690.8(A)(1)") },
  deviceSize: {
    DC: necNextSize,
    AC: necNextSize,
    small: { DC: necSmallConductors, AC: necSmallConductors },
    law: null,
  },
  deviceDistance: {
    cases: [
      {
        from: ["battery post"],
        current: ["DC"],
        sheathed: true,
        limit: inches(40),
        says: "as close as practicable to the battery's terminals; 40 in, in a raceway or enclosure all the way, stand in",
        source: practice("stand-in for 240.21(H), as close as practicable"),
      },
      {
        from: ["battery post"],
        current: ["DC"],
        sheathed: false,
        limit: inches(7),
        says: "as close as practicable to the battery's terminals; 7 in stand in",
        source: practice("stand-in for 240.21(H), as close as practicable"),
      },
      {
        from: ["charging source", "shore inlet", "other source"],
        current: ["DC", "AC"],
        sheathed: true,
        limit: feet(10),
        says: "a tap in a raceway all the way, whose ampacity is no less than its load and the device at its end",
        source: nec("240.21(B)(1)"),
      },
      {
        from: ["charging source", "shore inlet", "other source"],
        current: ["DC", "AC"],
        sheathed: false,
        limit: inches(7),
        says: "where the conductor gets its supply; 7 in of lead stand in for that point",
        source: practice("stand-in for 240.21, at the point of supply"),
      },
    ],
    exemptions: [],
  },
  drop: {
    classes: (["panel feeder", "electronics", "critical"] as const).map((because) => ({
      limit: ratio(0.03),
      because,
      source: practice("drop below 60 V in cabins, classes of boats"),
    })),
    rest: { limit: ratio(0.1), because: "rest", source: practice("drop below 60 V in cabins, classes of boats") },
  },
  dropAC: necDropAC,
  leastSize: {
    strands: "class B",
    cases: (["sheath", "alone"] as const).flatMap((use) => [
      { current: ["DC"] as const, use, size: gauge("12"), says: "below 50 V", source: nec("720.4") },
      { current: ["AC"] as const, use, size: gauge("14"), says: "a branch circuit", source: nec("310.3(A)") },
    ]),
  },
  conductor: {
    metals: { value: ["copper", "aluminium"], source: nec("310.3(B)") },
    solidAllowed: { value: true, source: nec("310.3(C)") },
    flexing: {
      value: ["type 3", "class 5", "class 6", "class K", "class M"],
      source: practice("conductors that bend"),
    },
    leastInsulationC: { value: celsius(60), source: nec("Table 310.16") },
    engineInsulationC: { value: celsius(60), source: nec("310.14(A)(3)") },
    purchase: [
      { value: "in wet places a type that is listed for them", source: nec("310.10(C)", "memory") },
      { value: "finely stranded conductors need terminals that are listed for their class", source: nec("110.14") },
      { value: "in raceways 8 AWG and larger is stranded", source: nec("310.3(C)", "memory") },
    ],
  },
};
