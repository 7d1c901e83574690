import { cite } from "../explain/index.ts";
import { celsius, feet, inches, ratio, volts } from "../quantity/index.ts";
import { e11BundleFactors } from "../reference/e11-bundle-factors.ts";
import { usSmallCraftDc } from "../reference/us-small-craft-dc.ts";
import { usSmallCraftEngineFactors } from "../reference/us-small-craft-engine-factors.ts";
import { awgSize, type WireSize } from "../wire/index.ts";
import { customaryDropAC } from "./alternating-drop.ts";
import { bundleSteps, markedTerminals, plainRules } from "./ampacity-rules.ts";
import { ampacityTable, neededCell } from "./ampacity-table.ts";
import type { RuleSet } from "./rule-set.ts";
import { solarPractice } from "./solar-practice.ts";

const e11 = (clause: string, trust: "read" | "article" | "memory") => cite("abyc-e-11", clause, trust);
const law = (clause: string) => cite("33-cfr-183", clause, "read");

function gauge(name: string): WireSize {
  const size = awgSize(name);
  if (size === null) throw new Error(`AWG has no ${name}`);
  return size;
}

const table = ampacityTable(usSmallCraftDc, {
  metal: "copper",
  // The resistances of NEC chapter 9 table 8 are those of Class B strands.
  strands: "class B",
  sizeOf: ({ sizeAwg }) => awgSize(sizeAwg),
  columns: [
    // The law lets 60 °C insulation into engine spaces at 0.58, E-11 does not; the stricter decides.
    { name: "amps60C", from: celsius(60), to: celsius(60), engineFactor: null },
    ...(
      [
        ["amps75C", 75],
        ["amps80C", 80],
        ["amps90C", 90],
        ["amps105C", 105],
        ["amps125C", 125],
        ["amps200C", 200],
      ] as const
    ).map(([name, rating]) => ({
      name,
      from: celsius(rating),
      to: celsius(rating),
      engineFactor: neededCell(usSmallCraftEngineFactors, rating, "factor"),
    })),
  ],
});

