import { joinMetal } from "./join-metal.ts";
import type { System, SystemCircuit } from "./system.ts";

/** A circuit that carries current only in a fault. */
export interface EarthLead {
  /** Its place in the system. */
  readonly index: number;
  /** electrode: metal in the soil · metal: hull, chassis, frame, anode · case: the frame of a part · bar: from one earth bar to another · neutral: where neutral meets earth */
  readonly to: "electrode" | "metal" | "case" | "bar" | "neutral";
  /** The part that it earths; of a bar the one that its path ends at. */
  readonly part: string;
  /** Whether it lands on the minus of direct current, and whether on protective conductors of alternating current. */
  readonly onMinus: boolean;
  readonly onProtective: boolean;
}

/** A piece of metal, but for the circuits that may be leads. */
interface Piece {
  source: boolean;
  load: boolean;
  /** A structure, an electrode, a protective terminal. */
  earth: boolean;
  /** Protective conductors of alternating current land on it. */
  protective: boolean;
  /** The plan sends returns through it. */
  returns: boolean;
}

interface Edge {
  readonly index: number;
  readonly a: string;
  readonly b: string;
}

/**
 * Finds the bonds and earth conductors of a build: those that the plan draws as protective conductors by themselves, and those of one pole that lead to earthed metal by which
 * nothing that is used returns. A chassis or hull that brings the current of loads back has conductors like any other return, and so has metal that parts a source from what it
 * feeds.
 *
 * Ignores which switch stands how: every contact counts as closed.
 *
 * @returns in the order of the plan
 */
export function findEarthLeads(system: System): readonly EarthLead[] {
  const { circuits, parts } = system;
  const isAlone = circuits.map((c) => c.conductors.length > 0 && c.conductors.every((k) => k.role === "protective"));
  const hasMetal = parts.some(({ traits }) => traits.structure === true || traits.electrode === true);
  if (!hasMetal && !isAlone.includes(true)) return [];
  const isLoose = circuits.map((c, i) => isAlone[i] === false && isOfOnePole(c));
  const root = joinMetal(
    circuits.filter((_, i) => isAlone[i] === false && isLoose[i] === false),
    system.elements,
  );
  const pieces = layPieces(system, root);
  const edges = circuits.flatMap((c, index): Edge[] =>
    isLoose[index] === true ? c.conductors.map(({ from, to }) => ({ index, a: root(from), b: root(to) })) : [],
  );
  const found = looseLeads(pieces, edges);
  return circuits.flatMap((circuit, index): EarthLead[] => {
    if (isAlone[index] === false && !found.has(index)) return [];
    const ends = circuit.conductors.flatMap(({ from, to }) => [pieces(root(from)), pieces(root(to))]);
    return [
      {
        index,
        ...goalOf(circuit, system),
        onMinus: circuit.current === "DC" || ends.some((p) => p.source || p.load),
        onProtective: circuit.current === "AC" || ends.some((p) => p.protective),
      },
    ];
  });
}

/** What may lead to earth: single conductors from one point of a pole to another. */
const isOfOnePole = ({ current, conductors }: SystemCircuit): boolean =>
  current === "DC" && conductors.length > 0 && conductors.every(({ fn }) => fn === "pole" || fn === "−");

function layPieces(system: System, root: (terminal: string) => string): (piece: string) => Piece {
  const known = new Map<string, Piece>();
  const pieceOf = (name: string): Piece => {
    let piece = known.get(name);
    if (piece === undefined)
      known.set(name, (piece = { source: false, load: false, earth: false, protective: false, returns: false }));
    return piece;
  };
  const mark = (key: keyof Piece, ...terminals: readonly string[]): void => {
    for (const t of terminals) pieceOf(root(t))[key] = true;
  };
  for (const e of system.elements) {
    if (e.is === "store" || e.is === "feed") mark("source", e.plus, e.minus);
    else if (e.is === "draw" && e.current === "DC") mark("load", e.plus, e.minus);
    else if (e.is === "converter") {
      if (e.inCurrent === "DC") mark("load", e.inPlus, e.inMinus);
      if (e.outCurrent === "DC") mark("source", e.outPlus, e.outMinus);
    }
  }
  const structures = new Set<string>();
  for (const { id, traits } of system.parts) {
    if (traits.structure !== true && traits.electrode !== true) continue;
    structures.add(id);
    mark("earth", `${id}:pole`);
  }
  for (const { returnPart } of system.supplies)
    if (returnPart !== undefined && structures.has(returnPart)) mark("returns", `${returnPart}:pole`);
  for (const { current, conductors } of system.circuits)
    for (const { role, from, to } of conductors) {
      if (role !== "protective") continue;
      mark("earth", from, to);
      if (current === "AC") mark("protective", from, to);
    }
  return pieceOf;
}

