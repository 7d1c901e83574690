import type { AcShortage } from "../network/alternating/index.ts";

/** Where everything stands, and what is on: a state of the plan, or a group of positions with its worst loads. */
export interface AlternatingMoment {
  readonly id: string;
  /** By mover. One that is not named stands as `standingIn` finds it. */
  readonly positions: Readonly<Record<string, string>>;
  /** Loads and chargers that are on, by part. */
  readonly on: readonly string[];
}

/** What a load, or the alternating side of a charger, gets. A load on two lines with a neutral is two, one on each. */
export interface AlternatingLoad {
  readonly part: string;
  /** Element of the network: `kitchen`, `kitchen:L2`, `CHG`. */
  readonly id: string;
  /** Its terminals. */
  readonly between: readonly [string, string];
  /** Sources whose lines lead to it; none: it is dead. */
  readonly sources: readonly string[];
  /** Volts between those terminals that it is made for. */
  readonly nominal: number;
  /** Null: see `cannotTell`. */
  readonly volts: number | null;
  /** The same over nominal: 0.95. */
  readonly share: number | null;
  /** Volts lost between the source, without load, and here, out and back; null: cannot be told, dead, or several sources feed it. */
  readonly drop: number | null;
  /** The same over nominal. */
  readonly dropShare: number | null;
  readonly amps: number;
  readonly watts: number;
  /** met · as impedance: it gets less than half of the volts that it is made for, or stands in series with others behind a lost neutral · dead · not borne: the lines cannot carry what it asks for */
  readonly condition: "met" | "as impedance" | "dead" | "not borne";
  /** What is not known on its way, each a sentence: sizes, the supply lead. Volts are told only where this is empty. */
  readonly cannotTell: readonly string[];
  readonly powerFactor: number;
  /** false: nobody states it, and 1 is taken; what it takes may be more where its rating is in watts. */
  readonly powerFactorStated: boolean;
}

/** Current in one conductor. */
export interface AlternatingConductor {
  readonly conductor: string;
  readonly circuit: string;
  readonly fn: "L" | "L1" | "L2" | "L3" | "N" | "PE";
  /** Null: it closes a ring without impedance. */
  readonly amps: number | null;
  /** Of the direction from → to. */
  readonly degrees: number | null;
  /** Volts lost along it; null: its size is not known. */
  readonly drop: number | null;
}

/** What a source gives: an inlet, a generator, an inverter, a transformer. */
export interface AlternatingSource {
  readonly id: string;
  readonly part: string;
  readonly from: "shore" | "generator" | "transformer" | "inverter";
  /** As of `AcSourcePoint`; idle: nothing is taken. */
  readonly condition: "idle" | "gives" | "takes" | "limited by source" | "overloaded";
  readonly watts: number;
  readonly va: number;
  readonly powerFactor: number | null;
  /** What is asked over what it may give for long; null: it states nothing. */
  readonly load: number | null;
  readonly lines: readonly { readonly terminal: string; readonly amps: number; readonly degrees: number }[];
  readonly neutralAmps: number;
  /** Volts at its terminals aboard (behind its supply lead), the lowest of its lines, and over its nominal; null: cannot be told. */
  readonly volts: number | null;
  readonly share: number | null;
  /** Its supply lead; null: it has none, or nothing is stated of one. */
  readonly lead: AlternatingLead | null;
  /** Its two lines swing together or against each other, and nobody says which: against each other is taken. */
  readonly phaseAssumed: boolean;
}

export interface AlternatingLead {
  readonly metres: number | null;
  /** Of its label. */
  readonly label: string | null;
  /** Layers that lie on the drum; null: not stated. */
  readonly layers: number | null;
  /** Lost in it, line and return of the line that loses most; null: its length or size is not known. */
  readonly drop: number | null;
  readonly watts: number | null;
}

/** Current through a place where neutral meets earth. */
export interface AlternatingJoin {
  readonly id: string;
  readonly part: string;
  readonly where: "aboard" | "with the source";
  readonly amps: number | null;
  /** Nobody says when it is closed; it is taken as open. */
  readonly unclear: boolean;
}

export interface AlternatingState {
  readonly id: string;
  /** Where each mover stood, those that move by themselves too. */
  readonly positions: Readonly<Record<string, string>>;
  readonly converged: boolean;
  readonly shortage: AcShortage | null;
  readonly loads: readonly AlternatingLoad[];
  readonly conductors: readonly AlternatingConductor[];
  readonly sources: readonly AlternatingSource[];
  readonly joins: readonly AlternatingJoin[];
  readonly lossWatts: number;
}

/** The alternating side of a build. Plain data. */
export interface AlternatingStudy {
  /** In the order of the plan; empty where nothing alternates. */
  readonly states: readonly AlternatingState[];
  /** Circuits whose volts cannot be told, and why. */
  readonly untold: readonly { readonly circuit: string; readonly why: string }[];
  readonly hertz: number;
  readonly hertzStated: boolean;
}
