import type { Conductor, InternalElement, System } from "../system/index.ts";

/** A piece of metal between two terminals of one function, or a contact that is closed in some positions. */
export interface Hop {
  readonly a: string;
  readonly b: string;
  /** Of a conductor: its circuit, by place in the system's list; −1: it lies inside a part. */
  readonly circuit: number;
  readonly conductor: Conductor | null;
  /** Of a contact: its id, and the way of a panel that it stands in. */
  readonly contact: string | null;
  /** Of a join inside a part: its id. */
  readonly join: string | null;
  readonly way: string | null;
  readonly part: string | null;
  readonly needs: Needs | null;
}

interface Needs {
  readonly mover: string;
  readonly in: readonly string[];
}

/** As much of a system as earth faults are studied on. */
export type EarthSystem = Pick<System, "supplies" | "parts" | "circuits" | "elements" | "interlocks">;

/** What movers may stand at, by name; one that is not named may stand anywhere. */
export type Positions = Readonly<Record<string, readonly string[]>>;

/** A place that metal leads to, and the way there. */
export interface Reached {
  readonly ohms: number;
  readonly hop: Hop | null;
  readonly before: Reached | null;
  readonly positions: Positions;
}

/** The metal of the alternating-current side by what it is for: line, neutral, protective conductor. */
export interface AlternatingMetal {
  readonly hops: ReadonlyMap<string, readonly Hop[]>;
  /** Where neutral is joined to earth, with what that needs; null: nobody says when. */
  readonly joins: readonly EarthJoinFound[];
}

export interface EarthJoinFound {
  readonly id: string;
  readonly neutral: string;
  readonly earth: string;
  readonly needs: Needs | "unknown" | null;
}

type Group = "line" | "neutral" | "earth";

const fnOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);

/** What a terminal is for, by its function; null: direct current, or a point of no stated pole. */
export function groupOf(terminal: string): Group | null {
  const fn = fnOf(terminal);
  return fn === "PE" ? "earth" : fn === "N" ? "neutral" : /^L[123]?$/.test(fn) ? "line" : null;
}

const needsOf = ({ closedIn, mover, part }: Extract<InternalElement, { is: "contact" }>): Needs | null =>
  closedIn === undefined ? null : { mover: mover ?? part, in: closedIn };

/** Lays out joins, contacts and conductors of alternating current. */
export function layAlternating(system: Pick<System, "circuits" | "elements">): AlternatingMetal {
  const hops = new Map<string, Hop[]>();
  const joins: EarthJoinFound[] = [];
  const add = (hop: Hop): void => {
    for (const end of [hop.a, hop.b]) {
      const list = hops.get(end);
      if (list === undefined) hops.set(end, [hop]);
      else list.push(hop);
    }
  };
  const inside = { circuit: -1, conductor: null, contact: null, join: null, way: null, needs: null } as const;
  for (const element of system.elements) {
    if (element.is === "join") {
      if (groupOf(element.a) !== null)
        add({ ...inside, a: element.a, b: element.b, join: element.id, part: element.part });
    } else if (element.is === "contact") {
      const { a, b, id, way = null, part } = element;
      if (groupOf(a) !== null) add({ ...inside, a, b, contact: id, way, part, needs: needsOf(element) });
    } else if (element.is === "earth join") {
      const { id, neutral, earth, closedIn, mover, part } = element;
      const needs =
        closedIn === "unknown" ? closedIn : closedIn === undefined ? null : { mover: mover ?? part, in: closedIn };
      joins.push({ id, neutral, earth, needs });
    }
  }
  system.circuits.forEach(({ current, conductors }, circuit) => {
    if (current !== "AC") return;
    for (const conductor of conductors) {
      const { from: a, to: b } = conductor;
      const [from, to] = [groupOf(a), groupOf(b)];
      // A conductor from N to PE is where neutral meets earth.
      if (from !== to && (from === "neutral" || to === "neutral") && (from === "earth" || to === "earth"))
        joins.push({
          id: conductor.id,
          neutral: from === "neutral" ? a : b,
          earth: from === "earth" ? a : b,
          needs: null,
        });
      else if (from !== null && to !== null) add({ ...inside, a, b, circuit, conductor, part: null });
    }
  });
  return { hops, joins };
}

/** Positions in which both hold; null: none. */
export function bothHold(positions: Positions, needs: Needs | null): Positions | null {
  if (needs === null) return positions;
  const now = positions[needs.mover];
  if (now === undefined) return { ...positions, [needs.mover]: needs.in };
  const left = now.filter((p) => needs.in.includes(p));
  return left.length === 0 ? null : left.length === now.length ? positions : { ...positions, [needs.mover]: left };
}

