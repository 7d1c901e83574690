import type { RuleSet, DropClass } from "../ruleset/index.ts";
import type { Grid, Stock, Supply, System, SystemCircuit, Trees } from "../system/index.ts";
import type { Rungs } from "./ladder.ts";

/** Resistance of one joint: each end of a conductor, each side of a device set in it. */
export const JOINT_OHMS = 0.0001;

/** A load or panel whose volts are judged, and by what. */
export interface Judged {
  /** Its part, for print. */
  readonly part: string;
  /** Index of the draw in the grid; −1 for a panel or the input of a converter. */
  readonly draw: number;
  /** Index of the converter whose input it is; −1: it is none. */
  readonly converter: number;
  readonly plus: number;
  readonly minus: number;
  /** Greatest drop, V; Infinity where none is asked. */
  readonly dropVolts: number;
  readonly dropClass: DropClass | null;
  readonly runsAbove: number;
  readonly startsAbove: number;
  /** Those volts are common practice, not its maker's. */
  readonly startsAssumed: boolean;
  /** Greatest steady amps above what is always on, and amps above that while it starts (NaN: no start). */
  readonly steadyExtra: number;
  readonly startExtra: number;
  readonly startSeconds: number;
  readonly alwaysOn: boolean;
}

/** A circuit that leads away from a charging source, and the terminals between which it is judged. */
export interface Charging {
  readonly limitVolts: number;
  /** What its percentage is taken of. */
  readonly baseVolts: number;
  readonly fromPlus: number;
  readonly fromMinus: number;
  readonly toPlus: number;
  readonly toMinus: number;
}

/** By end of a circuit's path: whether what feeds it comes in there. */
export interface Starts {
  readonly from: boolean;
  readonly to: boolean;
}

/** A circuit as one of several rule sets asks it to be. */
export interface SetModel {
  readonly ruleSet: RuleSet;
  readonly rungs: Rungs;
  judged: readonly Judged[];
}

/** A circuit by its position, and the loads, by index of the draw, whose current it brings out. */
export interface BroughtOut {
  readonly position: number;
  readonly loads: readonly number[];
}

/** A circuit of the direct-current side, as the chooser works with it. */
export interface CircuitModel {
  /** Place in the model's list. */
  readonly position: number;
  /** Place in the system's list. */
  readonly index: number;
  readonly circuit: SystemCircuit;
  readonly supply: Supply | undefined;
  readonly ruleSet: RuleSet | null;
  /** Each of the rule sets that it follows, with what that asks; empty where it follows one. */
  readonly bySet: readonly SetModel[];
  /** Null where nothing can be chosen or judged; `cannotTell` then says why. */
  rungs: Rungs | null;
  cannotTell: readonly string[];
  /** Edges of the grid, in the order of its conductors. */
  readonly edges: readonly number[];
  /** By edge: its length as a share of the run's. */
  readonly shares: readonly number[];
  /** Σ length of all conductors, m: what a mm² more costs in copper. */
  readonly metres: number;
  /** The same with that of the circuit that shares its size; 0 where it is counted with another. */
  paidMetres: number;
  /** Of a return that is a circuit of its own: position of the circuit whose size it shares; −1: it has a size to itself. */
  leader: number;
  /** Position of the return that shares its size; −1: none does. */
  follower: number;
  /** Of such a return: the circuit that brings out what it brings back, whether or not they share a size; −1: none, or more than one. */
  returnOf: number;
  /** The return that is a circuit of its own and brings back what it brings out, the other way round; −1: none. */
  back: number;
  /** Of such a return: how many loads it brings back the current of, and circuits that bring out that of all or some of them and of no other; most first. */
  returns: number;
  bringsBack: readonly BroughtOut[];
  judged: readonly Judged[];
  /** The ends of its path by which it is fed, however the path is written. */
  startsAt: Starts;
  /** Its supply end is a charging source: judged on its own drop. */
  readonly charging: Charging | null;
  /** Least steady amps that it must carry whatever the states say: the short-circuit current of a solar module. */
  leastAmps: number;
  readonly demand: number | null;
  /** Whether all its conductors belong to trees. */
  radial: boolean;
  /** The radial circuit that it hangs on; −1: the core. */
  parent: number;
  /** Radial circuits that hang on it. */
  readonly children: number[];
  /** Tree edges and contacts that are settled with it, those next to the core first. */
  readonly treeEdges: number[];
}

/** The end that its loads are at, as the plan writes it. */
export const farText = ({ circuit, startsAt }: CircuitModel): string =>
  startsAt.to && !startsAt.from ? circuit.fromText : circuit.toText;

/** The build as the chooser sees it. */
export interface Model {
  readonly system: System;
  readonly grid: Grid;
  readonly trees: Trees;
  /** Direct-current circuits, in the order of the plan. */
  readonly circuits: readonly CircuitModel[];
  /** Position in `circuits` by index in the system; −1 for others. */
  readonly at: Int32Array;
  /** Tree contacts that hang on the core itself, those next to it first. */
  readonly coreContacts: readonly number[];
  /** Radial circuits that hang on the core. */
  readonly roots: readonly number[];
  /** Circuits of the core, grouped: those of a group get one size. */
  readonly coreGroups: readonly (readonly number[])[];
  /** Circuits that get one common size and are not all of one group of the core. */
  readonly sizeGroups: readonly (readonly number[])[];
  readonly aim: Aim;
}

/** What a choice of sizes aims at. */
export interface Aim {
  readonly choose: Stock["choose"];
  /** By rung of the shelf: 1 where it may be used; null: all may. */
  readonly open: Uint8Array | null;
}
