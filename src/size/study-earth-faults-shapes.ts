import type { Citation, Trust } from "../explain/index.ts";
import type { Disconnection, DisconnectionOutcome } from "../protect/earth-fault/judge-disconnection.ts";
import type { LeakageSum } from "../protect/earth-fault/leakage.ts";
import type { Impedance, ImpedanceRange } from "../protect/earth-fault/impedance.ts";
import type { LaidConductor } from "./study-earth-faults-metal.ts";
import type { AlternatingDevice } from "./study-earth-faults-devices.ts";

/** A source of alternating current, for print. */
export interface EarthFaultSource {
  readonly id: string;
  readonly part: string;
  readonly from: "shore" | "generator" | "transformer" | "inverter";
  readonly volts: number;
  /** TN: metal leads back · TT: the soil does · none: neutral is joined to nothing · unknown: nobody says */
  readonly earthing: "TN" | "TT" | "none" | "unknown";
  /** What it gives into a fault, where it limits that itself; null: it is stiff. */
  readonly limit: {
    readonly low: number;
    readonly high: number | null;
    readonly seconds: number | null;
    readonly trust: Trust;
  } | null;
  /** Whether its maker or site says what it drives into a fault. */
  readonly isDeclared: boolean;
}

/** A conductor of a loop. */
export interface LoopPiece {
  readonly is: "line" | "protective" | "neutral";
  readonly circuit: string;
  readonly conductor: string;
  readonly range: ImpedanceRange;
  /** Null: its size or its length is not known. */
  readonly laid: LaidConductor | null;
}

/** An earth fault at the far end of a circuit while one source feeds it. */
export interface EarthFault {
  /** Place in `sources`. */
  readonly source: number;
  /** Terminal of the line that the fault is at. */
  readonly at: string;
  /**
   * closed: a current flows · no join: neutral is not joined to earth, a first fault drives nothing · no protective conductor: the case is joined to nothing ·
   * unknown: nobody says whether there is a join
   */
  readonly loop: "closed" | "no join" | "no protective conductor" | "unknown";
  /** Where neutral meets earth: the source itself, or the id of a join; null: nowhere. */
  readonly join: string | null;
  /** Line to earth, V. */
  readonly volts: number;
  /** Of the source itself at its greatest; null: nobody says it. */
  readonly inside: Impedance | null;
  /** Its conductors, from the source to the fault and back; empty where no current flows. */
  readonly pieces: readonly LoopPiece[];
  /** Share of the volts that the least current is reckoned with. */
  readonly voltsShare: number;
  /** Ω; null: not known. */
  readonly zsCold: number | null;
  readonly zsHot: number | null;
  /** Ik− and Ik+, A; null: not known. */
  readonly least: number | null;
  readonly greatest: number | null;
  readonly limitedBy: "inverter" | "generator" | null;
  /** Volts of the case while it lasts, at most; null: not known. */
  readonly touchVolts: number | null;
  /** Volts that a limited source keeps up through the loop, at most: to 50 V it is as good as off (IEC 60364-4-41 411.3.2.5); null: a stiff source, or not known. */
  readonly sourceVolts: number | null;
  /** Greatest time that is allowed; null: none is asked. */
  readonly limit: {
    readonly seconds: number;
    readonly binds: boolean;
    readonly trust: Trust;
    readonly source: Citation;
  } | null;
  readonly outcome: DisconnectionOutcome;
  readonly disconnection: Disconnection | null;
  /** What opens first for sure: its place in `devices` or `residual` of the study, by `disconnection.by`; null: nothing is sure to. */
  readonly opener: number | null;
  /** Whether what opens on leakage is quick enough by itself, whatever the fuses and breakers do. */
  readonly isResidualInTime: boolean;
  /** On its way, from the source on: places in `devices` and `residual`. */
  readonly devices: readonly number[];
  readonly residual: readonly number[];
  /** Greatest loop impedance that would still do, Ω; null: no such current is published. */
  readonly greatestLoop: number | null;
  /** Facts that are not told: circuits without a size or a length, the source. */
  readonly untold: readonly string[];
  /** Where nobody says whether there is a join: what the fault would be with one. Without one a first fault drives nothing. */
  readonly ifJoined?: EarthFault;
  /** Where the source has several ways to the circuit: what movers stand at for this one, the gravest. */
  readonly stands?: Readonly<Record<string, readonly string[]>>;
  /** The same fault by its other ways. */
  readonly otherWays?: readonly EarthFault[];
}

