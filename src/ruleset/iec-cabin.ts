import { cite, type Trust } from "../explain/index.ts";
import { celsius, metres, ratio } from "../quantity/index.ts";
import { metricSize } from "../wire/index.ts";
import { iecAmpacity, wiring } from "./iec-ampacity.ts";
import { IEC_OPENS_BY, iecDevice, iecLate } from "./iec-overload.ts";
import type { RuleSet } from "./rule-set.ts";
import { iecSolar } from "./solar-practice.ts";

const practice = (clause: string) => cite("trade-practice", clause, "practice");
const overcurrent = (clause: string, trust: Trust) => cite("iec-60364-4-43", clause, trust);

/** Buildings under the international installation rules. */
export const iecCabin: RuleSet = {
  id: "iec-cabin",
  title: "Cabins and huts, IEC 60364",
  editions: [
    {
      name: "2009",
      also: ["IEC 60364", "60364", "IEC 60364-5-52:2009"],
      years: [2009, 2011],
      says: "IEC 60364-4-43:2008 and -5-52:2009 as reprints and national adoptions give their tables; adoptions differ",
    },
  ],
  scope:
    "IEC 60364-4-41, -4-43, -5-52, -5-54, -5-55 and -7-712; each country has its own adoption, which binds and differs",
  cautions: [
    "devices of which nothing is published that says when they are sure to open are chosen by In ≤ Iz alone; whether I2 ≤ 1.45 Iz holds is to be read off the maker's curve",
    "conductors count as single cores in conduit (method B1) or cable in conduit (B2) where no `method` is written",
    "terminals count as 70 °C where nothing is written (unverified): better insulation then gains in hot air and in groups only",
    "many values for XLPE cable and for cable in free air are unverified; each says so",
    "aluminium, burial (D) and method A2 are not in the tables",
    "drop limits are those of a private source (6 % lighting, 8 % other, unverified), as an off-grid cabin is",
    "3 m from the source to the device hold only where short circuit and fire are kept unlikely (433.2.2, unverified)",
  ],
  ampacity: iecAmpacity,
  solar: iecSolar,
  deviceSize: { DC: iecDevice, AC: iecDevice, late: iecLate, opensBy: IEC_OPENS_BY, law: null },
  deviceDistance: {
    cases: [
      {
        from: ["battery post", "charging source", "shore inlet", "other source"],
        current: ["DC", "AC"],
        sheathed: true,
        limit: metres(3),
        says: "along a conductor that is laid so that a short circuit and fire are unlikely",
        source: overcurrent("433.2.2 and 434.2.1", "memory"),
      },
      {
        from: ["battery post", "charging source", "shore inlet", "other source"],
        current: ["DC", "AC"],
        sheathed: false,
        limit: metres(0.2),
        says: "at the start of the conductor; 200 mm of lead stand in for that point",
        source: practice("stand-in for 433.2.1, at the start"),
      },
    ],
    exemptions: [],
  },
  drop: {
    classes: [{ limit: ratio(0.06), because: "lighting", source: wiring("Annex G, private source", "memory") }],
    rest: { limit: ratio(0.08), because: "rest", source: wiring("Annex G, private source", "memory") },
  },
  leastSize: {
    strands: "class 2",
    cases: (["sheath", "alone"] as const).map((use) => ({
      current: ["DC", "AC"] as const,
      use,
      size: metricSize(1.5),
      says: "power and lighting",
      source: wiring("Table 52.2", "memory"),
    })),
  },
  conductor: {
    metals: { value: ["copper", "aluminium"], source: wiring("Table 52.2", "memory") },
    solidAllowed: { value: true, source: wiring("521", "memory") },
    flexing: {
      value: ["class 5", "class 6", "type 3", "class K", "class M"],
      source: practice("conductors that bend"),
    },
    leastInsulationC: { value: celsius(70), source: wiring("Table 52.1", "memory") },
    engineInsulationC: { value: celsius(70), source: wiring("Table 52.1", "memory") },
    purchase: [{ value: "in wet places a cable that is made for them", source: practice("wet places") }],
  },
};
