import type { Converter, InternalElement, Mover, Source, System } from "../../../src/system/index.ts";

// What is walked through: pieces of metal that are one for ever, what moves, what gives.

/** Whatever gives alternating current. */
export interface Giver {
  readonly id: string;
  readonly part: string;
  readonly lines: readonly number[];
  readonly neutral: number;
  readonly earth: number;
  readonly mover: number;
  readonly in: readonly string[] | undefined;
  readonly source: Source | undefined;
  readonly converter: Converter | undefined;
}

export interface Wheel {
  readonly id: string;
  readonly positions: readonly string[];
  readonly by: Mover["by"];
  readonly start: number;
  readonly from: Mover | undefined;
}

export function rootOf(up: Int32Array, n: number): number {
  let at = n;
  for (let next = up[at] ?? at; next !== at; next = up[at] ?? at) at = next;
  return at;
}

/** The number of the piece of metal that a terminal is of for ever: what conductors and joins make one is one. */
export function piecesOf(system: System): ((terminal: string) => number) & { count: () => number } {
  const up = new Map<string, string>();
  const root = (terminal: string): string => {
    let at = terminal;
    for (let next = up.get(at); next !== undefined; next = up.get(at)) at = next;
    return at;
  };
  const unite = (a: string, b: string): void => {
    const [ra, rb] = [root(a), root(b)];
    if (ra !== rb) up.set(ra, rb);
  };
  for (const { conductors } of system.circuits) for (const c of conductors) unite(c.from, c.to);
  for (const e of system.elements)
    if (e.is === "join" || (e.is === "contact" && e.closedIn === undefined)) unite(e.a, e.b);
  const numbers = new Map<string, number>();
  const node = (terminal: string): number => {
    const piece = root(terminal);
    const at = numbers.get(piece) ?? numbers.size;
    numbers.set(piece, at);
    return at;
  };
  for (const e of system.elements) {
    if (e.is === "contact") for (const t of [e.a, e.b]) node(t);
    if (e.is === "converter") for (const t of [e.inPlus, e.outPlus]) node(t);
    if (e.is === "mover") for (const t of (e.rules ?? []).flatMap(({ live = [] }) => live)) node(t);
    if (e.is === "source") for (const t of e.fedBy ?? []) node(t);
  }
  return Object.assign(node, { count: () => numbers.size });
}

/** What moves, with where it stands while everything is off. */
export function wheelsOf({ elements, parts }: System): Wheel[] {
  const movers = elements.flatMap((e) => (e.is === "mover" ? [e] : []));
  const told = new Set(movers.map((m) => m.id));
  const moved = new Set(
    elements.flatMap((e) => (e.is === "contact" && e.closedIn !== undefined ? [e.mover ?? e.part] : [])),
  );
  const handled = parts.filter((p) => p.positions.length > 0 && !told.has(p.id) && moved.has(p.id));
  const dead = (positions: readonly string[]): number => Math.max(0, positions.indexOf("off"));
  return [
    ...movers.map((m): Wheel => ({ id: m.id, positions: m.positions, by: m.by, start: dead(m.positions), from: m })),
    ...handled.map((p): Wheel => ({
      id: p.id,
      positions: p.positions,
      by: "hand",
      start: dead(p.positions),
      from: undefined,
    })),
  ];
}

export function giversOf(
  elements: readonly InternalElement[],
  node: (terminal: string) => number,
  wheelAt: ReadonlyMap<string, number>,
): Giver[] {
  return elements.flatMap((e): Giver[] => {
    if (e.is === "source") {
      const { L, N, PE } = e.terminals;
      return [
        {
          id: e.id,
          part: e.part,
          lines: L === undefined ? [] : [node(L)],
          neutral: N === undefined ? -1 : node(N),
          earth: PE === undefined ? -1 : node(PE),
          mover: e.mover === undefined ? -1 : (wheelAt.get(e.mover) ?? -1),
          in: e.givesIn,
          source: e,
          converter: undefined,
        },
      ];
    }
    if (e.is !== "converter" || e.outCurrent !== "AC") return [];
    return [
      {
        id: e.id,
        part: e.part,
        lines: [node(e.outPlus)],
        neutral: node(e.outMinus),
        earth: e.earth === undefined ? -1 : node(e.earth),
        mover: e.mover === undefined ? -1 : (wheelAt.get(e.mover) ?? -1),
        in: e.worksIn,
        source: undefined,
        converter: e,
      },
    ];
  });
}
