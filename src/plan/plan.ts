import type { Span } from "../diagnostic.ts";
import type { circuitKeys } from "./grammar/circuit-keys.ts";
import type { interlockKeys } from "./grammar/interlock-keys.ts";
import type { partKeys } from "./grammar/part-keys.ts";
import type { FactsOf, KeyRules } from "./grammar/rule.ts";
import type {
  climateKeys,
  measuredKeys,
  placeKeys,
  stateKeys,
  stockKeys,
  systemKeys,
  waiverKeys,
  wayKeys,
  zoneKeys,
} from "./grammar/section-keys.ts";
import type { Fact } from "./fact.ts";

/** The words of one kind of part: what the language needs to know of it. */
export interface KindWords<F extends KeyRules = KeyRules> {
  readonly name: string;
  readonly also?: readonly string[];
  /** Completes "a part of this kind is …". */
  readonly says: string;
  readonly facts: F;
}

export type PartFacts = FactsOf<typeof partKeys>;
export type CircuitFacts = FactsOf<typeof circuitKeys>;
export type StateFacts = FactsOf<typeof stateKeys>;
export type SystemFacts = FactsOf<typeof systemKeys>;
export type StockFacts = FactsOf<typeof stockKeys>;
export type ClimateFacts = FactsOf<typeof climateKeys>;
export type ZoneFacts = FactsOf<typeof zoneKeys>;
export type PlaceFacts = FactsOf<typeof placeKeys>;
export type WayFacts = FactsOf<typeof wayKeys>;
export type InterlockFacts = FactsOf<typeof interlockKeys>;
export type WaiverFacts = FactsOf<typeof waiverKeys>;
export type MeasuredFacts = FactsOf<typeof measuredKeys>;

/** Something that has a name in the plan. Spans inside it count from `base`. */
export interface PlanItem<F> {
  readonly key: string;
  readonly base: number;
  readonly keySpan: Span;
  readonly facts: F;
  /** Where each of its keys stands. */
  readonly keys: Readonly<Record<string, Span>>;
  /** It is empty or no map, which has been told. */
  readonly unread?: true;
}

export interface PlanPart extends PlanItem<PartFacts> {
  /** Name of the kind in the list of kinds; absent when none is given or none is known by that word. */
  readonly kind?: string;
  /** Facts by the rules of its kind, own and copied by `like`. */
  readonly kindFacts: Readonly<Record<string, Fact<unknown>>>;
}

/** The position of a part in a state: `TS: inverter`. */
export interface PartInState {
  readonly part: string;
  readonly partSpan: Span;
  readonly position: string;
  readonly span: Span;
}

export interface PlanState extends PlanItem<StateFacts> {
  readonly positions: readonly PartInState[];
}

/** A name and where it stands in the whole text. */
export interface PlacedName {
  readonly name: string;
  readonly at: Span;
}

/** A name and a text: the rule set of a system, a line of a list. */
export interface PlanWord {
  readonly key: string;
  readonly base: number;
  readonly keySpan: Span;
  readonly text: string;
  readonly span: Span;
}

/**
 * A plan as it was written: names not yet bound, nothing filled in, nothing left out that could be read. Everything has its place in
 * the text.
 */
export interface Plan {
  readonly text: string;
  readonly name: string;
  readonly revision: string;
  readonly country: string;
  /** Rule set and edition by system. */
  readonly rules: readonly PlanWord[];
  readonly systems: readonly PlanItem<SystemFacts>[];
  readonly stock: StockFacts;
  readonly stockBase: number;
  readonly climate: ClimateFacts;
  readonly climateBase: number;
  readonly zones: readonly PlanItem<ZoneFacts>[];
  readonly places: readonly PlanItem<PlaceFacts>[];
  readonly ways: readonly PlanItem<WayFacts>[];
  readonly parts: readonly PlanPart[];
  readonly circuits: readonly PlanItem<CircuitFacts>[];
  readonly states: readonly PlanState[];
  /** Loads that never run together. */
  readonly neverTogether: readonly (readonly PlacedName[])[];
  readonly interlocks: readonly PlanItem<InterlockFacts>[];
  readonly waivers: readonly PlanItem<WaiverFacts>[];
  readonly measured: readonly PlanItem<MeasuredFacts>[];
}
