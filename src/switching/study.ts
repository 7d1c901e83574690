import type { TooLarge } from "./reached.ts";

/**
 * Every position of every switch of a build, in the few groups that differ electrically. Plain data. Things are named by their ids; a `node` is an index in
 * the nodes of the problem, so that a drawing finds its wires.
 */
export interface SwitchingStudy {
  readonly how: "each combination" | "decision diagram";
  /** Not null: the build is too large to be followed to the end, and nothing else is told. */
  readonly tooLarge: TooLarge | null;
  /** Interlocks that forbid everything off, from where all ways begin. Not empty: nothing else is told. */
  readonly startForbiddenBy: readonly string[];
  /** Nearest first; the first holds everything off. */
  readonly groups: readonly SwitchingGroup[];
  readonly transients: readonly Transient[];
  readonly reach: Reach;
  /** Switches with nothing but takers behind them: in each group they may stand as they like, and only what is behind them is on or off. */
  readonly leaves: readonly LeafSwitch[];
  /** Movers whose every position was followed. */
  readonly movers: readonly string[];
  /** Movers that touch nothing alternating. */
  readonly idle: readonly string[];
  /** What nobody says of how a mover moves. */
  readonly unclear: readonly { readonly mover: string; readonly says: string }[];
}

/** Combinations of what hands and the outside move, leaves and idle movers left out. */
export interface Reach {
  readonly combinations: number;
  readonly reached: number;
  /** How many each interlock forbids; a combination that two forbid counts with both. */
  readonly forbidden: readonly { readonly interlock: string; readonly count: number }[];
  /** Allowed combinations on no way from everything off, one of them, and the interlocks around it. */
  readonly enclosed: {
    readonly count: number;
    readonly example: Positions;
    readonly interlocks: readonly string[];
  } | null;
  /** Positions of one mover that no state has, with the interlocks that name it; none: its rules never lead there. */
  readonly never: readonly {
    readonly mover: string;
    readonly position: string;
    readonly interlocks: readonly string[];
  }[];
}

/** Position by mover. */
export type Positions = Readonly<Record<string, string>>;

export interface Step {
  readonly mover: string;
  readonly from: string;
  readonly to: string;
  readonly by: "hand" | "outside" | "itself";
  /** Seconds that it waits; only of one that moves by itself and says so. */
  readonly after?: number;
}

export interface SwitchingGroup extends StateFacts {
  /** Place in the list, from 1. */
  readonly number: number;
  /** False: what moves by itself goes round for ever. */
  readonly rests: boolean;
  /** How many combinations of positions belong to it. */
  readonly count: number;
  /** One of the nearest of them. */
  readonly example: Positions;
  /** Fewest actions from everything off. */
  readonly actions: number;
  /** What is done and what follows by itself, in order. */
  readonly steps: readonly Step[];
  /** Live lines that no single hand move kills; `outside`: pulling a plug or stopping what feeds does. */
  readonly undisconnected: readonly { readonly node: number; readonly outside: boolean }[];
}

/** What holds in one state. */
export interface StateFacts {
  /** Sources of alternating current that give, with those that are asked. */
  readonly gives: readonly string[];
  readonly islands: readonly Island[];
  /** Lines of two giving sources are one piece of metal. `lawful`: one of them may give beside another. */
  readonly parallel: readonly { readonly sources: readonly [string, string]; readonly lawful: boolean | "unknown" }[];
  /** Giving sources that share a neutral and no line. */
  readonly commonNeutral: readonly { readonly sources: readonly [string, string] }[];
  /** A source that does not give, or a plug that is out, has live terminals, fed back by others. */
  readonly livePins: readonly { readonly source: string; readonly from: readonly string[] }[];
  /** A source that may give beside the one that feeds its output now. */
  readonly adds: readonly { readonly source: string; readonly to: readonly string[]; readonly certain: boolean }[];
  readonly takers: readonly TakerState[];
  /** Guards whose neutrals meet behind them. */
  readonly neutralsMeet: readonly { readonly guards: readonly [string, string] }[];
  /** Chargers fed by an inverter that takes from where they give to. */
  readonly ownCharge: readonly { readonly charger: string; readonly inverter: string }[];
}

