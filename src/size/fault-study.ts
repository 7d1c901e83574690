import type { DeviceFamilyId, InterruptRating } from "../device/index.ts";
import type { GridLimited, ManagementOpening, Outcome, Range, StoreSource } from "../fault/index.ts";

/** A protective device as the fault study sees it. Others speak of it by its place in the list. */
export interface FaultDevice {
  /** Circuit that it stands in; null: it is a part of its own. */
  readonly circuit: string | null;
  readonly part: string;
  readonly way?: string;
  readonly end: "from" | "to" | null;
  readonly family: DeviceFamilyId | null;
  readonly rating: number | null;
  /** unknown: nobody knows whether one stands at this end; it then counts as one of which nothing is published. */
  readonly isPresent: "yes" | "unknown";
  /** Edge of the grid that it stands in, and the end of that edge. */
  readonly edge: number;
  readonly at: "a" | "b";
  /** Greatest volts of its system, or in the cold of the solar modules that feed it. */
  readonly volts: number;
  /** Null where its family or rating is not known. */
  readonly interrupt: Pick<InterruptRating, "state" | "current" | "upToVolts" | "trust"> | null;
}

/** A current through a device, and when that opens it. */
export interface SeenBy {
  readonly device: number;
  readonly amps: number;
  /** Terminal of the side that the current comes from. */
  readonly from: string;
  /** It stays closed until then, s; null: for good. */
  readonly least: number | null;
  /** It has opened by then, s; null: nobody can say that it does. */
  readonly most: number | null;
  readonly why: "opens" | "within its rating" | "may stay closed" | "not published";
}

export interface OpenedBy extends SeenBy {
  /** Whether every other device that sees the fault certainly stays closed until then. */
  readonly isSure: boolean;
}

export interface Contribution {
  readonly part: string;
  readonly amps: number;
}

/** What a fault does, from its first moment until nothing changes any more. */
export interface FaultCourse {
  /** Devices that its current goes through before any opens. */
  readonly sees: readonly SeenBy[];
  /** Those that open, first to last; after each the currents were worked out anew. */
  readonly opened: readonly OpenedBy[];
  readonly outcome: Outcome;
  /** Until no battery feeds it any more, s; the greatest is null where one may go on. */
  readonly seconds: { readonly low: number; readonly high: number | null };
  /** What goes on feeding it. */
  readonly left: readonly Contribution[];
}

/** The greatest current of a fault: every contact closed that may be, cold conductors, full and warm batteries, every source pushing. */
export interface GreatestFault {
  /** From the least to the greatest that its sources may give at best, A. */
  readonly amps: Range;
  /** Parts that feed it of which nobody knows how much they give: it may be more than any figure. */
  readonly unknown: readonly string[];
  readonly volts: number;
  readonly ohms: number;
  /** L ÷ R, s. */
  readonly timeConstant: Range;
  readonly from: readonly Contribution[];
  readonly course: FaultCourse;
}

/** The least current of a fault: one battery or string alone, empty, cold and aged, hot conductors, every joint counted. */
export interface LeastFault {
  /** Over what the age and cold of the source may be, A. */
  readonly amps: Range;
  /** Parts that feed it: one battery, those of one string, or limited sources where no battery reaches it. */
  readonly sources: readonly string[];
  /** State of the plan in which it is least; empty: every switch as it first stands. */
  readonly state: string;
  /** A management in the source may open before any device does: then this is no certain source. */
  readonly opens: ManagementOpening | null;
  readonly course: FaultCourse;
}

/** A fault at an end of a live conductor, behind the devices of that end. */
export interface EndFault {
  readonly circuit: string;
  readonly conductor: string;
  readonly end: "from" | "to";
  /** Terminal of the other pole that it is shorted to. */
  readonly against: string;
  readonly to: "return" | "structure";
  readonly greatest: GreatestFault | null;
  /** By source, the least first; empty: none reaches it, or it cannot be told. */
  readonly least: readonly LeastFault[];
  /** Why the least cannot be told; null: it can. */
  readonly cannotTell: string | null;
}

