import type { Contact, GivenState, InternalElement, Mover, Source, System } from "../system/index.ts";

export type Positions = Readonly<Record<string, string>>;

/** The movers of a system. */
const moversOf = (system: System): Mover[] => system.elements.filter((e): e is Mover => e.is === "mover");

/** Parts that a state puts somewhere. */
const positionOf = (state: Pick<GivenState, "positions">, part: string): string | undefined =>
  Object.hasOwn(state.positions, part) ? state.positions[part] : undefined;

/**
 * Where every mover stands in a state of the plan: as it says; plugs and engines by `shore`, and by what is on; devices and switches of which it says nothing closed; what moves
 * by itself where its rules lead it.
 *
 * Direct current is taken as live, so an inverter that nothing holds off may invert.
 *
 * @param named movers that stand where it says, whatever their rules
 */
export function standingIn(
  system: System,
  state: Pick<GivenState, "shore" | "on" | "positions">,
  named: Positions = {},
): Positions {
  const hasInlet = system.elements.some((e) => e.is === "source" && e.from === "shore");
  const from = new Map(system.elements.flatMap((e) => (e.is === "source" ? [[e.part, e.from] as const] : [])));
  const first = new Map(system.parts.map((p) => [p.id, p.positions[0]]));
  const standing = Object.create(null) as Record<string, string>; // an object without a prototype has no type of its own
  for (const { id, part, positions, by } of moversOf(system)) {
    const said = Object.hasOwn(named, id) ? named[id] : id === part ? positionOf(state, part) : undefined;
    const kind = from.get(part);
    const runs = state.on.includes(part) || (state.shore && !hasInlet);
    // A breaker in a line belongs to the part that it stands at, and moves by itself for all that.
    const has = (p: string): boolean => positions.includes(p);
    const usual =
      by === "itself"
        ? positions.at(-1)
        : kind === "shore" && has("in") && has("out")
          ? state.shore
            ? "in"
            : "out"
          : kind === "generator" && has("running") && has("off")
            ? runs
              ? "running"
              : "off"
            : (["on", "closed"].find(has) ?? first.get(part) ?? positions[0]);
    const at = said !== undefined && has(said) ? said : usual;
    if (at !== undefined) standing[id] = at;
  }
  return settled(system, standing, named);
}

/** Whether what moves with a mover is closed, or works. */
export function isIn(
  { part, mover, positions: standing }: { part: string; mover: string | undefined; positions: Positions },
  closedIn: readonly string[] | undefined,
): boolean {
  if (closedIn === undefined) return true;
  const id = mover ?? part;
  const at = Object.hasOwn(standing, id) ? standing[id] : undefined;
  return at !== undefined && closedIn.includes(at);
}

/** A contact of a part that no mover moves stands as the part does. */
export function isClosed(
  system: System,
  contact: Contact,
  state: Pick<GivenState, "positions">,
  standing: Positions,
): boolean {
  const { part, mover, closedIn } = contact;
  if (mover !== undefined || Object.hasOwn(standing, part)) return isIn({ part, mover, positions: standing }, closedIn);
  const at = positionOf(state, part) ?? system.parts.find((p) => p.id === part)?.positions[0];
  return closedIn === undefined || at === undefined || closedIn.includes(at);
}

/** Lets what moves by itself go where its rules lead it, until it rests or has gone round. */
function settled(system: System, standing: Record<string, string>, named: Positions): Positions {
  const byItself = moversOf(system).filter(
    ({ id, by, rules }) => by === "itself" && rules !== undefined && !Object.hasOwn(named, id),
  );
  for (let round = 0; round < 2 * byItself.length + 2; round++) {
    let moved = false;
    for (const { id, part, rules } of byItself) {
      const live = liveTerminals(system, standing, part);
      const rule = rules?.find(
        (r) =>
          (r.live ?? []).every((t) => live(t)) &&
          (r.when ?? []).every(({ mover, in: allowed }) => isIn({ part: mover, mover, positions: standing }, allowed)),
      );
      if (rule === undefined || standing[id] === rule.to) continue;
      standing[id] = rule.to;
      moved = true;
    }
    if (!moved) break;
  }
  return standing;
}

/** Whether what a source takes from is live: the near side of a transformer. */
export function isFed(system: System, standing: Positions, { part, fedBy }: Source): boolean {
  if (fedBy === undefined) return true;
  const live = liveTerminals(system, standing, part);
  return fedBy.every((t) => live(t));
}

type Ties = Map<string, string[]>;

/** Ties the two ends of a piece of metal together. */
function tie(ties: Ties, a: string, b: string): void {
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    const list = ties.get(from);
    if (list === undefined) ties.set(from, [to]);
    else list.push(to);
  }
}

/** What of a system stays as it is wherever its movers stand. */
interface Fixed {
  /** Conductors and joins. */
  readonly ties: Ties;
  readonly contacts: readonly Contact[];
  readonly others: readonly InternalElement[];
}

const fixed = new WeakMap<System, Fixed>();

function fixedOf(system: System): Fixed {
  let found = fixed.get(system);
  if (found === undefined) {
    const ties: Ties = new Map<string, string[]>();
    for (const c of system.circuits) {
      if (c.current === "AC") for (const { from, to, role } of c.conductors) if (role === "live") tie(ties, from, to);
    }
    const contacts: Contact[] = [];
    const others: InternalElement[] = [];
    for (const e of system.elements) {
      if (e.is === "join") tie(ties, e.a, e.b);
      else if (e.is === "contact") contacts.push(e);
      else others.push(e);
    }
    fixed.set(system, (found = { ties, contacts, others }));
  }
  return found;
}

/** Whether a source of another part reaches a terminal; what touches no alternating current counts as live. */
function liveTerminals(system: System, standing: Positions, without: string): (terminal: string) => boolean {
  const { ties, contacts, others } = fixedOf(system);
  const closed: Ties = new Map<string, string[]>();
  for (const e of contacts) if (isClosed(system, e, { positions: standing }, standing)) tie(closed, e.a, e.b);
  const seen = new Set<string>();
  for (const e of others) if (e.part !== without) for (const line of linesGiving(e, standing)) seen.add(line);
  for (const at of seen) {
    for (const to of ties.get(at) ?? []) seen.add(to);
    for (const to of closed.get(at) ?? []) seen.add(to);
  }
  return (terminal) => seen.has(terminal) || /:[+−]$/.test(terminal);
}

/** Lines of a source of alternating current that gives, whatever it is fed by. */
function linesGiving(e: InternalElement, standing: Positions): readonly string[] {
  if (e.is === "source") {
    if (!isIn({ part: e.part, mover: e.mover, positions: standing }, e.givesIn)) return [];
    return Object.entries(e.terminals).flatMap(([fn, t]) => (fn === "N" || fn === "PE" ? [] : [t]));
  }
  if (e.is !== "converter" || e.outCurrent !== "AC") return [];
  return isIn({ part: e.part, mover: e.mover, positions: standing }, e.worksIn) ? (e.outLines ?? [e.outPlus]) : [];
}
