import { earthingRules, type EarthingRules } from "../ruleset/earthing-rules.ts";
import type { ResidualGuard, SystemCircuit } from "../system/index.ts";
import { ruleSetOf } from "./rule-set-of.ts";
import { findAlternatingDevices, type DeviceFinder } from "./study-earth-faults-devices.ts";
import {
  conductorImpedance,
  insideParts,
  perMetre,
  type AlternatingSizes,
  type HopImpedance,
} from "./study-earth-faults-metal.ts";
import { alternatingFeeds, type AlternatingFeed } from "./study-earth-faults-sources.ts";
import {
  bothHold,
  layAlternating,
  searchMetal,
  wayTo,
  type AlternatingMetal,
  type EarthJoinFound,
  type EarthSystem,
  type Hop,
  type Reached,
} from "./study-earth-faults-ways.ts";

/** Reactance grows with it and hardly counts: the higher of the two in use is on the safe side. */
const HERTZ = 60;

/** What gives the sizes of circuits of alternating current. */
export type SizesOf = (circuit: SystemCircuit, index: number) => AlternatingSizes | null;

/** A source with every place that it reaches. */
export interface Feeding {
  readonly feed: AlternatingFeed;
  readonly line: ReadonlyMap<string, Reached>;
  readonly neutral: ReadonlyMap<string, Reached>;
  /** Where neutral meets earth, with the protective conductors from there. */
  readonly joins: readonly JoinReached[];
}

/** A place where neutral meets earth, as a source reaches it. */
export interface JoinReached {
  /** Null: the source itself. */
  readonly join: EarthJoinFound | null;
  readonly isCertain: boolean;
  readonly earth: ReadonlyMap<string, Reached>;
  readonly neutralWay: readonly Hop[];
}

/** What a study of one system works with. */
export interface EarthStudying {
  readonly system: EarthSystem;
  readonly sizes: readonly (AlternatingSizes | null)[];
  readonly rules: readonly (EarthingRules | null)[];
  readonly guards: readonly ResidualGuard[];
  readonly finder: DeviceFinder;
  /** Terminals of chargers: what comes in there is not led on. */
  readonly inputs: ReadonlySet<string>;
  readonly feeding: readonly Feeding[];
  readonly impedance: (hop: Hop) => HopImpedance;
}

/** Lays a system out, with every source and all that it reaches. */
export function prepare(system: EarthSystem, sizesOf: SizesOf): EarthStudying {
  const supplies = new Map(system.supplies.map((s) => [s.id, s]));
  const sets = system.circuits.map((c) => ruleSetOf(supplies.get(c.supply ?? "")));
  const sizes = system.circuits.map((c, i) => (c.current === "AC" ? sizesOf(c, i) : null));
  const worked = new Map<Hop, HopImpedance>();
  const ohmsOf = perMetre();
  const impedance = (hop: Hop): HopImpedance => {
    if (hop.conductor === null) return insideParts;
    let found = worked.get(hop);
    if (found === undefined) {
      const circuit = system.circuits[hop.circuit];
      found =
        circuit === undefined
          ? insideParts
          : conductorImpedance(circuit, hop.conductor, sizes[hop.circuit] ?? null, HERTZ, ohmsOf);
      worked.set(hop, found);
    }
    return found;
  };
  const metal = layAlternating(system);
  const inputs = new Set(
    system.elements.flatMap((e) => (e.is === "converter" && e.inCurrent === "AC" ? [e.inPlus] : [])),
  );
  for (const e of system.elements) if (e.is === "contact") for (const end of [e.a, e.b]) inputs.delete(end);
  const at = new Map(system.circuits.map((c, i) => [c, i]));
  return {
    system,
    sizes,
    inputs,
    rules: sets.map((set) => (set === null ? null : earthingRules(set))),
    guards: system.elements.filter((e) => e.is === "residual guard" && e.contacts.length > 0) as ResidualGuard[], // the first half of the test says so
    finder: findAlternatingDevices(system, (c) => sets[at.get(c) ?? -1]?.id ?? null),
    feeding: alternatingFeeds(system).map((feed) => feedingOf(feed, metal, impedance)),
    impedance,
  };
}

function feedingOf(feed: AlternatingFeed, metal: AlternatingMetal, impedance: (hop: Hop) => HopImpedance): Feeding {
  // A conductor of unknown size still is one: by its hops the way that a person means is found.
  const ohmsOf = (hop: Hop): number => impedance(hop).range.hot.r + 1e-6;
  const { positions, neutral: n, joined } = feed;
  const line = searchMetal(metal, feed.lines, positions, ohmsOf);
  const neutral = searchMetal(metal, n === null ? [] : [n], positions, ohmsOf);
  const from = (earth: string) => searchMetal(metal, [earth], positions, ohmsOf);
  const own: JoinReached[] =
    joined === false || feed.earth === null
      ? []
      : [{ join: null, isCertain: joined === true, earth: from(feed.earth), neutralWay: [] }];
  const others = metal.joins.flatMap((join): JoinReached[] => {
    const needs = join.needs === "unknown" ? null : join.needs;
    const there = neutral.get(join.neutral);
    if (there === undefined || bothHold(there.positions, needs) === null) return [];
    const isCertain = join.needs !== "unknown";
    return [{ join, isCertain, earth: from(join.earth), neutralWay: wayTo(neutral, join.neutral) }];
  });
  // Certain ones first: what is known to be closed is the way back.
  const joins = [...own, ...others].sort((a, b) => Number(b.isCertain) - Number(a.isCertain));
  return { feed, line, neutral, joins };
}