/** Of the conductors of one pole those that lead to earthed metal, and bring nothing back. */
function looseLeads(pieceOf: (name: string) => Piece, edges: readonly Edge[]): ReadonlySet<number> {
  const names = [...new Set(edges.flatMap(({ a, b }) => [a, b]))];
  const isUsed = (name: string): boolean => {
    const { source, load, returns } = pieceOf(name);
    return source || load || returns;
  };
  const whole = companyIn(edges);
  const isBond = new Set<Edge>();
  /** Metal that nothing is connected to, and whose bonds part no load from what feeds it. */
  const spared = new Set(
    names.filter((name) => {
      if (!pieceOf(name).earth || isUsed(name)) return false;
      const rest = companyIn(edges.filter(({ a, b }) => a !== name && b !== name));
      return names.every((n) => !isHalf(n) || !hasCompany(whole, n) || hasCompany(rest, n));
    }),
  );
  function isHalf(name: string): boolean {
    const { source, load } = pieceOf(name);
    return source !== load;
  }
  function hasCompany(group: (name: string) => string, name: string): boolean {
    const { source } = pieceOf(name);
    const own = group(name);
    return names.some((n) => group(n) === own && (source ? pieceOf(n).load : pieceOf(n).source));
  }
  for (const e of edges) if (spared.has(e.a) || spared.has(e.b)) isBond.add(e);
  // A bar on the way to such metal that nothing else hangs on leads to it as well.
  for (let again = true; again;) {
    again = false;
    for (const name of names) {
      if (isUsed(name)) continue;
      const at = edges.filter((e) => e.a === name || e.b === name);
      const open = at.filter((e) => !isBond.has(e));
      const [last] = open;
      if (last === undefined || open.length > 1 || open.length === at.length) continue;
      isBond.add(last);
      again = true;
    }
  }
  const others = new Set(edges.flatMap((e) => (isBond.has(e) ? [] : [e.index])));
  return new Set([...isBond].flatMap(({ index }) => (others.has(index) ? [] : [index])));
}

/** One name that stands for all that hang together. */
function companyIn(edges: readonly Edge[]): (name: string) => string {
  const above = new Map<string, string>();
  const root = (name: string): string => {
    let at = name;
    for (let up = above.get(at); up !== undefined; up = above.get(at)) at = up;
    return at;
  };
  for (const { a, b } of edges) {
    const [x, y] = [root(a), root(b)];
    if (x !== y) above.set(y, x);
  }
  return root;
}

const isLive = (terminal: string): boolean => /:(?:N|L\d?)$/.test(terminal);

/** What a lead is for, by the parts at its ends. */
function goalOf(circuit: SystemCircuit, { parts, elements }: System): Pick<EarthLead, "to" | "part"> {
  const ends = [circuit.to.part, circuit.from.part];
  const at = (passes: (id: string) => boolean): string | undefined => ends.find(passes);
  const traitsOf = (id: string) => parts.find((p) => p.id === id)?.traits;
  const uses = (id: string): boolean =>
    traitsOf(id)?.distributes !== true &&
    elements.some((e) => e.part === id && (e.is === "draw" || e.is === "converter" || e.is === "source"));
  const isElectrode = (id: string): boolean =>
    traitsOf(id)?.electrode === true && traitsOf(id)?.electrodeIs !== "anode";
  const isMetal = (id: string): boolean => traitsOf(id)?.structure === true || traitsOf(id)?.electrode === true;
  const [part = ""] = ends;
  if (circuit.conductors.some(({ from, to }) => isLive(from) !== isLive(to))) return { to: "neutral", part };
  for (const [to, id] of [
    ["electrode", at(isElectrode)],
    ["metal", at(isMetal)],
    ["case", at(uses)],
  ] as const)
    if (id !== undefined) return { to, part: id };
  return { to: "bar", part };
}
