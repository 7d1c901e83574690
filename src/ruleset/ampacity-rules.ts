import { cite, type Citation, type LookedUp, type Table } from "../explain/index.ts";
import type { Celsius, Metres } from "../quantity/index.ts";
import type { WireSize } from "../wire/index.ts";
import { neededCell, type AmpacityTable } from "./ampacity-table.ts";
import type { AmbientTable } from "./ambient-table.ts";
import type { InstallMethod } from "./install-method.ts";

/** A step of the bundle factors. */
export interface BundleStep {
  /** Current-carrying conductors, or circuits, that lie together, both ends included; null has no end. */
  readonly from: number;
  readonly to: number | null;
  readonly factor: LookedUp;
}

/** What a reader of a bundle factor has to know. */
export interface BundleNote {
  readonly from: number;
  readonly to: number | null;
  readonly says: string;
}

/** A way of laying that a rule set has tables for. */
export interface AmpacityWay {
  /** What a plan may call it. */
  readonly methods: readonly InstallMethod[];
  /** Only for cores in one sheath, or only for single cores; null does not ask. */
  readonly sheathed: boolean | null;
  readonly says: string;
  /** By metal and number of loaded conductors, the fewest first. */
  readonly tables: readonly AmpacityTable[];
  /** Bundle steps of its own, in place of the set's. */
  readonly bundle?: readonly BundleStep[];
  /** Its values hold for thermal insulation around, which then takes nothing more. */
  readonly inInsulation?: true;
}

/** How a conductor lies where the plan does not say it. */
export interface UsualMethod {
  readonly method: InstallMethod;
  readonly source: Citation;
}

/** What the terminals allow: the value of a cooler column, whatever the insulation could bear. */
export interface TerminalRules {
  /** By metal, the tables whose columns limit a conductor; empty: the conductor's own table does. */
  readonly tables: readonly AmpacityTable[];
  /** Temperature of terminals of which the plan says nothing, by size: the first that is not smaller. Empty: they do not limit. */
  readonly assumed: readonly { readonly upTo: WireSize | null; readonly terminalsC: Celsius }[];
  readonly source: Citation;
}

/** What thermal insulation around a cable leaves, by the length that lies in it. */
export interface InsulatedStep {
  /** m; null has no end. */
  readonly upTo: Metres | null;
  readonly factor: LookedUp;
}

/** How a rule set rates conductors. */
export interface AmpacityRules {
  /** The one table, or that of the usual way of laying. */
  readonly table: AmpacityTable;
  /** Ways of laying that have tables of their own; none: the one table holds for all. The first that fits counts. */
  readonly ways: readonly AmpacityWay[];
  /** Null where the set does not ask how a conductor lies. */
  readonly usual: UsualMethod | null;
  /** Ways of laying that it has no table for, and what is missing. */
  readonly untold: readonly { readonly method: InstallMethod; readonly says: string }[];
  /** Temperature of the air that the tables hold for. */
  readonly baseAmbientC: Celsius;
  /** Air that is counted as at least this hot, where the set's own tables hold for such air and others stand in; absent: none. */
  readonly leastAirC?: Celsius;
  /** By how much the air is hotter for what lies in the sun close above a roof; null: the set says no figure. */
  readonly roof: { readonly addK: number; readonly source: Citation } | null;
  /** Factors for hotter air; null: the square-root form. */
  readonly ambient: AmbientTable | null;
  /** Temperature of the air in an engine space for which no plan states one. */
  readonly engineAmbientC: Celsius;
  readonly engineAmbientSource: Citation;
  /** Why insulation without an engine factor is refused in engine spaces; null: an engine space is hot air and nothing more. */
  readonly engineRefusal: string | null;
  readonly engineRefusalSource: Citation;
  /** What is counted in a bundle: conductors that carry current, or whole circuits. */
  readonly counts: "conductors" | "circuits";
  readonly bundle: readonly BundleStep[];
  readonly bundleNotes: readonly BundleNote[];
  /** Conductors that lie together for no more than this are not counted with each other; null: however short. */
  readonly together: { readonly upTo: Metres; readonly source: Citation } | null;
  /** Stretches that carry less than the rest are passed over where they are no longer than this and than this share of the run together; null: none is. */
  readonly shortStretch: { readonly upTo: Metres; readonly share: number; readonly source: Citation } | null;
  /** Thermal insulation around; empty: the set has no factor for it. */
  readonly insulated: readonly InsulatedStep[];
  readonly terminals: TerminalRules | null;
  /** Continuous current × this may not exceed the ampacity before any correction; null: no such test. */
  readonly continuous: { readonly factor: number; readonly source: Citation } | null;
  /** What a reader has to know of every rating by this set. */
  readonly notes: readonly string[];
}

/** The lowest marked rating on the way counts, in sets that have no rule of their own. */
export const markedTerminals: TerminalRules = {
  tables: [],
  assumed: [],
  source: cite("trade-practice", "lowest marked temperature rating on the way", "practice"),
};

/** What most sets have in common; each names what it has besides. */
export const plainRules = {
  roof: null,
  ways: [],
  usual: null,
  untold: [],
  ambient: null,
  counts: "conductors",
  bundleNotes: [],
  together: null,
  shortStretch: null,
  insulated: [],
  terminals: null,
  continuous: null,
  notes: [],
} as const satisfies Partial<AmpacityRules>;

/** The bundle steps of a published table with the columns that such tables have here. */
export const bundleSteps = (
  table: Table<{ readonly conductorsMin: number; readonly conductorsMax: number | null; readonly factor: number }>,
): readonly BundleStep[] =>
  table.rows.map(({ conductorsMin, conductorsMax }) => ({
    from: conductorsMin,
    to: conductorsMax,
    factor: neededCell(table, conductorsMin, "factor"),
  }));
