import type { Value } from "./value.ts";

/**
 * What a part holds inside, between its own terminals. Kinds declare these; studies read them and never ask which kind it is.
 * All are plain data.
 */
export type InternalElement = Join | Contact | Store | Feed | Draw | Converter;

interface Between {
  /** Unique within the build: `SW1`, `PNL:3`, `DCDC:out`. */
  readonly id: string;
  readonly part: string;
}

/** Two terminals that are one piece of metal. */
export interface Join extends Between {
  readonly is: "join";
  readonly a: string;
  readonly b: string;
}

/** A closed path with a resistance: a switch contact, a shunt, the device in a panel way. */
export interface Contact extends Between {
  readonly is: "contact";
  readonly a: string;
  readonly b: string;
  readonly ohms: Value;
  /** Closed in these positions of its part; absent: in every position. */
  readonly closedIn?: readonly string[];
  /** The way of a panel whose protective device stands here. */
  readonly way?: string;
}

/** A battery: pushes and takes. */
export interface Store extends Between {
  readonly is: "store";
  readonly plus: string;
  readonly minus: string;
  readonly curve: "LFP" | "lead";
  readonly nominalVolts: number;
  readonly ohms: Value;
  /** Charge in the worst moment, as a share. */
  readonly lowestCharge: Value;
  /** Into a dead short at its terminals; bounds how great a fault it feeds. */
  readonly shortCircuitAmps: Value;
  /** How many alike stand in parallel behind its terminals. */
  readonly strings: number;
  readonly unit: StoreUnit;
}

/** What the maker of a battery says of one unit; what is absent is not stated. */
export interface StoreUnit {
  readonly chemistry?: string;
  readonly capacityCoulombs?: Value | "unknown";
  readonly crankingAmps?: Value | "unknown";
  /** Year it was made. */
  readonly made?: number | "unknown";
  /** What its management lets through for long, and for a short time. */
  readonly continuousAmps?: Value | "unknown";
  readonly peakAmps?: Value | "unknown";
  readonly peakSeconds?: Value | "unknown";
  /** Greatest charging current. */
  readonly chargingAmps?: Value | "unknown";
}

/** When a source runs in a state that does not name it. */
export type RunsWith = "engine" | "shore" | "sun" | "nothing";

/** A source that only pushes, up to its limit. */
export interface Feed extends Between {
  readonly is: "feed";
  readonly plus: string;
  readonly minus: string;
  /** Set point, or open-circuit volts. */
  readonly volts: Value;
  readonly amps: Value;
  readonly runsWith: RunsWith;
  readonly selfLimited: boolean | "unknown";
  /** Volts at which a solar source gives most: what a tracking input holds it at. */
  readonly bestVolts?: Value;
  /** How the open-circuit volts of a solar source change from 25 °C, as a share for each kelvin. */
  readonly voltsPerKelvin?: Value;
}

/** One level that a load can run at. */
export interface Level {
  readonly name: "running" | "transmitting" | "starting";
  readonly amps: Value;
}

/** A load. */
export interface Draw extends Between {
  readonly is: "draw";
  readonly plus: string;
  readonly minus: string;
  /** amps: the same current at any volts; watts: the same power. */
  readonly law: "amps" | "watts";
  /** Volts at which the amps of the levels are stated. */
  readonly atVolts: number;
  readonly levels: readonly Level[];
  /** Alternating-current loads are in the graph; no study of this page reads them yet. */
  readonly current: "DC" | "AC";
  readonly alwaysOn: boolean;
  readonly startSeconds: Value;
  /** Least volts at its terminals while running and while starting; absent: not stated by the maker. */
  readonly runsAbove?: Value;
  readonly startsAbove?: Value;
}

/** Takes from one port and pushes into another: DC-DC charger, inverter, solar controller, charger. */
export interface Converter extends Between {
  readonly is: "converter";
  readonly inPlus: string;
  readonly inMinus: string;
  readonly outPlus: string;
  readonly outMinus: string;
  /** Live terminals of an alternating output, where there is more than one. */
  readonly outLines?: readonly string[];
  /** Terminal whose alternating current goes straight to the output while shore feeds it; the converter then rests. */
  readonly passesFrom?: string;
  readonly inCurrent: "DC" | "AC";
  readonly outCurrent: "DC" | "AC";
  /** Output set point. */
  readonly volts: Value;
  /** Output limit. */
  readonly amps: Value;
  readonly inputAmps?: Value;
  readonly efficiency: Value;
  readonly idleWatts: Value;
  /** Output of an inverter for a short time, and how long; absent: not stated. */
  readonly surgeWatts?: Value | "unknown";
  readonly surgeSeconds?: Value | "unknown";
  /** as needed: draws what its output asks for; tracks: passes on all that its input offers at the source's best volts. */
  readonly input: "as needed" | "tracks";
  readonly runsWith: RunsWith | "load";
  readonly selfLimited: boolean | "unknown";
  readonly bothWays: boolean;
}
