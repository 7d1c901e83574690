import { cite, type Trust } from "../explain/index.ts";
import { celsius, metres, ratio } from "../quantity/index.ts";
import { isoSmallCraft as conductorTable } from "../reference/iso-small-craft.ts";
import { isoSmallCraftBundleFactors } from "../reference/iso-small-craft-bundle-factors.ts";
import { isoSmallCraftEngineFactors } from "../reference/iso-small-craft-engine-factors.ts";
import { isoSmallCraftMinAreas } from "../reference/iso-small-craft-min-areas.ts";
import { metricSize } from "../wire/index.ts";
import { customaryDropAC } from "./alternating-drop.ts";
import { bundleSteps, markedTerminals, plainRules } from "./ampacity-rules.ts";
import { ampacityTable, neededCell } from "./ampacity-table.ts";
import type { RuleSet } from "./rule-set.ts";
import { solarPractice } from "./solar-practice.ts";

const iso = (clause: string, trust: Trust) => cite("iso-13297-2020", clause, trust);
const iso10133 = (clause: string, trust: Trust) => cite("iso-10133-2012", clause, trust);

/** The engine-space factors name a column by the highest insulation rating that it serves. */
const engineFactor = (upToC: number) => neededCell(isoSmallCraftEngineFactors, upToC, "factor");

const table = ampacityTable(conductorTable, {
  metal: "copper",
  strands: "class 5",
  sizeOf: ({ areaMm2 }) => metricSize(areaMm2),
  columns: [
    { name: "amps60C", from: celsius(60), to: celsius(60), engineFactor: null },
    { name: "amps70C", from: celsius(70), to: celsius(70), engineFactor: engineFactor(70) },
    { name: "amps85_90C", from: celsius(85), to: celsius(90), engineFactor: engineFactor(90) },
    { name: "amps105C", from: celsius(105), to: celsius(105), engineFactor: engineFactor(105) },
    { name: "amps125C", from: celsius(125), to: celsius(125), engineFactor: engineFactor(125) },
    { name: "amps200C", from: celsius(200), to: celsius(200), engineFactor: engineFactor(200) },
  ],
});

const leastArea = (use: string) => {
  const cell = neededCell(isoSmallCraftMinAreas, use, "minAreaMm2");
  return { size: metricSize(cell.value), says: use, source: { ...cell.source, clause: "7.7" } };
};

/** Boats under the international standard. */
export const isoSmallCraft: RuleSet = {
  id: "iso-small-craft",
  title: "Small craft, ISO 13297",
  editions: [
    {
      name: "2020+A1:2022",
      says: "ISO 13297:2020 with its amendment of 2022, which took over ISO 10133; the conductor table and most factors from memory",
    },
  ],
  scope:
    "direct current to 50 V and single-phase alternating current to 250 V on small craft; lithium batteries of more than 500 Wh fall under ISO 23625 too",
  cautions: [
    "every ampacity and every correction factor of this set is unverified: confirm them against the purchased standard",
    "the limit of devices on direct current and their distance from a battery are unverified",
  ],
  ampacity: {
    ...plainRules,
    terminals: markedTerminals,
    table,
    baseAmbientC: celsius(30),
    engineAmbientC: celsius(50),
    // The factors are those of 50 °C to two digits, although the standard is often read as meaning 60 °C.
    engineAmbientSource: cite(
      "own-derivation",
      "the engine-space factors equal the square-root form at 50 °C",
      "derived",
    ),
    engineRefusal: "insulation in engine spaces has to be rated for at least 70 °C",
    engineRefusalSource: iso("Annex A notes", "memory"),
    bundle: bundleSteps(isoSmallCraftBundleFactors),
    bundleNotes: [],
  },
  solar: solarPractice,
  deviceSize: {
    DC: { upTo: "ampacity", ceiling: 1, source: iso("12, device against conductor", "memory") },
    AC: { upTo: "ampacity", ceiling: 1, source: iso("13.1.5", "read") },
    law: null,
  },
  deviceDistance: {
    cases: [
      {
        from: ["charging source"],
        current: ["DC"],
        sheathed: false,
        limit: metres(1.8),
        says: "inside the charging source or along the conductor from it, sized on its greatest output",
        source: iso("12.3", "read"),
      },
      {
        from: ["battery post", "other source"],
        current: ["DC"],
        sheathed: true,
        limit: null,
        says: "in a protective sheath up to the device",
        source: iso("12.1", "memory"),
      },
      {
        from: ["battery post", "other source"],
        current: ["DC"],
        sheathed: false,
        limit: metres(0.2),
        says: "along the conductor from the source",
        source: iso("12.1", "memory"),
      },
      {
        from: ["shore inlet", "charging source", "other source"],
        current: ["AC"],
        sheathed: true,
        limit: null,
        says: "where 0.5 m is impractical, a protected run up to the panel; the end of the clause was not seen",
        source: iso("13.2.2", "memory"),
      },
      {
        from: ["shore inlet", "charging source", "other source"],
        current: ["AC"],
        sheathed: false,
        limit: metres(0.5),
        says: "a trip-free breaker with manual reset, along the conductor from the source",
        source: iso("13.2.2", "read"),
      },
    ],
    exemptions: [
      { for: "cranking main", says: "engine starting conductors", source: iso("12.1", "memory") },
      {
        for: "self-limited source",
        says: "a charging source that limits its own output",
        source: iso("12.3", "read"),
      },
    ],
  },
  drop: {
    classes: (["panel feeder", "navigation light", "bilge blower", "bilge pump", "critical"] as const).map(
      (because) => ({
        limit: ratio(0.03),
        because,
        source: iso10133("4.8", "read"),
      }),
    ),
    rest: { limit: ratio(0.1), because: "rest", source: iso10133("4.7", "memory") },
  },
  dropAC: customaryDropAC,
  leastSize: {
    strands: "class 5",
    cases: [
      { current: ["DC", "AC"], use: "panel", ...leastArea("inside a panel") },
      {
        current: ["DC", "AC"],
        use: "sheath",
        tail: metres(0.8),
        ...leastArea("conductor in a sheath, up to 800 mm outside it"),
      },
      {
        current: ["DC", "AC"],
        use: "alone",
        longerThan: metres(0.2),
        ...leastArea("separate conductor longer than 200 mm"),
      },
    ],
  },
  conductor: {
    metals: { value: ["copper"], source: iso10133("7", "memory") },
    solidAllowed: { value: false, source: iso10133("7", "memory") },
    flexing: {
      value: ["class 5", "class 6", "type 3", "class K", "class M"],
      source: iso10133("7", "memory"),
    },
    leastInsulationC: { value: celsius(60), source: iso10133("7", "memory") },
    engineInsulationC: { value: celsius(70), source: iso10133("7", "memory") },
    purchase: [
      { value: "oil-resistant insulation or a sleeve in engine spaces", source: iso10133("7", "memory") },
      {
        value: "in wet places the wet rating of the insulation counts",
        source: cite("trade-practice", "", "practice"),
      },
    ],
  },
};
