/**
 * A build as the study of positions sees it. Plain data; every `number` that names a thing is its index in the list of such things, so that names
 * decide nothing.
 */
export interface SwitchingProblem {
  readonly nodes: readonly ProblemNode[];
  /** Pairs of nodes that are one piece of metal, whatever moves. */
  readonly metal: readonly (readonly [number, number])[];
  readonly movers: readonly ProblemMover[];
  readonly contacts: readonly ProblemContact[];
  readonly sources: readonly ProblemSource[];
  readonly joins: readonly ProblemJoin[];
  readonly guards: readonly ProblemGuard[];
  readonly takers: readonly ProblemTaker[];
  readonly interlocks: readonly ProblemInterlock[];
  /** Plugs that something in the build feeds; absent: none. */
  readonly pins?: readonly ProblemPins[];
  /** Makers of direct current that may or may not keep up what a battery has been switched off from; absent: none. No state is told by them. */
  readonly aside?: readonly ProblemSource[];
}

/** Pins that a hand can touch while a plug is out. */
export interface ProblemPins {
  /** That of its part. */
  readonly id: string;
  readonly lines: readonly number[];
  readonly plugged: PositionSet;
}

export interface ProblemNode {
  readonly name: string;
  /** Of direct current plus is a line and minus a neutral; any: not known. */
  readonly does: "line" | "neutral" | "earth" | "any";
}

export interface ProblemMover {
  readonly id: string;
  readonly name: string;
  readonly part: string;
  /** hand: whoever is aboard · outside: plug, engine, whatever may happen at any time · itself: by its rules */
  readonly by: "hand" | "outside" | "itself";
  readonly positions: readonly string[];
  /** Index of its position when all is off and unplugged. */
  readonly start: number;
  /** Of one that moves by itself: the first that holds decides; where none does, it stays. */
  readonly rules: readonly ProblemRule[];
  /** It opens what it leaves before it closes what it goes to; absent: not stated. */
  readonly breaksFirst?: boolean | "unknown";
  /** What nobody says of how it moves. */
  readonly unclear?: string;
}

export interface ProblemRule {
  /** Index of the position that it goes to. */
  readonly to: number;
  /** Nodes that all have to be fed by something else than its own part. */
  readonly live: readonly number[];
  readonly when: readonly PositionSet[];
  /** Seconds; 0: at once, or not stated. */
  readonly after: number;
}

/** A mover in any of these of its positions. */
export interface PositionSet {
  readonly mover: number;
  readonly in: readonly number[];
}

export interface ProblemContact {
  readonly id: string;
  readonly part: string;
  readonly a: number;
  readonly b: number;
  /** null: it is always closed. */
  readonly closed: PositionSet | null;
}

export interface ProblemSource {
  readonly id: string;
  readonly name: string;
  readonly part: string;
  readonly kind: "shore" | "generator" | "transformer" | "inverter" | "store";
  /** Live terminals, with the phase angle of each in degrees; null: not known. */
  readonly lines: readonly { readonly node: number; readonly angle: number | null }[];
  readonly neutral: number | null;
  readonly earth: number | null;
  /** Nodes that all have to be live before it gives. */
  readonly fedBy: readonly number[];
  /** Positions in which it gives; null: in all. */
  readonly gives: PositionSet | null;
  /** Whether neutral and earth are joined in it, or ahead of it. */
  readonly joined: boolean | "unknown";
  /** That join is metal of the build, there whether the source gives or not; false: it is ashore and comes with the plug. */
  readonly joinStays: boolean;
  /** Of a building's supply that brings a neutral and no protective conductor: a join aboard stands for the one ashore, and with it is no second one. */
  readonly joinedByNeutral?: true;
  /** It may give beside another source. */
  readonly addsToSupply: boolean | "unknown";
  /** It leads another supply to its own output, so its output is rightly live while it does not give. */
  readonly passes: boolean;
  /** Where it takes direct current from. */
  readonly direct: DirectPort | null;
}

export interface DirectPort {
  readonly plus: number;
  readonly minus: number;
}

/** Where neutral meets earth. */
export interface ProblemJoin {
  readonly id: string;
  readonly name: string;
  readonly part: string;
  readonly neutral: number;
  readonly earth: number;
  /** null: always; unknown: nobody says when. */
  readonly closed: PositionSet | null | "unknown";
}

export interface ProblemGuard {
  readonly id: string;
  readonly name: string;
  readonly part: string;
  /** What it opens, and where neutral goes through it unopened; empty: it stands in the taker of its own part. */
  readonly contacts: readonly number[];
}

export interface ProblemTaker {
  readonly id: string;
  readonly name: string;
  readonly part: string;
  readonly kind: "load" | "charger";
  readonly lines: readonly number[];
  readonly neutral: number | null;
  readonly earth: number | null;
  /** Positions in which it takes; null: in all. */
  readonly takes: PositionSet | null;
  /** Where a charger gives to. */
  readonly direct: DirectPort | null;
}

/** Positions that cannot all be at once. */
export interface ProblemInterlock {
  readonly id: string;
  readonly name: string;
  readonly never: readonly PositionSet[];
}

/** Up to where the study goes. */
export interface SwitchingLimits {
  /** Combinations up to which each is looked at by itself; beyond, they are gathered in a decision diagram. 65,536 if absent. */
  readonly combinations?: number;
  /** Nodes of the decision diagram. 300,000 if absent. */
  readonly diagramNodes?: number;
  /** Groups. 2,000 if absent. */
  readonly groups?: number;
}
