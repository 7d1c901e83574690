import type { Celsius } from "../quantity/index.ts";
import type { InstallMethod } from "../ruleset/index.ts";
import type { Value } from "../system/index.ts";

/** A length of run through one kind of surroundings. */
export interface Stretch {
  readonly zone?: string;
  readonly lengthM: Value;
  readonly engineSpace: boolean;
  /** Hottest air there, °C. */
  readonly ambientC: number;
  /** Whether the plan states a temperature for this stretch itself. */
  readonly ambientStated: boolean;
  /** Current-carrying conductors that lie together here, this circuit's own counted. */
  readonly bundle: number;
  /** It lies wholly in thermal insulation. */
  readonly insulated: boolean;
  /** It lies in the ground. */
  readonly buried: boolean;
  /** It lies in the sun, close above a roof. */
  readonly onRoof: boolean;
  /** The plan says that some of the run lies here, not how much. */
  readonly metresMissing?: true;
}

export interface Run {
  readonly circuit: string;
  /** One way. */
  readonly lengthM: Value;
  /** Straight line between its ends, where both have a position. */
  readonly straightM?: number;
  readonly stretches: readonly Stretch[];
  /** Conductors of its own that carry current. */
  readonly loaded: number;
  /** How its conductors lie and end, as far as the plan says it. */
  readonly installed: {
    readonly method?: InstallMethod | "unknown";
    readonly sheathed: boolean;
    /** Of each set of parallel conductors. */
    readonly loaded: number;
    readonly terminalsC?: Celsius;
  };
}

/** Runs of all circuits, in the order of the plan. */
export interface Runs {
  readonly runs: readonly Run[];
}

export interface ShortRun {
  readonly lengthM: number;
  readonly straightM: number;
}