/**
 * Finds the way of least resistance from a terminal to every other of the same metal, in positions that can be together.
 *
 * Positions are kept along each way, not over all of them: whether a source that moves by itself would stand so is not asked here. A place to which the way
 * of least resistance is barred by what it needs itself is found by `searchWays` alone.
 *
 * @param ohmsOf Ω of a hop
 */
export function searchMetal(
  metal: AlternatingMetal,
  starts: readonly string[],
  positions: Positions,
  ohmsOf: (hop: Hop) => number,
): ReadonlyMap<string, Reached> {
  const reached = new Map<string, Reached>(
    starts.map((start) => [start, { ohms: 0, hop: null, before: null, positions }]),
  );
  const queue = [...starts];
  for (let i = 0; i < queue.length; i++) {
    const at = queue[i] ?? "";
    const here = reached.get(at);
    if (here === undefined) continue;
    for (const hop of metal.hops.get(at) ?? []) {
      const next = hop.a === at ? hop.b : hop.a;
      const ohms = here.ohms + ohmsOf(hop);
      const known = reached.get(next);
      if (known !== undefined && known.ohms <= ohms) continue;
      const allowed = bothHold(here.positions, hop.needs);
      if (allowed === null) continue;
      reached.set(next, { ohms, hop, before: here, positions: allowed });
      queue.push(next);
    }
  }
  return reached;
}

/** Ways to one place that are followed; a build has a few, and past this only those that were found first count. */
const MOST_WAYS = 24;

/**
 * Finds every way from some terminals to every other of the same metal that passes no place twice, in positions that can be together. Ways that differ only
 * by what lies inside parts, contacts aside, are one.
 */
export function searchWays(
  metal: AlternatingMetal,
  starts: readonly string[],
  positions: Positions,
  ohmsOf: (hop: Hop) => number,
): ReadonlyMap<string, readonly Reached[]> {
  interface Step extends Reached {
    readonly at: string;
    readonly from: Step | null;
    readonly through: string;
  }
  const found = new Map<string, Step[]>();
  const queue: Step[] = [];
  const arrive = (step: Step): void => {
    const list = found.get(step.at);
    if (list === undefined) found.set(step.at, [step]);
    else if (list.length >= MOST_WAYS || list.some((one) => one.through === step.through)) return;
    else list.push(step);
    queue.push(step);
  };
  for (const at of starts) arrive({ at, ohms: 0, hop: null, before: null, from: null, positions, through: "" });
  for (let i = 0; i < queue.length; i++) {
    const here = queue[i];
    for (const hop of here === undefined ? [] : (metal.hops.get(here.at) ?? [])) {
      if (here === undefined || hop === here.hop) continue;
      const at = hop.a === here.at ? hop.b : hop.a;
      if (passes(here, at)) continue;
      const allowed = bothHold(here.positions, hop.needs);
      if (allowed === null) continue;
      const id = hop.conductor?.id ?? hop.contact;
      const through = id === null ? here.through : `${here.through}\n${id}`;
      arrive({ at, ohms: here.ohms + ohmsOf(hop), hop, before: here, from: here, positions: allowed, through });
    }
  }
  return found;

  function passes(step: Step, at: string): boolean {
    for (let one: Step | null = step; one !== null; one = one.from) if (one.at === at) return true;
    return false;
  }
}

/** The hops from where a search began to a terminal, the first one first. */
export function wayTo(reached: ReadonlyMap<string, Reached>, terminal: string): readonly Hop[] {
  return hopsOf(reached.get(terminal) ?? null);
}

/** The hops of a way, the first one first. */
export function hopsOf(reached: Reached | null): readonly Hop[] {
  const hops: Hop[] = [];
  for (let at = reached; at !== null; at = at.before) if (at.hop !== null) hops.push(at.hop);
  return hops.reverse();
}

/**
 * The least resistance to earth of an electrode that a conductor joins to protective conductors.
 *
 * Ignores electrodes side by side, which have less together.
 *
 * @returns Ω, of a range its greatest; null: none is joined to them, or nobody says it
 */
export function electrodeOhms(
  { parts, circuits }: Pick<EarthSystem, "parts" | "circuits">,
  earth: ReadonlyMap<string, Reached>,
): number | null {
  const found = parts.flatMap(({ id, electrodeOhms: ohms }) => {
    if (ohms === undefined || ohms === "unknown" || ohms.origin === "unknown" || !(ohms.high > 0)) return [];
    const isIts = (terminal: string): boolean => terminal.startsWith(`${id}:`);
    const isJoined = circuits.some(({ conductors }) =>
      conductors.some(({ from, to }) => (isIts(to) && earth.has(from)) || (isIts(from) && earth.has(to))),
    );
    return isJoined ? [ohms.high] : [];
  });
  return found.length === 0 ? null : Math.min(...found);
}
