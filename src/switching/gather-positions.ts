import {
  EVERYTHING,
  NOTHING,
  DiagramFull,
  makeDiagrams,
  type Combinations,
  type Diagrams,
} from "./decision-diagram.ts";
import { electricSets, type ElectricSets } from "./electric-sets.ts";
import { judgeMoments } from "./judge-moment.ts";
import type { Condition, Core } from "./lay-core.ts";
import type { Reached, ReachedGroup, ReachedTransient, TooLarge } from "./reached.ts";
import { moved, settle } from "./settle.ts";
import { combinationsOf } from "./walk-positions.ts";

/** Moves that are made at one time by themselves, and the moments in which they are. */
interface Event {
  readonly moves: readonly { readonly mover: number; readonly to: number }[];
  readonly when: Combinations;
}

/**
 * Finds the same as looking at every combination by itself, with sets of combinations: one layer for each number of actions, each layer a decision diagram.
 *
 * @param bounds nodes of the diagram, and groups, beyond which it gives up
 */
export function gatherPositions(
  core: Core,
  bounds: { readonly nodes: number; readonly groups: number },
): Reached | TooLarge {
  const d = makeDiagrams(
    core.movers.map((m) => m.values),
    core.movers.map((m) => m.real),
    bounds.nodes,
  );
  try {
    return gather(core, d, bounds.groups);
  } catch (error) {
    if (!(error instanceof DiagramFull)) throw error;
    return { tooLarge: "diagram nodes", limit: bounds.nodes, count: d.size() };
  }
}

function gather(core: Core, d: Diagrams, mostGroups: number): Reached | TooLarge {
  const { movers } = core;
  const sets = electricSets(core, d);
  const all = (conditions: readonly Condition[]): Combinations =>
    conditions.reduce((set, c) => d.both(set, sets.where(c)), EVERYTHING);
  const real = movers.map((m, i) => d.where(i, 2 ** m.real - 1)).reduce(d.both, EVERYTHING);
  const forbidden = core.interlocks.map(all);
  const lawful = forbidden.reduce(d.without, real);
  const events = ownEvents(core, d, sets, lawful);
  const restless = events.reduce((set, e) => d.either(set, e.when), NOTHING);
  const place = (set: Combinations, mover: number, to: number): Combinations =>
    d.both(d.whatever(set, mover), d.where(mover, 1 << to));
  const follows = (set: Combinations): Combinations =>
    events.reduce((to, { moves, when }) => {
      const from = d.both(set, when);
      return from === NOTHING
        ? to
        : d.either(
            to,
            moves.reduce((s, m) => place(s, m.mover, m.to), from),
          );
    }, NOTHING);

  const transients = watchTransients(core, d, sets);
  const rounds = combinationsOf(core, (itself) => itself) + 1;
  const settleAll = (set: Combinations, steps: number): Combinations => {
    let rested = d.without(set, restless);
    let moving = d.both(set, restless);
    // Longer than there are positions of what moves by itself, and it goes round for ever.
    for (let i = 0; i < 2 * rounds && moving !== NOTHING; i++) {
      transients.own(moving, events, steps);
      const now = follows(moving);
      rested = d.either(rested, d.without(now, restless));
      moving = d.both(now, restless);
      if (i >= rounds) rested = d.either(rested, moving);
    }
    return rested;
  };

  const start = movers.reduce((set, m, i) => d.both(set, d.where(i, 1 << m.start)), EVERYTHING);
  const layers: Combinations[] = [];
  let reached: Combinations = NOTHING;
  for (let layer = settleAll(d.both(start, lawful), 0); layer !== NOTHING;) {
    layers.push(layer);
    reached = d.either(reached, layer);
    let after: Combinations = NOTHING;
    for (let m = 0; m < movers.length; m++) {
      const mover = movers[m];
      if (mover === undefined || mover.itself) continue;
      for (let to = 0; to < mover.real; to++) {
        const leaving = d.without(layer, d.where(m, 1 << to));
        const acted = d.both(place(leaving, m, to), lawful);
        if (acted === NOTHING) continue;
        transients.acted(leaving, m, to, lawful, layers.length);
        after = d.either(after, settleAll(acted, layers.length));
      }
    }
    layer = d.without(after, reached);
  }

  let parts: Combinations[] = reached === NOTHING ? [] : [reached];
  for (const feature of [restless, ...sets.features()]) {
    const split: Combinations[] = [];
    for (const part of parts) {
      const inside = d.both(part, feature);
      if (inside !== NOTHING) split.push(inside);
      if (inside !== part) split.push(d.without(part, inside));
    }
    parts = split;
    if (parts.length > mostGroups) return { tooLarge: "groups", limit: mostGroups, count: parts.length };
  }
  const everyone = (): boolean => true;
  const groups = parts.flatMap((part): ReachedGroup[] => {
    const distance = layers.findIndex((layer) => d.both(layer, part) !== NOTHING);
    const example = d.first(d.both(layers[distance] ?? NOTHING, part));
    const rests = d.both(part, restless) === NOTHING;
    return example === null ? [] : [{ example, count: d.count(part, everyone), distance, rests }];
  });

  const byHand = (variable: number): boolean => movers[variable]?.itself === false;
  const forget = (set: Combinations): Combinations =>
    movers.reduce((s, m, i) => (m.itself ? d.both(d.whatever(s, i), d.where(i, 1)) : s), set);
  const ofHands = forget(real);
  const byHandOnly = core.interlocks.map((never) => never.every((c) => c.mover < 0 || byHand(c.mover)));
  const banned = forbidden.map((set, i) => (byHandOnly[i] === true ? d.both(set, ofHands) : NOTHING));
  const come = forget(reached);
  const enclosed = d.without(banned.reduce(d.without, ofHands), come);
  const example = d.first(enclosed);
  return {
    groups,
    transients: transients.all().map((t) => ({ ...t, prior: priorOf(core, d, layers, t) })),
    combinations: combinationsOf(core, (itself) => !itself),
    reachedCombinations: d.count(come, byHand),
    forbidden: banned.map((set) => d.count(set, byHand)),
    enclosed: example === null ? null : { count: d.count(enclosed, byHand), example },
    taken: movers.map((m, i) =>
      Array.from({ length: m.real }, (_, v) => d.both(reached, d.where(i, 1 << v)) !== NOTHING),
    ),
    wayTo: (to, distance) => traceBack(core, d, layers, to, distance),
  };
}

