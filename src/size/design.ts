import type { Trust } from "../explain/index.ts";
import type { Assumption, MissingFact, Value } from "../system/index.ts";

/** The constraints on a conductor, in the order that decides between equals. */
export const constraintIds = [
  "ampacity",
  "drop",
  "start",
  "least-volts",
  "device",
  "mechanical",
  "bond",
  "withstand",
  "terminal",
  "earth-loop",
  "stock",
] as const;

export type ConstraintId = (typeof constraintIds)[number];

/** A size as it is printed and compared. */
export interface SizeOnPaper {
  readonly label: string;
  readonly areaMm2: number;
}

/** One thing that a conductor had to meet. */
export interface Constraint {
  readonly id: ConstraintId;
  /** not stated: the maker or the plan asks for nothing · not judged yet: no study of it */
  readonly outcome: "met" | "not met" | "not stated" | "not judged yet" | "cannot tell";
  /** The least size on sale that this alone asks for, every other circuit as it is; null: nothing on sale is enough, or nothing is asked. */
  readonly alone: SizeOnPaper | null;
  /** Where what is asked comes from: a document and its clause, the plan itself, practice. Empty where nothing is judged. */
  readonly source: string;
  /** How far that source can be leaned on; null where the plan itself asks. */
  readonly trust: Trust | null;
}

/** A protective device in a circuit. */
export interface DeviceDesign {
  readonly end: "from" | "to";
  /** `BP`, or `PNL:3` for a way. */
  readonly at: string;
  /** given: the plan says so, it is judged */
  readonly by: "proposed" | "given";
  readonly kind: "fuse" | "breaker";
  /** Null: not known, or nothing on sale is enough. */
  readonly ratingA: number | null;
  readonly family: string | null;
  readonly familyName: string | null;
  /** What the load asks for at least, and the rule set allows at most; null where that cannot be told. */
  readonly leastA: number;
  readonly mostA: number | null;
  /** From its end of the conductor. */
  readonly distanceM: number;
}

/** An end of a live conductor that has no device, and why. */
export interface BareEnd {
  readonly end: "from" | "to";
  readonly why: string;
}

/** What a load at the end of a circuit gets at its worst. */
export interface LoadDesign {
  readonly part: string;
  /** Volts lost between the source and the load, out and back, at the worst; as a share of nominal volts, 0 … 1; and when. */
  readonly dropV: number;
  readonly dropShare: number;
  readonly dropIn: string;
  /** Null: none is asked. */
  readonly dropLimitShare: number | null;
  /** Why that limit holds: the property of the load that asks for it. */
  readonly dropClass: string;
  /** Least volts while it runs, when, and what it needs; null: its maker states nothing. */
  readonly leastVolts: number;
  readonly leastVoltsIn: string;
  readonly runsAbove: number | null;
  /** The same while it starts; null: it does not start, or nothing is stated. */
  readonly startVolts: number | null;
  readonly startsAbove: number | null;
}

/** Insulation colour of a core, in the letters of IEC 60757. */
export interface ColourOnPaper {
  /** `+`, `−`, `L`, `N`, `PE`; empty for a conductor between two points of one pole. */
  readonly core: string;
  /** `RD`, `YE/RD` with a tracer, `GNYE`. */
  readonly letters: string;
  /** proposed: by the colour scheme of the rule set, where the plan says none */
  readonly by: "plan" | "proposed";
}

/** The cable of a circuit as a schedule prints it. */
export interface CableOnPaper {
  /** Its name in the plan; null: it is the circuit's own. */
  readonly name: string | null;
  /** The label as the plan gives it; null: nobody says it. */
  readonly label: string | null;
  /** Cores by function, with their size: `L N PE 3 × 2.5 mm², earth counted`; null: not known. */
  readonly makeUp: string | null;
}

/** The wire that was bought beside the size that is drawn. */
export interface BoughtOnPaper {
  /** As the plan gives it. */
  readonly label: string;
  /** What the label says, in words; null: it says nothing, or several things. */
  readonly says: string | null;
  /** Of each conductor; null: the label does not tell it. */
  readonly size: SizeOnPaper | null;
  /** What has to be asked or looked at before the label can be read; null: nothing. */
  readonly question: string | null;
  /** What follows from a size other than the drawn one, each a sentence: lug, gland, device. */
  readonly follows: readonly string[];
}

