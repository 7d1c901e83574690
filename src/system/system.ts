import type { Span } from "../diagnostic.ts";
import type { WrittenCable } from "../plan/index.ts";
import type { InstallMethod } from "../ruleset/index.ts";
import type { WireSize } from "../wire/index.ts";
import type { PrintedColour } from "../wire/make/wire-make.ts";
import type { Assumption, MissingFact } from "./assumption.ts";
import type { InternalElement } from "./element.ts";
import type { Traits } from "./kind.ts";
import type { CurrentKind, Fn } from "./terminal.ts";
import type { Value } from "./value.ts";

/** A supply: what a percentage is taken of, where returns go, which rules apply. */
export interface Supply {
  readonly id: string;
  readonly current: CurrentKind;
  readonly nominal: number;
  /** Greatest charging volts, for device voltage ratings. */
  readonly highestVolts: number;
  readonly cores: readonly Fn[];
  /** Part that a return goes to when a circuit says nothing. */
  readonly returnPart?: string;
  /** Of an alternating supply that says so; `nominal` is then between two lines. */
  readonly phases?: "single" | "split" | "three";
  /** Of an alternating supply that says so, Hz. */
  readonly hertz?: number;
  /** Whether its return is joined to earth, hull or chassis; absent: the plan does not say. */
  readonly earthed?: boolean | "unknown";
  /** As written, e.g. `iso-small-craft 2020+A1:2022`. */
  readonly rules?: string;
}

export type Point3 = readonly [x: number, y: number, z: number];

/** A part as the rest of the house sees it. */
export interface SystemPart {
  readonly id: string;
  /** What people call it, else its designation. */
  readonly name: string;
  /** For print only; nothing decides by it. */
  readonly kind: string;
  readonly traits: Traits;
  readonly current: CurrentKind;
  readonly supply?: string;
  readonly critical: boolean;
  readonly position?: Point3;
  readonly positions: readonly string[];
  /** Rating of a device part, as bought. */
  readonly device?: { readonly rating: Value | "unknown"; readonly family?: string; readonly kind: "fuse" | "breaker" };
  /** What the panel has in its ways. */
  readonly wayDevice?: "fuse" | "breaker";
  /** What each of those can open, as marked; absent: as is usual of its family. */
  readonly wayInterrupt?: Value | "unknown";
  /** What its main device can open, as marked; absent: as is usual of its family. */
  readonly mainInterrupt?: Value | "unknown";
  /** Of an electrode: its resistance to earth. */
  readonly electrodeOhms?: Value | "unknown";
  /** Current that may flow through a bar, panel, switch or device for long; absent: not stated. */
  readonly rated?: Value | "unknown";
  /** Current that may flow through a switch for a short time; absent: not stated. */
  readonly intermittent?: Value | "unknown";
  /** What a supply from outside may give where it enters, or lets through into the lead that plugs into it; absent: not stated. */
  readonly gives?: { readonly value: Value; readonly unit: "A" | "VA" } | "unknown";
  /** Rating of the largest device that a load's maker allows ahead of it; absent: not stated. */
  readonly largestDevice?: Value | "unknown";
  /** Rule set that it follows in place of its system's, as written; absent: its system's. */
  readonly rules?: string;
  /** Whether a load may run for hours; absent: not stated. */
  readonly duty?: "continuous" | "intermittent" | "unknown";
  /** What stands on a switch or a protective device; what is absent is not stated. */
  readonly marks?: PartMarks;
}

/** Marks on a switch or a protective device that decide where it may be used. */
export interface PartMarks {
  /** Currents that it is made for. */
  readonly use?: "DC" | "AC" | "both" | "unknown";
  readonly dcVolts?: Value | "unknown";
  readonly acVolts?: Value | "unknown";
  /** How a breaker is reset. */
  readonly reset?: "manual" | "automatic" | "unknown";
}

export interface PortRef {
  readonly part: string;
  readonly port: string;
}

/** A protective device in the line of a conductor, as the plan gives it. */
export interface GivenDevice {
  readonly kind: "fuse" | "breaker";
  readonly rating: Value | "unknown";
  readonly family?: string;
  readonly poles?: number;
  /** Residual current that it opens at; absent: it watches no leakage, or does not say so. */
  readonly residual?: Value;
  /** Which end of the circuit it is measured from. */
  readonly end: "from" | "to";
  /** Metres along the conductor from that end. */
  readonly distance: Value;
  /** The part that says more of it. */
  readonly part?: string;
  readonly span?: Span;
}

/** A stretch of a circuit's run as the plan says it, before zones are looked up. */
export interface ZoneShare {
  readonly zone: string;
  /** rest: what the others leave; some: the metres are missing. */
  readonly metres: Value | "rest" | "some";
}

export interface Zone {
  readonly id: string;
  readonly engine: boolean;
  readonly kinds: readonly string[];
  /** Air temperature there, °C; absent: the plan's. */
  readonly ambient?: Value;
}

/** One metal path between two terminals. */
export interface Conductor {
  /** `W12+`, `W12−`, `W25L`. */
  readonly id: string;
  readonly circuit: string;
  readonly fn: Fn;
  /** live: may be guarded by a device · return: the grounded or one-pole way back · protective: fault current only */
  readonly role: "live" | "return" | "protective";
  readonly from: string;
  readonly to: string;
  readonly length: Value;
}

