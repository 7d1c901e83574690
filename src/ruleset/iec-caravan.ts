import { cite } from "../explain/index.ts";
import { celsius } from "../quantity/index.ts";
import { metricSize } from "../wire/index.ts";
import { iecPublicDropAC } from "./alternating-drop.ts";
import { flexibleAmpacity } from "./flexible-ampacity.ts";
import { iecAmpacity } from "./iec-ampacity.ts";
import { IEC_OPENS_BY, iecDevice, iecLate } from "./iec-overload.ts";
import type { RuleSet } from "./rule-set.ts";
import { iecSolar } from "./solar-practice.ts";
import { vehicleDistance, vehicleDrop } from "./vehicle-practice.ts";

const caravan = (clause: string) => cite("iec-60364-7-721", clause, "memory");

/** Caravans and motor caravans under the international rules. */
export const iecCaravan: RuleSet = {
  id: "iec-caravan",
  title: "Caravans and motor caravans, IEC 60364-7-721 and EN 1648",
  editions: [
    {
      name: "2018",
      also: ["7-721", "IEC 60364-7-721", "EN 1648", "EN 1648-2:2018"],
      years: [2017, 2019],
      says: "the mains side as cabins; of EN 1648 no table was found, flexible cable of DIN VDE 0298-4 stands in",
    },
  ],
  scope: "mains: IEC 60364-7-721 and 7-708 for the hook-up; direct current to 48 V: EN 1648-1 and -2",
  cautions: [
    "devices of which nothing is published that says when they are sure to open are chosen by In ≤ Iz alone; whether I2 ≤ 1.45 Iz holds is to be read off the maker's curve",
    "the conductor table of EN 1648 was not found: the ampacities of the 12 V side are those of DIN VDE 0298-4, as stand-ins",
    "device distances and drop classes of the 12 V side are common practice of vehicles, as stand-ins",
    "an engine bay whose air nobody measured counts as 60 °C",
  ],
  ampacity: {
    ...flexibleAmpacity,
    notes: ["the conductor table of EN 1648 was not found: DIN VDE 0298-4 stands in"],
  },
  ampacityAC: iecAmpacity,
  solar: iecSolar,
  deviceSize: { DC: iecDevice, AC: iecDevice, late: iecLate, opensBy: IEC_OPENS_BY, law: null },
  deviceDistance: {
    cases: [
      ...vehicleDistance.cases,
      {
        from: ["shore inlet"],
        current: ["AC"],
        sheathed: false,
        limit: null,
        says: "at the inlet's board",
        source: caravan("721.43, at the inlet"),
      },
    ],
    exemptions: vehicleDistance.exemptions,
  },
  drop: vehicleDrop,
  dropAC: iecPublicDropAC,
  leastSize: {
    strands: "class 5",
    cases: (["sheath", "alone"] as const).map((use) => ({
      current: ["DC", "AC"] as const,
      use,
      size: metricSize(1.5),
      says: "conductors in caravans",
      source: caravan("721.52"),
    })),
  },
  conductor: {
    metals: { value: ["copper"], source: caravan("721.52") },
    solidAllowed: { value: false, source: caravan("721.52") },
    flexing: { value: ["class 5", "class 6", "type 3", "class K", "class M"], source: caravan("721.52") },
    leastInsulationC: { value: celsius(60), source: caravan("721.52") },
    engineInsulationC: {
      value: celsius(80),
      source: cite("trade-practice", "vehicle wire in engine bays", "practice"),
    },
    purchase: [],
  },
};