/** All that moves by itself, with the moments in which it does, in the way `nextMoves` says it for one. */
function ownEvents(core: Core, d: Diagrams, sets: ElectricSets, lawful: Combinations): Event[] {
  const waits = core.movers.flatMap((mover, m) => {
    if (!mover.itself) return [];
    const part = core.problem.movers[mover.mover]?.part;
    const own = core.sources.reduce((mask, s, i) => (s.part === part ? mask | (1 << i) : mask), 0);
    let rest: Combinations = EVERYTHING;
    return (core.rules[m] ?? []).map(({ to, after, live, when }) => {
      const asks = [...when.map(sets.where), ...live.map((n) => sets.fed(n, own))].reduce(d.both, EVERYTHING);
      const decides = d.both(rest, asks);
      rest = d.without(rest, asks);
      const elsewhere = d.without(decides, d.where(m, 1 << to));
      return { mover: m, to, after, when: d.both(elsewhere, d.given(lawful, m, to)) };
    });
  });
  const delays = [...new Set(waits.map((w) => w.after))].sort((a, b) => a - b);
  const events: Event[] = [];
  const byDelay = (at: number, set: Combinations): void => {
    if (set === NOTHING || at === delays.length) return;
    const together = waits.filter((w) => w.after === delays[at]);
    const choose = (i: number, left: Combinations, moves: Event["moves"]): void => {
      if (left === NOTHING) return;
      const next = together[i];
      if (next !== undefined) {
        choose(i + 1, d.both(left, next.when), [...moves, { mover: next.mover, to: next.to }]);
        choose(i + 1, d.without(left, next.when), moves);
        return;
      }
      const ends = moves.reduce((law, m) => d.given(law, m.mover, m.to), lawful);
      const may = moves.length === 0 ? NOTHING : d.both(left, ends);
      if (may !== NOTHING) events.push({ moves, when: may });
      byDelay(at + 1, d.without(left, may));
    };
    choose(0, set, []);
  };
  byDelay(0, lawful);
  return events;
}

