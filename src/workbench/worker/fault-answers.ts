/** What the page is told of faults: names in words, figures as numbers. */
import type { ShownDrawing } from "../../act/wire-card/index.ts";
import type { Outcome, Range } from "../../fault/index.ts";
import type { PairJudgement } from "../../protect/selectivity/index.ts";
import type { CircuitHeat } from "../../size/study-heat.ts";
import type { InterruptRating } from "../../device/index.ts";
import type { KeyPath } from "../asked.ts";

/** Prospective current of a short at a terminal, in every state of the plan. */
export interface Prospective {
  /** `PNL:3:+`. */
  readonly terminal: string;
  readonly against: string;
  /** Over every position of the switches. */
  readonly greatest: number;
  /** Null: no battery reaches it. */
  readonly least: number | null;
  readonly states: readonly { readonly state: string; readonly greatest: number; readonly least: number | null }[];
}

/** A device and what it is: `10 A blade fuse`. */
export interface NamedDevice {
  readonly name: string;
  readonly about: KeyPath;
  readonly what: string;
}

/** Seconds until no battery feeds a fault any more; the greatest is null where one may go on. */
export interface Clearing {
  readonly low: number;
  readonly high: number | null;
}

export interface FaultCircuitRow {
  readonly circuit: string;
  readonly from: string;
  readonly to: string;
  /** At the two ends of its live conductor; null: no pole against it. */
  readonly start: Prospective | null;
  readonly end: Prospective | null;
  /** The gravest way in which any fault of it ends, greatest or least current. */
  readonly outcome: Outcome;
  readonly seconds: Clearing;
  /** Devices that can open for the least fault, first to last. */
  readonly opens: readonly string[];
  /** Loads that any fault of it leaves dark. */
  readonly dark: readonly string[];
}

export interface FaultDeviceRow extends NamedDevice {
  readonly circuit: string | null;
  /** Terminals from which fault current comes, with the greatest from each. */
  readonly sides: readonly { readonly from: string; readonly amps: number }[];
  readonly through: Range | null;
  /** Fault that sends it: `W13+ at from`. */
  readonly at: string | null;
  /** At its line side, all sources together. */
  readonly prospective: number;
  readonly breaks: Pick<InterruptRating, "state" | "current" | "upToVolts" | "trust"> | null;
  /** Gravest end of the faults that it is the nearest to; null: it is the nearest to none. */
  readonly outcome: Outcome | null;
}

export interface PairRow extends Pick<PairJudgement, "verdict" | "upTo" | "because" | "missing" | "trust"> {
  readonly upstream: NamedDevice;
  readonly downstream: NamedDevice;
  readonly isNext: boolean;
  readonly greatest: number;
  readonly at: string;
  /** Share of the fault that the upstream device carries. */
  readonly upstreamShare: number;
  readonly sources: readonly string[];
  readonly lostToo: readonly string[];
}

export interface FeederRow extends NamedDevice {
  readonly rating: number;
  readonly demand: number | null;
  readonly branchRatings: number;
  readonly branches: readonly string[];
}

/** A conductor, for the schedules. */
export interface ConductorRow {
  readonly conductor: string;
  readonly circuit: string;
  readonly greatest: Range | null;
  readonly least: Range | null;
  readonly outcome: Outcome;
  readonly seconds: Clearing;
  /** I²t let through over k²S²; null: no fault that is cleared within 5 s. */
  readonly share: number | null;
}

/** Heat of a circuit's metal, for the schedules. */
export type HeatRow = Pick<CircuitHeat, "id" | "worst" | "atDesign" | "ratingC">;

/** Faults of a whole build. */
export interface FaultsAnswer {
  readonly circuits: readonly FaultCircuitRow[];
  readonly devices: readonly FaultDeviceRow[];
  readonly pairs: readonly PairRow[];
  readonly feeders: readonly FeederRow[];
  readonly terminals: readonly Prospective[];
  readonly conductors: readonly ConductorRow[];
  readonly heat: readonly HeatRow[];
  readonly banks: readonly { readonly units: readonly string[]; readonly drawing: ShownDrawing }[];
  readonly notStudied: readonly string[];
}

/** A device as one fault goes through it. */
export interface Sight extends NamedDevice {
  readonly from: string;
  readonly amps: number;
  /** It stays closed until then, s; null: for good. */
  readonly least: number | null;
  /** It has opened by then, s; null: nobody can say that it does. */
  readonly most: number | null;
  readonly why: "opens" | "within its rating" | "may stay closed" | "not published";
  /** Place in the order of opening, from 1; null: it is not among those that open. */
  readonly order: number | null;
}

/** One fault: its current, who sees it, how it ends. */
export interface FaultCase {
  readonly amps: Range;
  /** Parts that feed it at least; empty: all. */
  readonly sources: readonly string[];
  readonly state: string | null;
  readonly sees: readonly Sight[];
  readonly outcome: Outcome;
  readonly seconds: Clearing;
  /** What goes on feeding it. */
  readonly left: readonly { readonly part: string; readonly amps: number }[];
  /** A management in the source may open before any device. */
  readonly mayOpenItself: boolean;
}

/** A short at an end of a conductor. */
export interface FaultPlace {
  readonly conductor: string;
  readonly end: "from" | "to";
  readonly terminal: string;
  readonly to: "return" | "structure";
  readonly greatest: FaultCase | null;
  readonly least: FaultCase | null;
  readonly cannotTell: string | null;
  /** Loads without supply once the nearest device has opened. */
  readonly dark: readonly string[];
  /** Devices that may open with it, and what goes dark besides. */
  readonly mayOpen: readonly string[];
  readonly mayBeDark: readonly string[];
}

/** Faults of one circuit. */
export interface CircuitFaultsAnswer {
  readonly circuit: string;
  readonly places: readonly FaultPlace[];
  /** When its chain of devices opens; null: no fault current of a battery can be told. */
  readonly curves: ShownDrawing | null;
  /** Pairs of its chain. */
  readonly pairs: readonly PairRow[];
  readonly heat: CircuitHeat | null;
}

/** Questions of faults. */
export type FaultAsked =
  | { readonly of: string; readonly ask: "faults"; readonly operatingState: string | null }
  | { readonly of: string; readonly ask: "circuit-faults"; readonly circuit: string }
  /** Its curves on a sheet of paper. */
  | { readonly of: string; readonly ask: "curves-sheet"; readonly circuit: string };

export interface FaultAnswerOf {
  readonly faults: FaultsAnswer;
  readonly "circuit-faults": CircuitFaultsAnswer | null;
  readonly "curves-sheet": ShownDrawing | null;
}
