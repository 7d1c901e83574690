import type { Build, PartView } from "../build.ts";
import { nameSome } from "./name-some.ts";
import { disjointSets, piecesOf } from "./pieces.ts";

/** Units that work as one: batteries side by side, in strings, or both. */
export interface Bank {
  /** Index in the grid's stores, in the order of the plan. */
  readonly units: readonly number[];
  readonly parts: readonly PartView[];
  /** The unit that findings of the bank are about: its first. */
  readonly first: PartView;
  /** Those whose plus is the bank's, which its current divides among. */
  readonly top: readonly number[];
  /** By unit: how many carry its share of the bank's current side by side with it, itself counted. */
  readonly abreast: readonly number[];
  /** Pieces of metal, in `pieces`: ends of the bank, and where the units of its strings meet. */
  readonly plus: number;
  readonly minus: number;
  readonly inner: ReadonlySet<number>;
  /** By node of the grid, as the bank stands joined. */
  readonly pieces: Int32Array;
}

/** Two banks that work apart in one state and are joined in another. */
export interface Meeting {
  readonly banks: readonly [Bank, Bank];
  readonly state: string;
}

export interface Banks {
  readonly list: readonly Bank[];
  readonly meetings: readonly Meeting[];
  /** Of a store of the grid. */
  readonly of: (store: number) => Bank | undefined;
}

/** A bank in words: `B1`, `the bank of B1 and B2`. */
export const nameOf = ({ first, parts }: Bank): string =>
  parts.length === 1 ? first.subject.name : `the bank of ${nameSome(parts.map((p) => p.id))}`;

const found = new WeakMap<Build, Banks>();

/**
 * The banks of a build. Units are of one bank where metal and closed contacts join them plus to plus and minus to minus, or minus to plus as a
 * string, in any state; but not if there is a state in which both work and are not joined: then each is of a bank of its own, and the two meet.
 */
export function banksOf(build: Build): Banks {
  let banks = found.get(build);
  if (banks === undefined) found.set(build, (banks = findBanks(build)));
  return banks;
}

/** The least share of an ampere that counts as work, A. */
const WORKS = 1e-3;

function findBanks(build: Build): Banks {
  const { settled, design } = build;
  const { grid } = settled.model;
  const given = settled.cases.filter((c) => c.kind === "given");
  const byContacts = new Map<string, Int32Array>();
  const piecesIn = given.map(({ edgeOn }) => {
    const key = edgeOn.join("");
    let pieces = byContacts.get(key);
    if (pieces === undefined) byContacts.set(key, (pieces = piecesOf(settled, (e) => edgeOn[e] !== 0)));
    return pieces;
  });
  const groupsIn = piecesIn.map((pieces) => groupStores(grid.stores, pieces));
  const works = given.map((_, j) => {
    const amps = new Map(design.states[j]?.sources.map((s) => [s.part, s.amps]));
    return grid.stores.map(({ element }) => Math.abs(amps.get(element.part) ?? 0) > WORKS);
  });
  const joined = (a: number, b: number): number => groupsIn.findIndex((g) => g[a] === g[b]);
  const isApart = (a: number, b: number): boolean =>
    groupsIn.some((g, j) => g[a] !== g[b] && works[j]?.[a] === true && works[j]?.[b] === true);

  const sets = disjointSets(grid.stores.length);
  const meets: { a: number; b: number; state: number }[] = [];
  const [only] = groupsIn;
  if (new Set(groupsIn.map(String)).size === 1)
    only?.forEach((g, i) => {
      sets.unite(g, i);
    });
  else {
    for (let a = 0; a < grid.stores.length; a++) {
      for (let b = a + 1; b < grid.stores.length; b++) {
        const state = joined(a, b);
        if (state < 0) continue;
        if (isApart(a, b)) meets.push({ a, b, state });
        else sets.unite(a, b);
      }
    }
  }
  const bankOf = grid.stores.map((_, i) => sets.root(i));
  const byBank = new Map<number, Bank>();
  for (const id of new Set(bankOf)) {
    const units = grid.stores.flatMap((_, i) => (bankOf[i] === id ? [i] : []));
    const pieces = piecesIn[groupsIn.findIndex((g) => units.every((i) => g[i] === g[id]))] ?? piecesIn[0];
    const bank = pieces === undefined ? null : describe(build, units, pieces);
    if (bank !== null) byBank.set(id, bank);
  }
  const of = (store: number): Bank | undefined => byBank.get(bankOf[store] ?? -1);
  const meetings = new Map<string, Meeting>();
  for (const { a, b, state } of meets) {
    const [one, other] = [of(a), of(b)];
    const key = `${bankOf[a]} ${bankOf[b]}`;
    if (one === undefined || other === undefined || one === other || meetings.has(key)) continue;
    meetings.set(key, { banks: [one, other], state: given[state]?.name ?? "" });
  }
  return { list: [...byBank.values()], meetings: [...meetings.values()], of };
}