type Moment = Omit<ReachedTransient, "prior">;

/** The state in which the action is done that leads to a moment. */
function priorOf(core: Core, d: Diagrams, layers: readonly Combinations[], moment: Moment): Uint8Array | null {
  const { itself, distance, before } = moment;
  if (!itself) return before;
  return distance === 0
    ? null
    : stateBefore(core, d, judgeMoments(core), layers[distance - 1] ?? NOTHING, before, true);
}

/** Looks out for moments in which a mover touches both sides and two sources meet. */
function watchTransients(core: Core, d: Diagrams, sets: ElectricSets) {
  const found = new Map<string, Moment>();
  const alternating = core.sources.flatMap((s, i) => (s.alternating ? [i] : []));
  const pairs = core.movers.some((m) => m.overlaps.length > 0)
    ? alternating.flatMap((a) =>
        alternating.flatMap((b) => {
          const when = a < b ? sets.parallel(a, b) : NOTHING;
          return when === NOTHING ? [] : [{ sources: [a, b] as const, when }];
        }),
      )
    : [];
  const meet = (leaving: Combinations, m: number, to: number, itself: boolean, steps: number): void => {
    for (const o of core.movers[m]?.overlaps ?? []) {
      const from = o.to === to ? o.from : o.from === to ? o.to : -1;
      if (from < 0) continue;
      for (const { sources, when } of pairs) {
        const key = [m, from, to, itself, ...sources].join();
        if (found.has(key)) continue;
        const hits = d.both(d.both(leaving, d.where(m, 1 << from)), d.given(when, m, o.value));
        const before = d.first(hits);
        if (before !== null) found.set(key, { mover: m, from, to, sources, itself, distance: steps, before });
      }
    }
  };
  return {
    own: (moving: Combinations, events: readonly Event[], steps: number): void => {
      for (const { moves, when } of events)
        for (const m of moves) meet(d.both(moving, when), m.mover, m.to, true, steps);
    },
    acted: (leaving: Combinations, m: number, to: number, lawful: Combinations, steps: number): void => {
      meet(d.both(leaving, d.given(lawful, m, to)), m, to, false, steps);
    },
    all: (): Moment[] => [...found.values()],
  };
}

/** The states on a shortest way, from everything off: one action lies between two of them. */
function traceBack(
  core: Core,
  d: Diagrams,
  layers: readonly Combinations[],
  to: Uint8Array,
  distance: number,
): Uint8Array[] {
  const judge = judgeMoments(core);
  const way = [to];
  for (let steps = distance - 1, at = to; steps >= 0; steps--) {
    const before = stateBefore(core, d, judge, layers[steps] ?? NOTHING, at);
    if (before === null) throw new RangeError("a state that was reached has none before it");
    way.unshift(before);
    at = before;
  }
  return way;
}

/** @param passing it may as well pass there, and come to rest elsewhere */
function stateBefore(
  core: Core,
  d: Diagrams,
  judge: ReturnType<typeof judgeMoments>,
  layer: Combinations,
  at: Uint8Array,
  passing = false,
): Uint8Array | null {
  for (const [m, mover] of core.movers.entries()) {
    if (mover.itself) continue;
    // One action apart: whatever else a hand moves stands as it will stand.
    let near = d.without(layer, d.where(m, 1 << (at[m] ?? 0)));
    for (const [other, { itself }] of core.movers.entries()) {
      if (other !== m && !itself) near = d.both(near, d.where(other, 1 << (at[other] ?? 0)));
    }
    for (let before = d.first(near); before !== null; before = d.first(near)) {
      const acted = moved(before, [{ mover: m, to: at[m] ?? 0 }]);
      const { path, rests } = settle(core, judge, acted);
      const all = path.map((p) => p.values);
      const ends = passing ? [acted, ...all] : rests ? [all.at(-1) ?? acted] : all;
      if (ends.some((end) => end.join() === at.join())) return before;
      near = d.without(
        near,
        [...before.keys()].reduce((s, v) => d.both(s, d.where(v, 1 << (before?.[v] ?? 0))), EVERYTHING),
      );
    }
  }
  return null;
}
