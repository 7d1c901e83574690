/** What the worker says of the states of the alternating side: facts of the studies with the names of things in place of their ids. Plain data. */
import type { ShownDrawing } from "../../act/wire-card/index.ts";
import type { EditValue } from "../../plan/text/index.ts";
import type { Island, Positions, StateFacts, Step, Transient } from "../../switching/index.ts";
import type { KeyPath } from "../asked.ts";

export type { Positions, Step };

/** Something that a finger sets, or that moves by itself. */
export interface MoverRow {
  readonly id: string;
  readonly name: string;
  readonly about: KeyPath;
  /** supply: what feeds the build · switch: any other · board: main or way of a board · relay: it moves by itself · guard: a battery's management, which may open at any time */
  readonly what: "supply" | "switch" | "board" | "relay" | "guard";
  /** Name of the board that it is in; null: in none. */
  readonly board: string | null;
  readonly positions: readonly string[];
  /** When all is off; ways with only takers behind them stand closed. */
  readonly start: string;
  /** What nobody says of how it moves. */
  readonly unclear: string | null;
  /** Takers behind one that has nothing else behind it; else null. */
  readonly behind: readonly string[] | null;
}

export interface StateMovers {
  readonly movers: readonly MoverRow[];
  readonly interlocks: readonly InterlockRow[];
}

/** `never`: what may not be together, as `GEN running`. */
export interface InterlockRow {
  readonly name: string;
  readonly never: readonly string[];
}

/** What is asked for. */
export interface StateAsked {
  /** By mover; one that is not named stands at its start. */
  readonly positions: Positions;
  readonly move: { readonly mover: string; readonly to: string } | null;
  /** Loads that are on, by part; null: every one. */
  readonly on: readonly string[] | null;
}

/** What holds, with names. */
export interface NamedFacts extends Omit<StateFacts, "islands" | "takers"> {
  readonly islands: readonly NamedIsland[];
  readonly takers: readonly NamedTaker[];
}

export interface NamedIsland extends Pick<Island, "sources" | "hasNeutral" | "joinsLow" | "joinsHigh"> {
  readonly joins: readonly (Island["joins"][number] & { readonly name: string; readonly about: KeyPath })[];
}

export interface NamedTaker extends Omit<StateFacts["takers"][number], "taker"> {
  readonly name: string;
  readonly about: KeyPath;
  readonly kind: "load" | "charger";
  /** Devices or switches that stand open right before it and cut some or all of its lines. */
  readonly cutBy: readonly string[];
}

export interface StateAtAnswer {
  /** Where everything stands, ways of boards too. */
  readonly positions: Positions;
  /** The move that was asked for is not made: these interlocks forbid it. Empty: it is, or none was asked for. */
  readonly refusedBy: readonly InterlockRow[];
  /** What moved by itself after it. */
  readonly follows: readonly Step[];
  /** False: what moves by itself goes round for ever. */
  readonly rests: boolean;
  readonly facts: NamedFacts;
  /** The same for two positions of one group of the study. */
  readonly group: string;
  readonly volts: StateVolts;
  /** What a state of the plan would say of these positions, and what it has no words for. */
  readonly written: { readonly entries: readonly (readonly [string, EditValue])[]; readonly unsaid: readonly string[] };
}

export interface StateVolts {
  /** By key path of the part; a load on two lines has two. */
  readonly loads: readonly {
    readonly about: KeyPath;
    readonly id: string;
    /** Null: see `cannotTell`. */
    readonly volts: number | null;
    readonly share: number | null;
    readonly amps: number | null;
    readonly cannotTell: readonly string[];
  }[];
  readonly sources: readonly {
    readonly name: string;
    readonly about: KeyPath;
    readonly volts: number | null;
    /** In the line that carries most. */
    readonly amps: number;
    readonly va: number;
    /** What is asked over what it may give for long. */
    readonly load: number | null;
  }[];
  /** Why no figure is told; null: they are. */
  readonly untold: string | null;
}

export interface StateDrawing extends ShownDrawing {
  /** mm of the drawing: what of it alternates. */
  readonly window: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** Where neutral meets earth. */
  readonly joins: readonly {
    readonly name: string;
    readonly x: number;
    readonly y: number;
    readonly certain: boolean;
  }[];
}

export interface GroupRow {
  readonly number: number;
  readonly group: string;
  readonly rests: boolean;
  readonly facts: NamedFacts;
  readonly positions: Positions;
  readonly actions: number;
  readonly steps: readonly Step[];
  /** Live lines that no single hand move kills, though no plug has to be pulled either. */
  readonly undisconnected: number;
}

export interface StatesAnswer {
  readonly groups: readonly GroupRow[];
  readonly combinations: number;
  readonly reached: number;
  /** Why no groups are told; null: they are. */
  readonly untold: string | null;
  /** Two sources meet while something moves. */
  readonly moments: readonly (Pick<Transient, "from" | "to" | "certain"> & {
    readonly mover: string;
    readonly sources: readonly [string, string];
  })[];
  /** Positions that are never come to. */
  readonly never: readonly { readonly mover: string; readonly position: string }[];
}

export type PositionAsked =
  | { readonly of: string; readonly ask: "state-movers" }
  | ({ readonly of: string; readonly ask: "state-at" } & StateAsked)
  | ({ readonly of: string; readonly ask: "state-drawing" } & StateAsked)
  | { readonly of: string; readonly ask: "all-states" };

export interface PositionAnswerOf {
  readonly "state-movers": StateMovers | null;
  readonly "state-at": StateAtAnswer | null;
  readonly "state-drawing": StateDrawing | null;
  readonly "all-states": StatesAnswer | null;
}
