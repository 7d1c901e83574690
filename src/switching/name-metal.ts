import type { InternalElement } from "../system/index.ts";
import type { ProblemJoin, ProblemNode } from "./problem.ts";
import { rootOf, unite } from "./union-find.ts";
import type { SwitchedSystem } from "./switched-system.ts";

/** Wires and what is joined by them, as numbered pieces of metal. */
export interface NamedMetal {
  readonly nodeOf: (terminal: string) => number;
  readonly nodes: readonly ProblemNode[];
  /** Terminals of each piece. */
  readonly terminals: readonly (readonly string[])[];
  /** Where wires or bars join neutral and earth for good. */
  readonly joins: readonly ProblemJoin[];
  /** A conductor or something inside a part lands on the terminal. */
  readonly isWired: (terminal: string) => boolean;
}

const fnOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);
const NEUTRAL = 1;
const EARTH = 2;
const flagOf = (fn: string): number => (fn === "N" ? NEUTRAL : fn === "PE" ? EARTH : 0);

/**
 * Makes pieces of metal of all conductors and joins of a system, and keeps neutral and earth apart where a wire or a bar joins them: that place is a join of
 * its own, not one piece of metal.
 */
export function nameMetal(system: SwitchedSystem): NamedMetal {
  const numbers = new Map<string, number>();
  const names: string[] = [];
  const flags: number[] = [];
  const number = (terminal: string): number => {
    let n = numbers.get(terminal);
    if (n === undefined) {
      n = names.length;
      numbers.set(terminal, n);
      names.push(terminal);
      flags.push(flagOf(fnOf(terminal)));
    }
    return n;
  };
  const wired = new Set<string>();
  const links: { a: number; b: number; id: string; part: string; fn: number; plain: boolean }[] = [];
  const link = (id: string, part: string, from: string, to: string, fn: string): void => {
    wired.add(from).add(to);
    const plain = fnOf(from) === fnOf(to) && fnOf(from) !== "pole";
    links.push({ a: number(from), b: number(to), id, part, fn: flagOf(fn), plain });
  };
  for (const { conductors, id } of system.circuits) for (const c of conductors) link(c.id, id, c.from, c.to, c.fn);
  const through = ledThrough(system.elements);
  for (const e of system.elements) {
    const isThrough = e.is === "join" && through.has(e.id);
    if (e.is === "join" && !isThrough) link(e.id, e.part, e.a, e.b, "");
    for (const t of isThrough ? [e.a, e.b] : terminalsOf(e)) number(t);
    if (e.is === "contact" || isThrough) wired.add(e.a).add(e.b);
  }

  const parent = Int32Array.from(names, (_, i) => i);
  const flagAt = (n: number): number => flags[rootOf(parent, n)] ?? 0;
  const tie = (a: number, b: number, fn: number): boolean => {
    const mixed = flagAt(a) | flagAt(b) | fn;
    if (mixed === (NEUTRAL | EARTH) && rootOf(parent, a) !== rootOf(parent, b)) return false;
    unite(parent, a, b);
    flags[rootOf(parent, a)] = mixed;
    return true;
  };
  for (const l of links) if (l.plain) tie(l.a, l.b, 0);
  // What lands on a bar makes it neutral or earth; the first to land decides, and what lands otherwise is joined there.
  const crossing = links.filter((l) => !l.plain && !tie(l.a, l.b, l.fn));
  const pieces = new Map<number, number>();
  const terminals: string[][] = [];
  const pieceOf = Int32Array.from(names, (name, n) => {
    const root = rootOf(parent, n);
    const at = pieces.get(root) ?? terminals.push([]) - 1;
    pieces.set(root, at);
    terminals[at]?.push(name);
    return at;
  });
  const joins = new Map<string, ProblemJoin>();
  for (const { a, b, id, part } of crossing) {
    const [x, y] = [pieceOf[a] ?? 0, pieceOf[b] ?? 0];
    if (x === y) continue;
    const [neutral, earth] = flagAt(a) === EARTH ? [y, x] : [x, y];
    // All that lands on one bar meets there once.
    const bar = [names[a] ?? "", names[b] ?? ""].find((name) => fnOf(name) === "pole") ?? id;
    joins.set(`${bar} ${String(neutral)} ${String(earth)}`, { id, name: id, part, neutral, earth, closed: null });
  }
  const isNode = new Map([...numbers].map(([name, n]) => [name, pieceOf[n] ?? 0]));
  return {
    nodeOf: (terminal) => {
      const n = isNode.get(terminal);
      if (n === undefined) throw new RangeError(`no terminal ${terminal}`);
      return n;
    },
    nodes: terminals.map((list): ProblemNode => ({ name: list[0] ?? "", does: doesOf(list) })),
    terminals,
    joins: [...joins.values()],
    isWired: (terminal) => wired.has(terminal),
  };
}

/** Joins by which neutral goes through a device that compares it with its line: what lies ahead of one and behind it are told apart. */
export const ledThrough = (elements: readonly InternalElement[]): ReadonlySet<string> =>
  new Set(elements.flatMap((e) => (e.is === "residual guard" ? (e.through ?? []) : [])));

/** Every terminal that an element speaks of. */
function terminalsOf(e: InternalElement): readonly string[] {
  switch (e.is) {
    case "contact":
      return [e.a, e.b];
    case "store":
      return [e.plus, e.minus];
    case "converter":
      return [
        e.inPlus,
        e.inMinus,
        e.outPlus,
        e.outMinus,
        ...(e.outLines ?? []),
        ...(e.earth === undefined ? [] : [e.earth]),
      ];
    case "source":
      return [...Object.values(e.terminals), ...(e.fedBy ?? [])];
    case "earth join":
      return [e.neutral, e.earth];
    case "mover":
      return (e.rules ?? []).flatMap((r) => r.live ?? []);
    case "draw":
      return e.alternating === undefined
        ? []
        : [...e.alternating.lines, ...[e.alternating.neutral, e.alternating.earth].filter((t) => t !== undefined)];
    case "join":
    case "feed":
    case "residual guard":
      return [];
  }
}

function doesOf(terminals: readonly string[]): ProblemNode["does"] {
  const fns = new Set(terminals.map(fnOf));
  const has = (...list: readonly string[]): boolean => list.some((fn) => fns.has(fn));
  if (has("N")) return "neutral";
  if (has("L", "L1", "L2", "L3", "+")) return "line";
  return has("PE") ? "earth" : has("−") ? "neutral" : "any";
}