type Ports = readonly { readonly plus: number; readonly minus: number }[];

/** By store a number that those of one group share. */
function groupStores(stores: Ports, pieces: Int32Array): number[] {
  const inner = innerPieces(stores, pieces);
  const sets = disjointSets(stores.length);
  const unite = (keys: (i: number) => readonly (number | string)[]): void => {
    const first = new Map<number | string, number>();
    for (let i = 0; i < stores.length; i++) {
      for (const key of keys(i)) {
        const other = first.get(key);
        if (other === undefined) first.set(key, i);
        else sets.unite(i, other);
      }
    }
  };
  const ends = (i: number): [number, number] => [
    pieces[stores[i]?.plus ?? 0] ?? -1,
    pieces[stores[i]?.minus ?? 0] ?? -1,
  ];
  unite((i) => ends(i).filter((p) => inner.has(p)));
  // A string is what hangs together so far; strings between the same two pieces are one bank.
  const outer = new Map<number, { plus: Set<number>; minus: Set<number> }>();
  stores.forEach((_, i) => {
    const own = outer.get(sets.root(i)) ?? { plus: new Set(), minus: new Set() };
    const [plus, minus] = ends(i);
    if (!inner.has(plus)) own.plus.add(plus);
    if (!inner.has(minus)) own.minus.add(minus);
    outer.set(sets.root(i), own);
  });
  const between = [...stores.keys()].map((i) => {
    const own = outer.get(sets.root(i));
    return `${[...(own?.plus ?? [])].sort().join()} ${[...(own?.minus ?? [])].sort().join()}`;
  });
  unite((i) => [between[i] ?? ""]);
  return [...stores.keys()].map((i) => sets.root(i));
}

/** Pieces on which one unit's minus and another's plus stand. */
function innerPieces(stores: Ports, pieces: Int32Array): Set<number> {
  const plus = new Set(stores.map((s) => pieces[s.plus] ?? -1));
  return new Set(
    stores.flatMap((s) =>
      plus.has(pieces[s.minus] ?? -1) && pieces[s.plus] !== pieces[s.minus] ? [pieces[s.minus] ?? -1] : [],
    ),
  );
}

function describe(build: Build, units: readonly number[], pieces: Int32Array): Bank | null {
  const { stores } = build.settled.model.grid;
  const own = units.flatMap((i) => stores[i] ?? []);
  const parts = own.flatMap(({ element }) => build.part(element.part) ?? []);
  const [first] = parts;
  if (first === undefined) return null;
  const inner = innerPieces(own, pieces);
  const at = (node: number): number => pieces[node] ?? -1;
  const top = units.filter((i) => !inner.has(at(stores[i]?.plus ?? 0)));
  const bottom = own.find((s) => !inner.has(at(s.minus)));
  return {
    units,
    parts,
    first,
    top,
    abreast: own.map((s) => {
      const beside = own.filter((o) => at(o.plus) === at(s.plus) && at(o.minus) === at(s.minus)).length;
      return beside > 1 ? beside : Math.max(1, top.length);
    }),
    plus: at(stores[top[0] ?? -1]?.plus ?? 0),
    minus: at(bottom?.minus ?? 0),
    inner,
    pieces,
  };
}
