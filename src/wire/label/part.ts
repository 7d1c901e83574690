import type { TypeCode } from "../type/type-code.ts";
import type {
  CableFamily,
  Ground,
  PrintedColour,
  PrintedMetal,
  PrintedSize,
  StrandingName,
} from "../make/wire-make.ts";
import type { LabelContext, OrderQuantity } from "./label-reading.ts";

/** What one stretch of a label may say. */
export interface Facts {
  readonly family?: CableFamily;
  /** The kind of cable that a word hints at; gives way to one that is named. */
  readonly maybeFamily?: CableFamily;
  readonly size?: PrintedSize;
  /** The same number in the gauge of vehicles, where the label leaves open which gauge is meant. */
  readonly vehicleSize?: PrintedSize;
  /** A gauge number that is written without a word for the gauge: `4/0`, `#12`. */
  readonly isUnitless?: true;
  /** The gauge is that of SAE vehicle cable. */
  readonly saeGauge?: true;
  /** Number of cores, as the label counts them. */
  readonly count?: number;
  /** What the number counts is left to the kind of cable: `12/3`. */
  readonly countByFamily?: true;
  /** Written with `x`, which is without a green-yellow core in harmonised codes and only “times” elsewhere. */
  readonly countByX?: true;
  /** `with`: one of those counted (`G`, -J); `and`: one more (`and earth`); `said`: with a ground, counted as the kind of cable does; `without`: none. */
  readonly ground?: "with" | "and" | "said" | "without";
  readonly groundKind?: Ground;
  readonly groundSize?: PrintedSize;
  readonly others?: readonly { readonly count: number; readonly size: PrintedSize }[];
  readonly paired?: true;
  /** Boat cable of three, one of them green. */
  readonly isTriplex?: true;
  /** `in parallel`: what is counted are runs. */
  readonly isParallel?: true;
  readonly runs?: number;
  /** Equal single cables by `2x`, which may be two cores as well. */
  readonly runsBySign?: true;
  readonly strandName?: StrandingName;
  readonly wires?: number;
  readonly wireMm?: number;
  /** How the strands of vehicle cable lie: symmetrical or not. */
  readonly strandLay?: "A" | "B";
  /** Strands by `30x0.25`, which may be cores as well. */
  readonly strandsBySign?: true;
  /** The size that the counted strands come to. */
  readonly strands?: PrintedSize;
  readonly metal?: PrintedMetal;
  readonly plating?: "plain" | "tinned";
  readonly type?: TypeCode;
  readonly volts?: number;
  readonly voltsSay?: string;
  readonly temperatureC?: number;
  readonly wetTemperatureC?: number;
  readonly fit?: "wet" | "oil" | "sun" | "flame" | "flexible";
  readonly form?: "flat" | "round";
  readonly outsideMm?: number;
  /** The words `auto cable`. */
  readonly isAutoCable?: true;
  /** The word `automotive`, which in a vehicle means the same. */
  readonly isAutomotive?: true;
  /** The word ground or earth, without saying that it is counted or not. */
  readonly isGround?: true;
  /** A width that may be that of the whole cable. */
  readonly isWidth?: true;
  /** Bare wire, nothing round it. */
  readonly uninsulated?: true;
  readonly quantity?: OrderQuantity;
  /** A terminal, a lug: what the label names beside the wire, in words. */
  readonly fitting?: string;
  /** Another thing than wire: a pipe, a screw. */
  readonly otherThing?: true;
  /** A thing that notes name beside a wire: a breaker, a conduit. */
  readonly nearThing?: true;
  /** `B-spec`: a series in which sellers' gauge numbers stand for less copper. */
  readonly sellersSeries?: true;
  /** Base and tracers, or the cores one after the other: only the number of cores tells. */
  readonly coloursOrTracers?: PrintedColour;
  /** `#10`: a gauge, or the screw that a terminal takes. */
  readonly hash?: true;
  /** A number without any unit. */
  readonly bare?: true;
  /** An area that is said of a width: `6 mm`. */
  readonly loose?: true;
}

/** One way to read a stretch. */
export interface Option {
  readonly facts: Facts;
  /** Where it is at home; absent: everywhere. */
  readonly fits?: readonly LabelContext[];
  /** A habit of the trade that it leans on, a short sentence. */
  readonly by?: string;
  readonly trap?: string;
}

/** A stretch of a label that was understood, with all ways to read it; none: it says nothing of the wire. */
export interface Part {
  readonly start: number;
  readonly end: number;
  readonly options: readonly Option[];
}

/** A stretch that was not understood. */
export interface Unknown {
  /** It names a size that is not made. */
  readonly isSize: boolean;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}
