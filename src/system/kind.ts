import type { FactsOf, KeyRules, KindWords, PartFacts } from "../plan/index.ts";
import type { FactReader } from "./fact-reader.ts";
import type { InternalElement } from "./element.ts";
import type { Fn, Port } from "./terminal.ts";

/** Everything a kind may ask while it says what a part of its kind holds. */
export interface PartAtHand<F extends KeyRules> {
  readonly part: string;
  readonly facts: FactsOf<F> & PartFacts;
  /** Reads facts, fills defaults and notes what is missing. */
  readonly read: FactReader;
  /** Name of one of its terminals. */
  readonly t: (port: string, fn: Fn) => string;
  /** Current that flows in it, found from what it is wired to. */
  readonly current: "DC" | "AC";
  /** Cores of the alternating-current supply. */
  readonly cores: readonly Fn[];
  /** Nominal volts of its supply. */
  readonly nominal: number;
  /** Of an inlet: a path leads to it from what feeds it, so that nothing enters by it; or from a lead alone, by which shore comes. */
  readonly ahead: "feed" | "lead" | null;
}

/** What the rest of the house may know about a part without knowing its kind. */
export interface Traits {
  /** Holds charge. */
  readonly store?: true;
  /** Pushes charging current; its circuit is judged as a charging circuit. */
  readonly charges?: true;
  /** A circuit that starts here is a solar module's. */
  readonly solar?: true;
  /** Current divides here into smaller conductors. */
  readonly distributes?: true;
  /** Uses power. */
  readonly load?: true;
  /** Class for the greatest voltage drop. */
  readonly dropUse?:
    "panel feeder" | "navigation light" | "bilge blower" | "bilge pump" | "electronics" | "lighting" | "rest";
  /** Turns with a motor, so a start is judged. */
  readonly motor?: true;
  /** Sits in the circuit of its own current: a switch, a shunt, a fuse. */
  readonly passes?: true;
  /** What stands in its ways where the plan does not say. */
  readonly inWays?: "fuse" | "breaker";
  /** Chassis or structure that carries current from joint to joint. */
  readonly structure?: true;
  /** Metal in the soil or the water. */
  readonly electrode?: true;
  /** What such metal is; absent: the plan does not say it. */
  readonly electrodeIs?: "rod" | "plate" | "foundation" | "anode";
  /** Counts what flows through it. */
  readonly counts?: true;
  /** Alternating current from outside enters here. */
  readonly enters?: true;
  /** A lead is plugged in here. */
  readonly inlet?: true;
  /** A lead from a supply to an inlet. */
  readonly lead?: true;
  /** An inlet that something in the plan feeds. */
  readonly plug?: true;
  /** Opens by itself when its coil is no longer held. */
  readonly coil?: true;
  /** Cranks an engine. */
  readonly cranks?: true;
  /** Something is plugged into it. */
  readonly outlet?: true;
  /** Guards the conductors behind it. */
  readonly guards?: "fuse" | "breaker";
}

/**
 * Keys of the graphical symbols that drawings show it by, as in `reference/drawing/symbols.csv`. A key without a symbol shows as a plain box.
 */
export interface SymbolKeys {
  readonly usual: string;
  /** Where alternating current flows in it. */
  readonly onAC?: string;
  /** Where a motor turns it. */
  readonly motor?: string;
  /** Where one entry of the plan stands for several units. */
  readonly several?: string;
}

/** A kind of part, complete: its words, its terminals, its inside. Adding one is this file and a line in `kinds/index.ts`. */
export interface Kind<F extends KeyRules = KeyRules> extends KindWords<F> {
  readonly symbol: SymbolKeys;
  readonly traits: (at: Pick<PartAtHand<F>, "facts">) => Traits;
  readonly ports: (at: Pick<PartAtHand<F>, "facts">) => readonly Port[];
  readonly elements: (at: PartAtHand<F>) => readonly InternalElement[];
  /** Positions that a state may name; the first is taken where a state says nothing. */
  readonly positions?: (at: Pick<PartAtHand<F>, "facts">) => readonly string[];
}

/** Gives a kind its types. */
export const defineKind = <const F extends KeyRules>(kind: Kind<F>): Kind => kind as unknown as Kind; // facts are read by the kind's own rules, so the wider type holds