/** One circuit of the schedule. Amps, volts, metres, mm², °C. */
export interface CircuitDesign {
  readonly id: string;
  readonly current: "DC" | "AC";
  /** System of the plan that feeds it. */
  readonly supply: string | null;
  /** Its ends as the plan writes them. */
  readonly from: string;
  readonly to: string;
  /** Designations of its conductors. */
  readonly conductors: readonly string[];
  /** One way. */
  readonly lengthM: Value;
  /** chosen: by the search · pinned: the plan's own size, judged · found: stands in an existing build, judged · cannot tell: a fact is missing */
  readonly outcome: "chosen" | "pinned" | "found" | "cannot tell";
  /** What is missing, when it cannot be told. */
  readonly cannotTell: readonly string[];
  /** Of each of its conductors; null: not known. */
  readonly size: SizeOnPaper | null;
  /** Nothing on sale meets what is asked: the size is the largest there is. */
  readonly nothingIsEnough: boolean;
  /** Null: the plan does not say what was bought. */
  readonly bought: BoughtOnPaper | null;
  /** Null: the plan names no cable. */
  readonly cable: CableOnPaper | null;
  /** In the order of its cores; those that nobody gives and no scheme proposes are left out. */
  readonly colours: readonly ColourOnPaper[];
  /** What the conductors are, but for their size; insulation by the temperature it bears, °C. */
  readonly make: {
    readonly metal: string;
    readonly strands: string;
    readonly insulationC: number;
    readonly parallel: number;
  };
  /** Design current: the greatest that flows for long, and when. */
  readonly steadyA: number | null;
  readonly steadyIn: string | null;
  /** The greatest current while something starts; null: nothing behind it starts. */
  readonly startA: number | null;
  /** What the size carries in its surroundings, with all corrections. */
  readonly ampacityA: number | null;
  readonly ampacityTrust: Trust | null;
  /** Zone of the stretch that decides the ampacity. */
  readonly ampacityZone: string | null;
  /** Temperature of the metal in its hottest stretch at its design current. */
  readonly conductorC: number | null;
  readonly devices: readonly DeviceDesign[];
  readonly bareEnds: readonly BareEnd[];
  readonly loads: readonly LoadDesign[];
  /** Loads that ask for more than can be brought to them, running or starting, and why; no volts are told where that is so. */
  readonly notBorne: readonly string[];
  /** Drop of the worst load, or of the circuit itself where it charges. */
  readonly dropV: number | null;
  /** The same as a share of nominal volts, out and back, 0 … 1; and what is allowed. */
  readonly dropShare: number | null;
  readonly dropLimitShare: number | null;
  /** Case of the greatest drop. */
  readonly dropIn: string | null;
  /** Least volts at its loads while they run, and while one of them starts. */
  readonly leastVolts: number | null;
  readonly startVolts: number | null;
  readonly constraints: readonly Constraint[];
  /** The constraint that asks for the largest size; null where no size was chosen. */
  readonly decidedBy: ConstraintId | null;
}

/** A load in a state. */
export interface LoadInState {
  readonly part: string;
  readonly circuit: string | null;
  readonly volts: number | null;
  readonly amps: number;
  readonly condition: string;
}

/** A source or store in a state; amps are positive when it pushes. */
export interface SourceInState {
  readonly part: string;
  readonly volts: number | null;
  readonly amps: number;
  readonly condition: string;
}

export interface CollapseInState {
  readonly load: string;
  /** The element that loses most on the way, or has come to its limit. */
  readonly cause: string;
  /** The circuit that it belongs to. */
  readonly circuit: string | null;
  readonly says: string;
}

/** What a state of the plan comes to. */
export interface StateDesign {
  readonly id: string;
  readonly loads: readonly LoadInState[];
  readonly sources: readonly SourceInState[];
  readonly circuits: readonly { readonly id: string; readonly amps: number }[];
  /** Loads that are on and that no source reaches. */
  readonly dead: readonly string[];
  readonly collapses: readonly CollapseInState[];
  readonly converged: boolean;
}

/** The computed build. Plain data. */
export interface Design {
  readonly name: string;
  readonly circuits: readonly CircuitDesign[];
  readonly states: readonly StateDesign[];
  readonly assumptions: readonly Assumption[];
  readonly missing: readonly MissingFact[];
  /** Σ copper area × length of all conductors that were chosen or pinned, mm²·m. */
  readonly copperMm2M: number;
  readonly settled: boolean;
  readonly rounds: number;
  /** Circuits that did not come to rest. */
  readonly unsettled: readonly string[];
  /** What the choice of sizes aimed at; least cost only where every size on the shelf has a price. */
  readonly aim: "least copper" | "fewest sizes" | "least cost";
  /** What the conductors cost whose sizes were chosen, in the currency of the price list; null: the aim was another one. */
  readonly price: number | null;
  /** Whether the search for the best by that aim went through every choice. */
  readonly leastCopperProved: boolean;
}