/** Boats under United States law and the voluntary standard behind it. */
export const usSmallCraft: RuleSet = {
  id: "us-small-craft",
  title: "Small craft, United States: ABYC E-11 with 33 CFR 183",
  editions: [
    {
      name: "E-11 to 2021",
      also: ["E-11", "ABYC E-11", "33 CFR 183", "33 CFR part 183"],
      years: [2003, 2021],
      says: "ABYC E-11 as public texts quote its editions from 2003 to 2021, whose clause numbers move; 33 CFR 183 subpart I as in force",
    },
  ],
  scope:
    "33 CFR 183 subpart I binds boats with petrol engines other than outboards; for diesel, outboard and sailing boats ABYC E-11 is voluntary practice. Lithium batteries of 600 Wh and more fall under E-13 too",
  cautions: [
    "the ampacity table is for one conductor in free air; a pair in one sheath counts as a bundle",
    "engine-space factors other than those of 60 and 105 °C insulation are unverified",
    "device sizes and places rest on quotations of E-11, not on the standard itself",
  ],
  ampacity: {
    ...plainRules,
    terminals: markedTerminals,
    table,
    baseAmbientC: celsius(30),
    engineAmbientC: celsius(50),
    engineAmbientSource: law("183.425 Table 5 notes"),
    engineRefusal:
      "E-11 asks for insulation of at least 75 °C in engine spaces; the law alone would let 60 °C insulation in at 0.58 of its rating",
    engineRefusalSource: e11("conductors in engine spaces", "article"),
    bundle: bundleSteps(e11BundleFactors),
    bundleNotes: [
      {
        from: 2,
        to: 2,
        says: "two readings are published: E-11 counts two conductors in a sheath with three (0.70), a cable maker starts at three; the lower one is used",
      },
      {
        from: 4,
        to: null,
        says: "some quotations keep the count for alternating current and give direct current a flat 0.70, only when bundled for more than 24 in (610 mm); the lower factor is used",
      },
      {
        from: 2,
        to: null,
        says: "E-11 is quoted as not counting a conductor loaded to at most half of its up-to-three rating, nor one that is on less than 1 min per mm of its diameter and then off five times as long; all are counted here unless the plan says otherwise",
      },
    ],
  },
  solar: solarPractice,
  deviceSize: {
    DC: { upTo: "next rating up", ceiling: 1.5, source: e11("11.10, device against conductor", "article") },
    AC: { upTo: "next rating up", ceiling: 1.5, source: e11("11.10.2.3 and 11.10.2.6", "read") },
    law: {
      upTo: "next rating up",
      ceiling: 1.5,
      outrightBelow: volts(50),
      source: law("183.455(c)(1)"),
      otherwise: law("183.455(c)(2)"),
    },
  },
  deviceDistance: {
    cases: [
      {
        from: ["battery post"],
        current: ["DC"],
        sheathed: true,
        limit: inches(72),
        says: "joined straight to the battery post, in a sheath or enclosure all the way",
        source: e11("11.10.1.1.1 exception 2 (2008 numbering)", "read"),
      },
      {
        from: ["shore inlet"],
        current: ["AC"],
        sheathed: false,
        limit: feet(10),
        says: "the main shore disconnect, or a further device, along the conductors from the inlet",
        source: e11("11.10.2.8.3", "read"),
      },
      {
        from: ["battery post", "charging source", "other source"],
        current: ["DC"],
        sheathed: true,
        limit: inches(40),
        says: "in a sheath or enclosure all the way to the device",
        source: law("183.455(b)(2)"),
      },
      {
        from: ["battery post", "charging source", "other source"],
        current: ["DC"],
        sheathed: false,
        limit: inches(7),
        says: "at the source; where impractical, along the conductor",
        source: law("183.455(b)(1)"),
      },
      {
        from: ["charging source", "other source"],
        current: ["AC"],
        sheathed: true,
        limit: inches(40),
        says: "in a sheath or enclosure all the way to the device",
        source: e11("11.10.2.8.1 and 11.10.2.8.4", "read"),
      },
      {
        from: ["charging source", "other source"],
        current: ["AC"],
        sheathed: false,
        limit: inches(7),
        says: "at the source; where impractical, along the conductor",
        source: e11("11.10.2.8.1 and 11.10.2.8.4", "read"),
      },
    ],
    exemptions: [
      {
        for: "cranking main",
        says: "the main feed from the battery to a cranking motor, not its branches",
        source: e11("11.10.1.1.1 exception 1 (2008 numbering)", "read"),
      },
      {
        for: "pigtail",
        says: "tails of less than 7 in",
        shorterThan: inches(7),
        source: e11("11.10.1.1.1 exception 5 (2008 numbering)", "article"),
      },
      {
        for: "self-limited source",
        says: "a self-limiting alternator with its own regulator, in a sheath, to a source other than the battery",
        shorterThan: inches(40),
        source: e11("11.10", "article"),
      },
      {
        for: "rated for the output",
        says: "a conductor that carries the whole rated output of an alternator needs no device at the alternator's end; the battery's end still does",
        source: e11("11.10", "article"),
      },
    ],
  },
  drop: {
    classes: [
      ...(["panel feeder", "navigation light", "bilge blower", "electronics", "critical"] as const).map((because) => ({
        limit: ratio(0.03),
        because,
        source: e11("11.14.2.6", "read"),
      })),
      { limit: ratio(0.1), because: "bilge pump", source: e11("11.14.2.6, answer key of 2015", "read") },
    ],
    rest: { limit: ratio(0.1), because: "rest", source: e11("11.14.2.6", "read") },
  },
  dropAC: customaryDropAC,
  leastSize: {
    strands: "class B",
    cases: [
      {
        current: ["DC"],
        use: "panel",
        size: gauge("18"),
        says: "inside a panel board",
        source: e11("11.14.1.2, exceptions", "read"),
      },
      {
        current: ["DC"],
        use: "pigtail",
        shorterThan: inches(7),
        size: gauge("18"),
        says: "tails of less than 7 in",
        source: e11("11.14.1.2, exceptions", "read"),
      },
      {
        current: ["DC"],
        use: "small electronics",
        size: gauge("18"),
        says: "electronics of less than 1 A",
        source: e11("11.14.1.2, exceptions", "read"),
      },
      {
        current: ["AC"],
        use: "panel",
        size: gauge("16"),
        says: "inside a panel board",
        source: e11("alternating-current conductors", "memory"),
      },
      {
        current: ["AC"],
        use: "sheath",
        size: gauge("14"),
        says: "alternating current",
        source: e11("alternating-current conductors", "memory"),
      },
      {
        current: ["AC"],
        use: "alone",
        size: gauge("14"),
        says: "alternating current",
        source: e11("alternating-current conductors", "memory"),
      },
      {
        current: ["DC"],
        use: "sheath",
        size: gauge("18"),
        tail: inches(30),
        says: "in a sheath with others, at most 30 in out of it",
        source: law("183.425(f)"),
      },
      {
        current: ["DC"],
        use: "alone",
        size: gauge("16"),
        says: "a conductor by itself",
        source: law("183.425(d)"),
      },
    ],
  },
  conductor: {
    metals: { value: ["copper"], source: law("183.425(a)") },
    solidAllowed: { value: false, source: law("183.425(a)") },
    flexing: {
      value: ["type 3", "class 5", "class 6", "class K", "class M"],
      source: e11("conductor circular mils and stranding, Type 3", "article"),
    },
    leastInsulationC: { value: celsius(60), source: law("183.425 Table 5") },
    engineInsulationC: { value: celsius(75), source: e11("conductors in engine spaces", "article") },
    purchase: [
      {
        value: "oil-resistant insulation in engine spaces",
        source: e11("conductors in engine spaces", "article"),
      },
      {
        value: "in wet places the wet rating counts: boat cable printed 105 °C dry may be 75 °C wet",
        source: cite("ul-1426", "marking BC-5W2", "article"),
      },
    ],
  },
};
