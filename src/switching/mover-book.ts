import type { PositionSet, ProblemMover } from "./problem.ts";
import type { SwitchedSystem } from "./switched-system.ts";

/** Movers of a system, numbered as something asks for them. */
export interface MoverBook {
  /** Positions of a mover by name. */
  readonly set: (id: string, positions: readonly string[]) => PositionSet;
  /** One that the system does not have. */
  readonly implied: (
    id: string,
    part: string,
    all: readonly string[],
    by: "hand" | "outside",
    positions: readonly string[],
  ) => PositionSet;
  readonly movers: () => readonly ProblemMover[];
}

/** How a mover stands when all is off, as the words say it. */
const OFF = ["off", "out", "unplugged", "stopped", "resting", "open"];

export function startOf(positions: readonly string[]): number {
  const at = positions.findIndex((p) => OFF.includes(p));
  return at < 0 ? 0 : at;
}

/**
 * Finds movers by name. A part with positions and no mover of its own is moved by hand; one that a coil holds may move at any time, as may one that is said to
 * move by itself and by no rule.
 */
export function moverBook(system: SwitchedSystem, nodeOf: (terminal: string) => number): MoverBook {
  const elements = new Map(system.elements.flatMap((e) => (e.is === "mover" ? [[e.id, e] as const] : [])));
  const parts = new Map(system.parts.map((p) => [p.id, p]));
  const places = new Map<string, number>();
  const list: ProblemMover[] = [];

  const place = (id: string, named: readonly string[]): number => {
    const known = places.get(id);
    if (known !== undefined) return known;
    const n = list.length;
    places.set(id, n);
    const element = elements.get(id);
    const part = parts.get(element?.part ?? id);
    const written = element?.positions ?? part?.positions ?? [];
    // Without a list of its own it has at least one in which it is open.
    const positions = written.length > 0 ? written : ["off", ...named];
    const rules = element?.rules ?? [];
    const by = element?.by ?? (part?.traits.coil === true ? "outside" : "hand");
    const mover: ProblemMover = {
      id,
      name: part === undefined ? id : id === part.id ? part.name : `${part.name}${id.slice(part.id.length)}`,
      part: element?.part ?? id,
      by: by === "itself" && rules.length === 0 ? "outside" : by,
      positions,
      start: startOf(positions),
      rules: [],
      ...(element?.breaksFirst === undefined ? {} : { breaksFirst: element.breaksFirst }),
      ...(element?.unclear === undefined ? {} : { unclear: element.unclear }),
    };
    list.push(mover);
    // A rule may ask for this mover again, or for one that asks for it.
    list[n] = {
      ...mover,
      rules: rules.map((r) => ({
        to: indexIn(positions, r.to),
        live: (r.live ?? []).map(nodeOf),
        when: (r.when ?? []).map((w) => set(w.mover, w.in)),
        after: r.after?.low ?? 0,
      })),
    };
    return n;
  };
  const set = (id: string, positions: readonly string[]): PositionSet => {
    const mover = place(id, positions);
    const all = list[mover]?.positions ?? [];
    return { mover, in: positions.flatMap((p) => (all.includes(p) ? [all.indexOf(p)] : [])) };
  };
  return {
    set,
    implied: (id, part, all, by, positions) => {
      let mover = places.get(id) ?? -1;
      if (mover < 0) {
        mover = list.length;
        places.set(id, mover);
        const name = parts.get(part)?.name ?? part;
        const called = id.startsWith(`${part}:`) ? `${name}${id.slice(part.length)}` : name;
        list.push({ id, name: called, part, by, positions: all, start: 0, rules: [] });
      }
      return { mover, in: positions.map((p) => all.indexOf(p)) };
    },
    movers: () => list,
  };
}

function indexIn(positions: readonly string[], position: string): number {
  const at = positions.indexOf(position);
  if (at < 0) throw new RangeError(`a rule leads to the position ${position}, which its mover has not`);
  return at;
}
