import type { Fn } from "./terminal.ts";
import type { Value } from "./value.ts";

/**
 * What a part holds inside, between its own terminals. Kinds declare these; studies read them and never ask which kind it is.
 * All are plain data.
 */
export type InternalElement =
  Join | Contact | Store | Feed | Draw | Converter | Source | EarthJoin | ResidualGuard | Mover;

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
  /** Closed in these positions of its mover; absent: in every position. */
  readonly closedIn?: readonly string[];
  /** What moves it; absent: its part, which a hand moves. */
  readonly mover?: string;
  /** The way of a panel whose protective device stands here. */
  readonly way?: string;
}

/** Positions in which a state has to have its part for a contact to be closed: what boards hold in their ways stands closed in every state of a plan. */
export const closedInStates = ({ closedIn, mover }: Contact): readonly string[] | undefined =>
  mover === undefined ? closedIn : undefined;

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
  /** What it drives into whatever it meets for long, where that is less than its limit here; absent: its limit. */
  readonly pushes?: Value;
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
  readonly current: "DC" | "AC";
  /** How it stands on the cores of its supply; absent: it takes direct current. */
  readonly alternating?: AlternatingDraw;
  readonly alwaysOn: boolean;
  readonly startSeconds: Value;
  /** Least volts at its terminals while running and while starting; absent: not stated by the maker. */
  readonly runsAbove?: Value;
  readonly startsAbove?: Value;
}

/** VA for each ampere that a load takes: of three lines √3 of the volts between two. */
export const vaPerAmp = ({ atVolts, alternating }: Pick<Draw, "atVolts" | "alternating">): number =>
  atVolts * (alternating?.lines.length === 3 ? Math.sqrt(3) : 1);

/** Share of the volt-amperes of a load that is power, as it states; else 1. */
export const powerFactorOf = ({ alternating }: Pick<Draw, "alternating">): number => {
  const factor = alternating?.powerFactor;
  return factor === undefined || factor === "unknown" ? 1 : factor.high;
};

/** What a load says of its alternating side. */
export interface AlternatingDraw {
  /** Live terminals; of two with a neutral each takes the current of the level on its own. */
  readonly lines: readonly string[];
  readonly neutral?: string;
  readonly earth?: string;
  /** Lagging; absent: not stated. */
  readonly powerFactor?: Value | "unknown";
  /** Protection class by IEC 61140; absent: not stated. */
  readonly protection?: "I" | "II" | "III" | "unknown";
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
  /** Works in these positions of its mover; absent: nothing holds it. */
  readonly worksIn?: readonly string[];
  readonly mover?: string;
  /** Gives beside another alternating source while its maker lets it. */
  readonly addsToSupply?: true | "unknown";
  /** Its metal case, where alternating current flows on one side of it. */
  readonly earth?: string;
  /** Of an output with two lines: whether both swing together, so that a neutral between them carries their sum; absent: not stated. */
  readonly linesInPhase?: boolean | "unknown";
}

/** Where alternating current comes from that no converter makes: shore, a generator, the other side of a transformer. */
export interface Source extends Between {
  readonly is: "source";
  readonly from: "shore" | "generator" | "transformer";
  /** Terminal of each conductor that it has. */
  readonly terminals: Readonly<Partial<Record<Fn, string>>>;
  /** Between a line and neutral, or between its two lines where it has no neutral. */
  readonly volts: number;
  /** It gives in these positions of its mover. */
  readonly givesIn?: readonly string[];
  readonly mover?: string;
  /** Terminals that have to be live before it gives: the inlet side of a transformer. */
  readonly fedBy?: readonly string[];
  /** Whether neutral and earth are joined in it, or ahead of it where it comes from outside. */
  readonly joined: boolean | "unknown";
  /** Whether its neutral is joined to earth by the electrode of the supplier alone (TT). */
  readonly earthedApart?: boolean | "unknown";
  /** What it may give for long. */
  readonly gives?: { readonly value: Value; readonly unit: "A" | "VA" } | "unknown";
  /** Impedance of the supply as it arrives, line and protective conductor together; absent: not stated. */
  readonly loopOhms?: Value | "unknown";
  /** Greatest current that it drives into a short where it arrives; absent: not stated. */
  readonly prospectiveAmps?: Value | "unknown";
}

/** Where neutral meets the protective conductor. */
export interface EarthJoin extends Between {
  readonly is: "earth join";
  readonly neutral: string;
  readonly earth: string;
  /** Closed in these positions of its mover; absent: in all; unknown: nobody says when. */
  readonly closedIn?: readonly string[] | "unknown";
  readonly mover?: string;
}

/** Opens on current that does not come back the way it went: RCD, GFCI, ELCI, RCBO. */
export interface ResidualGuard extends Between {
  readonly is: "residual guard";
  /** Contacts that it opens; none: it stands in an outlet and guards what is plugged in there. */
  readonly contacts: readonly string[];
  /** Joins of the same device by which neutral goes through its sensor and is not opened; absent: it has none. */
  readonly through?: readonly string[];
  readonly amps: Value | "unknown";
  /** Longest time that it takes; absent: not stated. */
  readonly seconds?: Value | "unknown";
  /** Waveform type by IEC 60755; absent: not stated. */
  readonly type?: "AC" | "A" | "F" | "B" | "unknown";
  /** Opens later than one behind it on purpose. */
  readonly delayed?: boolean | "unknown";
}

/** What stands in one of several positions: a switch, a plug, a relay, a machine that runs or not. */
export interface Mover extends Between {
  readonly is: "mover";
  readonly positions: readonly string[];
  /** hand: whoever is aboard · outside: plug, engine, sun · itself: by the rules below, whatever a hand would like */
  readonly by: "hand" | "outside" | "itself";
  /** Of one that moves by itself: the first that holds decides; the last one holds always. */
  readonly rules?: readonly MoverRule[];
  /** What the plan does not say of how it moves; absent: nothing is missing. */
  readonly unclear?: string;
  /** It opens what it leaves before it closes what it goes to. */
  readonly breaksFirst?: boolean | "unknown";
}

/** When a part that moves by itself goes to a position. */
export interface MoverRule {
  readonly to: string;
  /** Terminals that are all fed by something else than its own part. */
  readonly live?: readonly string[];
  /** Positions of other movers. */
  readonly when?: readonly { readonly mover: string; readonly in: readonly string[] }[];
  /** After which time; absent: at once, or not stated. */
  readonly after?: Value;
}
