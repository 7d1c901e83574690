import { cite } from "../explain/index.ts";
import { celsius, metres, ratio } from "../quantity/index.ts";
import { metricSize } from "../wire/index.ts";
import { customaryDropAC } from "./alternating-drop.ts";
import type { DeviceDistanceRules } from "./device-distance.ts";
import type { DropRules } from "./drop-class.ts";
import { flexibleAmpacity } from "./flexible-ampacity.ts";
import type { RuleSet } from "./rule-set.ts";
import { solarPractice } from "./solar-practice.ts";

const practice = (clause: string) => cite("trade-practice", clause, "practice");

/** Where a vehicle's devices sit. */
export const vehicleDistance: DeviceDistanceRules = {
  cases: [
    {
      from: ["battery post", "charging source", "other source"],
      current: ["DC"],
      sheathed: true,
      limit: metres(0.5),
      says: "in a sheath or loom all the way to the device",
      source: practice("device near the battery of a vehicle"),
    },
    {
      from: ["battery post", "charging source", "other source"],
      current: ["DC"],
      sheathed: false,
      limit: metres(0.2),
      says: "as near to the battery as practical",
      source: practice("device near the battery of a vehicle"),
    },
  ],
  exemptions: [
    { for: "cranking main", says: "the main feed of the starter", source: practice("starter cables") },
    {
      for: "rated for the output",
      says: "a conductor that carries the whole rated output of an alternator needs no device at the alternator's end; the battery's end still does",
      source: practice("alternator cables"),
    },
  ],
};

/** Drop at 12 to 48 V in vehicles. */
export const vehicleDrop: DropRules = {
  classes: (["panel feeder", "critical"] as const).map((because) => ({
    limit: ratio(0.03),
    because,
    source: practice("drop in vehicles"),
  })),
  rest: { limit: ratio(0.1), because: "rest", source: practice("drop in vehicles") },
};

/** Vehicles for which no rule set is chosen. */
export const vehiclePractice: RuleSet = {
  id: "vehicle-practice",
  title: "Vehicles of 12 to 48 V, practice of the trade",
  editions: [
    {
      name: "practice",
      says: "common practice, with the ampacities of DIN VDE 0298-4, 60 °C rubber cord of BS 7671 and factors of the Canadian code",
    },
  ],
  scope:
    "vehicles for which no rule set is chosen; ISO 6722, ISO 19642 and SAE J1128 give sizes and temperature classes of vehicle wire, and no ampacity",
  cautions: [
    "nearly every rule of this set is common practice without a published source",
    "conductors count as plus and minus together in a loom where no `method` is written",
    "better insulation than 70 °C gains no ampacity in the table; it bears hotter air",
    "an engine bay whose air nobody measured counts as 60 °C",
  ],
  ampacity: flexibleAmpacity,
  solar: { factor: solarPractice.factor, source: solarPractice.source },
  deviceSize: {
    DC: { upTo: "ampacity", ceiling: 1, source: practice("device no more than the wire carries") },
    AC: { upTo: "ampacity", ceiling: 1, source: practice("device no more than the wire carries") },
    law: null,
  },
  deviceDistance: vehicleDistance,
  drop: vehicleDrop,
  dropAC: customaryDropAC,
  leastSize: {
    strands: "class 5",
    cases: [
      {
        current: ["DC"],
        use: "sheath",
        size: metricSize(0.75),
        says: "in a loom",
        source: practice("least vehicle wire"),
      },
      {
        current: ["DC"],
        use: "panel",
        size: metricSize(0.75),
        says: "in a loom",
        source: practice("least vehicle wire"),
      },
      { current: ["DC"], use: "alone", size: metricSize(1.5), says: "alone", source: practice("least vehicle wire") },
      { current: ["AC"], use: "sheath", size: metricSize(1.5), says: "mains", source: practice("least vehicle wire") },
      { current: ["AC"], use: "alone", size: metricSize(1.5), says: "mains", source: practice("least vehicle wire") },
    ],
  },
  conductor: {
    metals: { value: ["copper"], source: practice("vehicle wire") },
    solidAllowed: { value: false, source: practice("vehicle wire") },
    flexing: {
      value: ["class 5", "class 6", "type 3", "class K", "class M"],
      source: practice("conductors that bend"),
    },
    leastInsulationC: { value: celsius(60), source: practice("vehicle wire") },
    engineInsulationC: { value: celsius(80), source: practice("vehicle wire in engine bays") },
    purchase: [{ value: "oil-resistant insulation in engine bays", source: practice("vehicle wire in engine bays") }],
  },
};