/** Metal that is energised together: joined by lines or by a neutral. */
export interface Island {
  readonly sources: readonly string[];
  /** In the position that stands for the group: metal that ends at an open contact, with nothing on it, may be dead in others of the group. */
  readonly lineNodes: readonly number[];
  readonly neutralNodes: readonly number[];
  /** Earth that its joins and its sources' own earths reach. */
  readonly earthNodes: readonly number[];
  readonly hasNeutral: boolean;
  /** Each place where its neutral meets earth. */
  readonly joins: readonly IslandJoin[];
  /** How many there are at least and at most. */
  readonly joinsLow: number;
  readonly joinsHigh: number;
}

export interface IslandJoin {
  /** Of a join inside a source that source's id. */
  readonly id: string;
  readonly part: string;
  /** inside: within a source, or ahead of it; ashore it counts while the source gives. */
  readonly where: "aboard" | "inside" | "ashore";
  readonly certain: boolean;
}

/** How a taker is fed, switches with only takers behind them taken as on. */
export interface TakerState {
  readonly taker: string;
  /**
   * fed · dead: no line is live · no neutral: lines are live and its neutral is cut · half: only some of its lines are live · reversed: neutral and line
   * are exchanged · mixed: lines and neutral come from different sources · no volts: all its ends are one line
   */
  readonly state: "fed" | "dead" | "no neutral" | "half" | "reversed" | "mixed" | "no volts";
  /** Sources whose line it has. */
  readonly sources: readonly string[];
  /** Its neutral is joined to that of a giving source. */
  readonly neutralJoined: boolean;
  /** Of a charger: whether its part lets it take in this state. */
  readonly takes: boolean;
  /**
   * Whether its protective conductor is one piece with a join of what feeds it. `open`: there is a join, and it does not reach it; `no join`: there is
   * none; `none`: it has no protective conductor; `dead`: nothing feeds it.
   */
  readonly earth: "joined" | "unknown" | "open" | "no join" | "none" | "dead";
  /** Residual guards through which every way from every source that feeds it leads. `sees`: neutral passes too, and no join lies behind it. */
  readonly guards: readonly GuardOnWay[];
}

export interface GuardOnWay {
  readonly guard: string;
  /**
   * Every join of what feeds it lies on its line side. `perhaps none`: none lies behind it, and nobody says whether one lies ahead; `unknown`: one may lie
   * behind it.
   */
  readonly joinAhead: boolean | "unknown" | "perhaps none" | "no join";
  /** Its neutral goes through it too, on every way; null: the taker has none. */
  readonly neutralThrough: boolean | null;
}

/** A moment in which two giving sources meet, since what moves makes before it breaks. */
export interface Transient {
  readonly mover: string;
  readonly from: string;
  readonly to: string;
  readonly sources: readonly [string, string];
  readonly by: "hand" | "outside" | "itself";
  /** Nobody says that it makes first; only that it breaks first is not said. */
  readonly certain: boolean;
  /** Actions up to and with the one that does it. */
  readonly actions: number;
  /** What is done and what follows by itself, up to and with the move. */
  readonly steps: readonly Step[];
  /** Where everything stood before. */
  readonly before: Positions;
}

export interface LeafSwitch {
  readonly mover: string;
  readonly takers: readonly string[];
  /** Nodes behind it that it cuts off. */
  readonly nodes: readonly number[];
  /** For each taker behind it: what goes on being joined when it is open. */
  readonly leaves: readonly {
    readonly taker: string;
    readonly linesCut: number;
    readonly linesLeft: number;
    readonly neutral: "cut" | "left" | "none";
  }[];
}