/** The cable that the conductors of a circuit lie in. */
export interface PlannedCable {
  /** Its name, where several circuits may share it; null: it is the circuit's own. */
  readonly name: string | null;
  /** What its label says; null: no circuit in it says it, or what is written cannot be read. */
  readonly label: WrittenCable | null;
  /** A label is written, and cannot be read or is `unknown`. */
  readonly isUnclear: boolean;
  /** Why what is written cannot be read; absent: it can be, or nothing is written. */
  readonly unread?: string;
  /** All circuits that lie in it, in the order of the plan. */
  readonly circuits: readonly string[];
}

/** Insulation colour of a core. */
export interface CoreColour {
  readonly fn: Fn;
  readonly colour: PrintedColour;
}

export interface SystemCircuit {
  readonly id: string;
  readonly current: CurrentKind;
  readonly supply?: string;
  /** Rule sets that it follows, as written, where a part on its path has one of its own; null is that of its system. Absent: its system's alone. */
  readonly rules?: readonly (string | null)[];
  readonly from: PortRef;
  readonly to: PortRef;
  /** As the path says them, for print. */
  readonly fromText: string;
  readonly toText: string;
  readonly conductors: readonly Conductor[];
  readonly length: Value;
  readonly zones: readonly ZoneShare[];
  readonly ambient?: Value;
  readonly bundle: number | readonly { readonly zone: string; readonly count: number }[] | "own";
  readonly parallel: number;
  readonly sheathed: boolean | "unknown";
  /** Absent: the plan names no cable. */
  readonly cable?: PlannedCable;
  /** As the plan or a label gives them; a core that is not there has no colour yet. */
  readonly colours: readonly CoreColour[];
  /** What the label of the bought wire says, as it is written; absent: the plan does not say it. */
  readonly boughtAs?: string;
  readonly asFound: boolean;
  /** Main cable of a starter. */
  readonly cranking: boolean;
  /** Pinned or found; absent: to be chosen. */
  readonly size?: WireSize | "unknown";
  /** The others that get one common size with it; absent: it gets its own. */
  readonly sameSizeAs?: readonly string[];
  /** Why the size is unknown, where the label that is written cannot be read. */
  readonly unreadWire?: string;
  readonly metal: "tinned copper" | "copper" | "aluminium";
  readonly strands: string;
  readonly insulationC: Value;
  /** How it is installed; absent: the plan does not say it. */
  readonly method?: InstallMethod | "unknown";
  /** What the terminals at its ends may reach, °C, the lowest of them; absent: the plan does not say it. */
  readonly terminals?: Value;
  /** given: exactly these (perhaps none); propose: the tool does. */
  readonly devices: readonly GivenDevice[] | "propose" | "unknown";
  readonly demand?: Value;
  readonly dropLimit?: Value;
  readonly dropClass?: "critical" | "rest";
  /** Loads that hang on this circuit: at its far end, chained, or tapped on the way. */
  readonly draws: readonly string[];
  readonly keySpan: Span;
  readonly lengthSpan?: Span;
}

/** What is on in one moment. */
export interface GivenState {
  readonly id: string;
  readonly engine: boolean;
  readonly shore: boolean;
  readonly sun: boolean;
  /** By store; a store that is not named is at its lowest. */
  readonly charge: Readonly<Record<string, Value>>;
  readonly on: readonly string[];
  readonly positions: Readonly<Record<string, string>>;
  /** The one state, with everything on, of a plan that gives none. */
  readonly isImplied?: true;
}

/** A build with nothing on but what is always on. */
export interface QuietState {
  /** Parts that give all the same. */
  readonly on: readonly string[];
  readonly positions: Readonly<Record<string, string>>;
}

/** Positions that something keeps from being at once. */
export interface Interlock {
  readonly id: string;
  readonly never: readonly { readonly mover: string; readonly in: readonly string[] }[];
}

export interface Stock {
  readonly system: "mm²" | "AWG" | "SAE";
  /** Sizes that are kept, thinnest first; empty: those usually stocked. */
  readonly sizes: readonly WireSize[];
  readonly leastSize?: WireSize;
  /** What the choice of sizes aims at. Least cost stands here only where every size on the shelf has a price. */
  readonly choose: "least copper" | "fewest sizes" | "least cost";
  /** How much more copper than the least the fewest sizes may take, as a share of it. */
  readonly spare: number;
  /** By size on the shelf, for a metre of one conductor; null where the aim is another one. */
  readonly prices: readonly number[] | null;
}

/**
 * The whole build as one graph: terminals for every conductor function, what parts hold between them, the conductors that join them,
 * and the states it can be in. Defaults are filled in and listed. Plain data.
 */
export interface System {
  readonly name: string;
  readonly supplies: readonly Supply[];
  readonly stock: Stock;
  readonly ambient: Value;
  readonly ambientStated: boolean;
  /** Record low, °C; absent: not stated. */
  readonly lowestAmbient?: Value | "unknown";
  readonly zones: readonly Zone[];
  readonly parts: readonly SystemPart[];
  readonly elements: readonly InternalElement[];
  readonly circuits: readonly SystemCircuit[];
  readonly states: readonly GivenState[];
  /** How it stands with nothing on but what is always on; absent: switches in their first position, and what holds no charge rests. */
  readonly quiet?: QuietState;
  /** Absent: the plan gives none. */
  readonly interlocks?: readonly Interlock[];
  readonly assumptions: readonly Assumption[];
  readonly missing: readonly MissingFact[];
}
