import { cite, type Citation, type Trust } from "../explain/index.ts";
import { awgSize, metricSize, type WireSize } from "../wire/index.ts";
import type { RuleSet } from "./rule-set.ts";

/**
 * What decides how thick a protective conductor is.
 *
 * live size: the live conductors beside it, or what flows in a fault · device: the rating of the device ahead, grown with the live conductors ·
 * as live: as thick as the live conductors to 30 A, one size less above
 */
export type ProtectiveSizing = "live size" | "device" | "as live";

/** What a set asks of devices that open on leakage. */
export interface ResidualDemand {
  /**
   * supply: everything behind the inlet · sockets: outlets to 32 A · final circuits: all of them to 32 A · places: outlets in wet places, as the set lists
   * them
   */
  readonly of: "supply" | "sockets" | "final circuits" | "places";
  readonly mostAmps: number;
  /** Null: as the product standard has it. */
  readonly mostSeconds: number | null;
  /** Whether it has to open neutral too. */
  readonly allLive: boolean;
  /** Instead of it, in words; null: nothing. */
  readonly instead: string | null;
  readonly source: Citation;
}

/** What a rule set says of earth faults. Plain data. */
export interface EarthingRules {
  readonly protective: {
    readonly by: ProtectiveSizing;
    readonly source: Citation;
    /** Least of a conductor that lies apart from its circuit, mm²; null: the set names none. */
    readonly apart: { readonly guardedMm2: number; readonly bareMm2: number; readonly source: Citation } | null;
  };
  /** Least bonding conductor between the metal of the craft, vehicle or building and its earth bar; null: the set names none. */
  readonly bonding: { readonly size: WireSize; readonly says: string; readonly source: Citation } | null;
  readonly disconnection: {
    /** Whether the set itself asks for the times; else they are what the trade holds to. */
    readonly binds: boolean;
    /** Share of the volts that a fault may be reckoned with. */
    readonly leastVoltsShare: number;
    readonly source: Citation;
  };
  /** Empty: the set asks for none. */
  readonly residual: readonly ResidualDemand[];
}

const installation = (part: "iec-60364-4-41" | "iec-60364-5-54", clause: string, trust: Trust) =>
  cite(part, clause, trust);
const code = (clause: string, trust: Trust) => cite("nfpa-70-2023", clause, trust);
const practice = (clause: string) => cite("trade-practice", clause, "practice");

const iecProtective: EarthingRules["protective"] = {
  by: "live size",
  source: installation("iec-60364-5-54", "Table 54.2", "read"),
  apart: { guardedMm2: 2.5, bareMm2: 4, source: installation("iec-60364-5-54", "543.1.3", "memory") },
};
const necProtective: EarthingRules["protective"] = {
  by: "device",
  source: code("250.122", "read"),
  apart: null,
};
const byTable: EarthingRules["disconnection"] = {
  binds: true,
  leastVoltsShare: 0.95,
  source: installation("iec-60364-4-41", "Table 41.1", "read"),
};
const byHabit: EarthingRules["disconnection"] = { ...byTable, binds: false };

/** 30 mA that opens neutral too. */
const thirty = (of: ResidualDemand["of"], source: Citation, more: Partial<ResidualDemand> = {}): ResidualDemand => ({
  of,
  mostAmps: 0.03,
  mostSeconds: null,
  allLive: true,
  instead: null,
  source,
  ...more,
});
/** 5 mA at outlets where people are wet. */
const classA = (source: Citation): ResidualDemand => ({
  of: "places",
  mostAmps: 0.006,
  mostSeconds: null,
  allLive: false,
  instead: null,
  source,
});

const metric = (areaMm2: number): WireSize => metricSize(areaMm2);
const gauge = (name: string): WireSize => {
  const size = awgSize(name);
  if (size === null) throw new Error(`no size is called ${name} AWG`);
  return size;
};

const bySet: Readonly<Record<string, EarthingRules>> = {
  "us-small-craft": {
    protective: {
      by: "as live",
      source: cite("abyc-e-11", "earth conductor beside its supply", "memory"),
      apart: null,
    },
    bonding: {
      size: gauge("8"),
      says: "between the metal of the boat and its earth bar",
      source: cite("abyc-e-11", "11.18, bonding conductors", "memory"),
    },
    disconnection: byHabit,
    residual: [
      thirty("supply", cite("abyc-e-11", "11.11.1", "read"), {
        mostSeconds: 0.1,
        instead: "an isolation transformer within 3 m (10 ft) of the inlet",
      }),
      classA(cite("abyc-e-11", "11.13.3.5", "read")),
    ],
  },
  "iso-small-craft": {
    protective: {
      ...iecProtective,
      source: cite("iso-13297-2020", "protective conductor beside its supply", "memory"),
    },
    bonding: null,
    disconnection: byHabit,
    residual: [thirty("supply", cite("iso-13297-2020", "residual-current devices", "memory"))],
  },
  "us-cabin": {
    protective: necProtective,
    bonding: null,
    disconnection: byHabit,
    residual: [classA(code("210.8(A)", "article"))],
  },
  "us-rv": {
    protective: necProtective,
    bonding: { size: gauge("8"), says: "between chassis and earth bar", source: code("551.56(C)", "article") },
    disconnection: byHabit,
    residual: [classA(code("551.40(C)", "article"))],
  },
  "iec-cabin": {
    protective: iecProtective,
    bonding: {
      size: metric(6),
      says: "of the main bonding, which is half of the conductor to earth and at least this",
      source: installation("iec-60364-5-54", "544.1", "memory"),
    },
    disconnection: byTable,
    residual: [thirty("sockets", installation("iec-60364-4-41", "411.3.3", "article"), { allLive: false })],
  },
  "iec-caravan": {
    protective: iecProtective,
    bonding: {
      size: metric(4),
      says: "between the metal of the frame and the earth bar",
      source: cite("iec-60364-7-721", "721.411.3.1.2", "memory"),
    },
    disconnection: byTable,
    residual: [thirty("supply", cite("iec-60364-7-721", "721.415.1", "article"))],
  },
  "au-nz-vehicle": {
    protective: iecProtective,
    bonding: {
      size: metric(4),
      says: "between chassis and earth bar",
      source: cite("as-nzs-3001-2-2022", "bonding of the chassis", "memory"),
    },
    disconnection: byTable,
    residual: [thirty("final circuits", cite("as-nzs-3001-2-2022", "residual-current devices", "memory"))],
  },
  "vehicle-practice": {
    protective: { ...iecProtective, source: practice("protective conductor as thick as the live ones") },
    bonding: { size: metric(4), says: "between chassis and earth bar", source: practice("bonding of the chassis") },
    disconnection: byHabit,
    residual: [thirty("supply", practice("30 mA behind every inlet and inverter"))],
  },
};

/**
 * What a rule set says of protective conductors, of how soon an earth fault has to be cut off, and of devices that open on leakage.
 *
 * It stands apart from the sets themselves, for only studies of alternating current read it. The lists of wet places are those of the rules.
 *
 * @returns null for a set that is not known here
 * @example
 * earthingRules({ id: "us-rv" })?.protective.by //=> "device"
 * earthingRules({ id: "iec-cabin" })?.residual[0]?.mostAmps //=> 0.03
 */
export const earthingRules = ({ id }: Pick<RuleSet, "id">): EarthingRules | null =>
  Object.hasOwn(bySet, id) ? (bySet[id] ?? null) : null;