/** What faults ask of a conductor. */
export interface Withstand {
  /** k²S² of all its parallel conductors together, A²s; null: its wire is not known. */
  readonly limit: number | null;
  /** The same of one of them: what a fault in the conductor itself, near its source, has to be held against. */
  readonly leg: number | null;
  /** The hardest fault is one in the conductor itself: `i2t` is that of its hottest leg, `share` is by `leg`. */
  readonly isInLeg: boolean;
  /** Greatest current that any fault sends through it, A; 0: none does. */
  readonly through: number;
  /**
   * What the hardest fault that is cleared within 5 s lets through it, A²s: `high` at most, by the greatest opening times; `low` at least, before any
   * device that sees it may open. Null: no such fault.
   */
  readonly i2t: Range | null;
  /** The high end of i2t ÷ limit, or ÷ leg; above 1 nobody can say that it is not burnt before the fault is cleared. */
  readonly share: number | null;
  /** Conductor and end of that fault. */
  readonly at: string | null;
  /** The fault that takes longer than 5 s and heats it most: no heating without loss any more. */
  readonly slow: { readonly amps: number; readonly seconds: number; readonly at: string } | null;
  /** The most that may flow in it for good, since nothing that certainly opens sees it, A; null: nothing. */
  readonly forGood: { readonly amps: number; readonly at: string; readonly outcome: Outcome } | null;
}

/** A conductor, live or return, with all that faults say of it. */
export interface ConductorFault {
  readonly conductor: string;
  readonly role: "live" | "return";
  /** Greatest current of a fault anywhere in it, and least at whichever end that is; null: no fault there, or it cannot be told. */
  readonly greatest: Range | null;
  readonly least: Range | null;
  /** Device that opens last when the least current flows; null: none certainly does. */
  readonly guard: number | null;
  readonly outcome: Outcome;
  /** Until no battery feeds a fault anywhere in it any more, over greatest and least current, s. */
  readonly seconds: { readonly low: number; readonly high: number | null };
  readonly withstand: Withstand;
}

export interface CircuitFaults {
  readonly circuit: string;
  readonly ends: readonly EndFault[];
  /** Of a return that is a circuit of its own: the faults of other circuits that come back through it. */
  readonly carries: readonly EndFault[];
  readonly conductors: readonly ConductorFault[];
}

/** Prospective current at a terminal, against the other pole there. */
export interface TerminalFault {
  readonly terminal: string;
  readonly against: string;
  readonly greatest: number;
  /** Null: no battery or string alone reaches it. */
  readonly least: number | null;
  /** The same in each state of the plan; those alike in switches and sources are alike. */
  readonly states: readonly { readonly state: string; readonly greatest: number; readonly least: number | null }[];
}

/** What a device has to break, and whether it can. */
export interface DeviceFault {
  readonly device: number;
  /** Greatest current through it for any fault, the side that it comes from, and that fault. */
  readonly greatest: { readonly amps: Range; readonly from: string; readonly at: string } | null;
  /** Greatest current of a fault at its own terminals, all sources together: at its line side. */
  readonly prospective: number;
  /** Parts on its metal of which nobody knows how much they give: both figures may be more. */
  readonly unknown: readonly string[];
}

/** A fault that a source goes on feeding: no device sees it, or none that does is certain to open. */
export interface OpenFault {
  readonly at: string;
  readonly to: "return" | "structure";
  readonly sources: readonly string[];
  readonly amps: number;
  readonly outcome: Outcome;
}

/** Faults at the ends of the conductors of a build. Plain data. */
export interface EndFaults {
  readonly stores: readonly StoreSource[];
  readonly limited: readonly GridLimited[];
  readonly devices: readonly FaultDevice[];
  /** By device. */
  readonly deviceFaults: readonly DeviceFault[];
  /** By circuit of the system; null: alternating current, or no conductor of its own. */
  readonly circuits: readonly (CircuitFaults | null)[];
}

/** Faults of a whole build. Plain data. */
export interface FaultStudy extends EndFaults {
  /** By node of the grid; null: it is of the minus or the structure. */
  readonly terminals: readonly (TerminalFault | null)[];
  readonly open: readonly OpenFault[];
  /** What is left out of this build, in words. */
  readonly notStudied: readonly string[];
}
