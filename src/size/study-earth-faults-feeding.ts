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
import { statesOf, type CanBe } from "./study-earth-faults-states.ts";
import {
  bothHold,
  layAlternating,
  searchMetal,
  searchWays,
  wayTo,
  type AlternatingMetal,
  type EarthJoinFound,
  type EarthSystem,
  type Hop,
  type Positions,
  type Reached,
} from "./study-earth-faults-ways.ts";

/** Where the plan states none: reactance grows with it and hardly counts, so the higher of the two in use is on the safe side. */
const USUAL_HERTZ = 60;

/** What gives the sizes of circuits of alternating current. */
export type SizesOf = (circuit: SystemCircuit, index: number) => AlternatingSizes | null;

/** A source with every place that it reaches. */
export interface Feeding {
  readonly feed: AlternatingFeed;
  readonly line: ReadonlyMap<string, Reached>;
  readonly neutral: ReadonlyMap<string, Reached>;
  /** Where neutral meets earth, with the protective conductors from there. */
  readonly joins: readonly JoinReached[];
  /** Every way to a terminal that can be live; one at least where `line` has it. */
  readonly waysTo: (terminal: string) => readonly LineWay[];
}

/** One way of a line, with the joins that the source reaches while it stands. */
export interface LineWay {
  readonly there: Reached;
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
  const hertzOf = (c: SystemCircuit): number => supplies.get(c.supply ?? "")?.hertz ?? USUAL_HERTZ;
  const impedance = (hop: Hop): HopImpedance => {
    if (hop.conductor === null) return insideParts;
    let found = worked.get(hop);
    if (found === undefined) {
      const circuit = system.circuits[hop.circuit];
      found =
        circuit === undefined
          ? insideParts
          : conductorImpedance(circuit, hop.conductor, sizes[hop.circuit] ?? null, hertzOf(circuit), ohmsOf);
      worked.set(hop, found);
    }
    return found;
  };
  const metal = layAlternating(system);
  const canBe = statesOf(system);
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
    feeding: alternatingFeeds(system).map((feed) => feedingOf(feed, metal, impedance, canBe)),
    impedance,
  };
}

function feedingOf(
  feed: AlternatingFeed,
  metal: AlternatingMetal,
  impedance: (hop: Hop) => HopImpedance,
  canBe: CanBe,
): Feeding {
  // A conductor of unknown size still is one: by its hops the way that a person means is found.
  const ohmsOf = (hop: Hop): number => impedance(hop).range.hot.r + 1e-6;
  const { positions, neutral: n, joined } = feed;
  const ways = searchWays(metal, feed.lines, positions, ohmsOf);
  const shortest = searchMetal(metal, feed.lines, positions, ohmsOf);
  const line = new Map([...ways].map(([at, list]) => [at, shortest.get(at) ?? least(list)]));
  const earths = new Map<string, ReadonlyMap<string, Reached>>();
  // No contact stands in a protective conductor, so that what may stand where does not matter to it.
  const from = (earth: string): ReadonlyMap<string, Reached> => {
    let found = earths.get(earth);
    if (found === undefined) earths.set(earth, (found = searchMetal(metal, [earth], positions, ohmsOf)));
    return found;
  };
  const own: JoinReached[] =
    joined === false || feed.earth === null
      ? []
      : [{ join: null, isCertain: joined === true, earth: from(feed.earth), neutralWay: [] }];
  const joinsBy = (neutral: ReadonlyMap<string, Reached>): JoinReached[] => {
    const others = metal.joins.flatMap((join): JoinReached[] => {
      const needs = join.needs === "unknown" ? null : join.needs;
      const there = neutral.get(join.neutral);
      if (there === undefined || bothHold(there.positions, needs) === null) return [];
      const isCertain = join.needs !== "unknown";
      return [{ join, isCertain, earth: from(join.earth), neutralWay: wayTo(neutral, join.neutral) }];
    });
    // Certain ones first: what is known to be closed is the way back.
    return [...own, ...others].sort((a, b) => Number(b.isCertain) - Number(a.isCertain));
  };
  const neutralIn = (stand: Positions): ReadonlyMap<string, Reached> =>
    searchMetal(metal, n === null ? [] : [n], stand, ohmsOf);
  const neutral = neutralIn(positions);
  const joins = joinsBy(neutral);
  return {
    feed,
    line,
    neutral,
    joins,
    waysTo: (terminal) => {
      const all = ways.get(terminal) ?? [];
      const only = line.get(terminal);
      if (only === undefined) return [];
      const can = all.length < 2 ? [] : all.filter((way) => canBe(feed.id, way.positions));
      if (can.length < 2) return [{ there: can[0] ?? only, joins }];
      return can.map((there) => ({ there, joins: joinsBy(neutralIn(there.positions)) }));
    },
  };
}

function least(ways: readonly Reached[]): Reached {
  const [first, ...rest] = ways;
  if (first === undefined) throw new RangeError("a place that is reached has a way to it");
  return rest.reduce((a, b) => (b.ohms < a.ohms ? b : a), first);
}