/** The protective conductor of a circuit beside what is asked of it. */
export interface ProtectiveJudged {
  readonly liveMm2: number | null;
  readonly areaMm2: number | null;
  readonly label: string | null;
  /** Whether its size is told, not taken as usual for the cable. */
  readonly isTold: boolean;
  /** What the set's table asks, and why. */
  readonly byTable: {
    readonly areaMm2: number;
    readonly says: string;
    readonly trust: Trust;
    readonly source: Citation;
  } | null;
  /** What the heat of the worst fault asks, where the set takes that instead and its table is not met. */
  readonly byHeat: {
    readonly areaMm2: number;
    readonly says: string;
    readonly trust: Trust;
    readonly source: Citation;
  } | null;
  /** not asked: no rule set, or no protective conductor is there to judge */
  readonly outcome: "enough" | "too thin" | "not asked" | "cannot tell";
  readonly missing: "size" | "device" | "fault" | null;
}

/** A circuit of alternating current. */
export interface CircuitEarthFaults {
  readonly circuit: string;
  /** One for each source that feeds it. */
  readonly faults: readonly EarthFault[];
  readonly protective: ProtectiveJudged;
  /** One for each source and way that feeds it. */
  readonly shorts: readonly CircuitShort[];
}

/** A short from line to neutral in a circuit while one source feeds it by one way. */
export interface CircuitShort {
  /** Place in `sources`. */
  readonly source: number;
  /** Where it begins, A, at most; null: nothing that is told holds it back. */
  readonly most: number | null;
  /** Whether the source says what it drives; else only metal bounds `most`. */
  readonly isMostTold: boolean;
  /** At its far end, A, at least; 0: not known. */
  readonly least: number;
  /** What opens on its way, from the source on: places in `devices`. */
  readonly devices: readonly number[];
}

/** What a device of alternating current has to break. */
export interface AlternatingBreaking {
  /** Place in `devices`. */
  readonly device: number;
  /** Greatest prospective current where it stands, of all sources one at a time, or of those that say it where that is too much already; null: a source does not say. */
  readonly prospective: number | null;
  readonly source: number | null;
  /** Places of all sources that reach it. */
  readonly reachedBy: readonly number[];
  /** What each of them drives into a short there. */
  readonly each: readonly {
    readonly source: number;
    /** Null: nothing that is told holds it back. */
    readonly amps: number | null;
    /** Whether the source says what it drives; else only metal bounds `amps`. */
    readonly isTold: boolean;
    /** Of the source itself, at its least, and of the metal to the device and home, Ω. */
    readonly inside: Impedance;
    readonly loop: Impedance;
  }[];
  readonly breaks: number | null;
  readonly outcome: "bears it" | "too weak" | "cannot tell";
}

/** A residual guard that opens contacts. */
export interface ResidualStudied {
  readonly id: string;
  readonly part: string;
  /** A; null: not known. */
  readonly amps: number | null;
  /** Next guard towards the source, where there is one, and whether this one opens alone. */
  readonly chain: readonly {
    readonly upstream: number;
    readonly isSelective: boolean | null;
    readonly because: string;
  }[];
  /** Usual leakage behind it; null: its rating is not known. */
  readonly leakage: LeakageSum | null;
}

/** Every earth fault of the alternating-current side. Plain data. */
export interface EarthFaultStudy {
  readonly sources: readonly EarthFaultSource[];
  readonly devices: readonly AlternatingDevice[];
  readonly residual: readonly ResidualStudied[];
  readonly circuits: readonly CircuitEarthFaults[];
  readonly breaking: readonly AlternatingBreaking[];
}
