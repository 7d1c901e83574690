import { joinNodes, type Joined } from "../join-nodes.ts";
import type { AcBranch, AcLoad, AcNetwork, AcProblem, AcSource } from "./ac-network.ts";
import { findUnusable } from "./find-unusable.ts";
import { prepareComplexLdlt, type ComplexLdlt, type Parts } from "./complex-ldlt.ts";

/** Below this, a branch counts as one piece of metal, Ω: 1 mV at 100 A. What is less would cost currents their last digits, which are differences of volts. */
const NO_OHMS = 1e-5;
/** Least inner impedance of a source, Ω: 10 mV at 100 A, for the same reason. */
const STIFFEST = 1e-4;

/** A line of a source, between two joined nodes, as current source beside an admittance. */
export interface LaidLine {
  readonly source: number;
  readonly node: number;
  readonly neutral: number;
  /** Volts without load. */
  readonly er: number;
  readonly ei: number;
  readonly yr: number;
  readonly yi: number;
}

/** A load between two joined nodes. */
export interface LaidLoad {
  readonly a: number;
  readonly b: number;
  /** What it asks for; of an impedance, its admittance. */
  readonly is: "va" | "amps" | "admittance";
  readonly size: number;
  /** Cosine and sine of the angle by which its current lags. */
  readonly cos: number;
  readonly sin: number;
  readonly yr: number;
  readonly yi: number;
  /** Volts that it is made for; 0: nobody says. */
  readonly madeFor: number;
  /** It ties two islands together, so that its own law has no meaning. */
  readonly standsIn: boolean;
}

/** A network, numbered and factored. */
export interface LaidAc {
  readonly names: readonly string[];
  readonly branches: readonly AcBranch[];
  readonly branchA: Int32Array;
  readonly branchB: Int32Array;
  /** Position of each branch among the joins; −1: it has an impedance. */
  readonly join: Int32Array;
  readonly joinFrom: Int32Array;
  readonly joinTo: Int32Array;
  readonly joined: Joined;
  readonly sources: readonly AcSource[];
  /** Nodes before joining, by line; those of a source follow each other. */
  readonly lines: readonly LaidLine[];
  readonly loads: readonly AcLoad[];
  readonly laidLoads: readonly LaidLoad[];
  /** By joined node. */
  readonly island: Int32Array;
  /** By island: node before joining. */
  readonly references: Int32Array;
  /** Null: the matrix has no inverse. */
  readonly ldlt: ComplexLdlt | null;
  readonly number: ReadonlyMap<string, number>;
  readonly problems: AcProblem[];
}

/** Numbers the nodes of a network, joins those of no impedance, finds its islands and factors its admittances. */
export function layAc(network: AcNetwork): LaidAc {
  const problems: AcProblem[] = [];
  const number = new Map<string, number>();
  const names: string[] = [];
  const nodeOf = (name: string): number => {
    let n = number.get(name);
    if (n === undefined) number.set(name, (n = names.push(name) - 1));
    return n;
  };
  const branches: AcBranch[] = [];
  const sources: AcSource[] = [];
  const loads: AcLoad[] = [];
  const ids = new Set<string>();
  for (const e of network.elements) {
    const field = findUnusable(e);
    if (field !== null) {
      problems.push({ problem: "unusable number", about: e.id, field });
      continue;
    }
    if (ids.has(e.id)) problems.push({ problem: "repeated id", about: e.id, field: "" });
    ids.add(e.id);
    if (e.kind === "branch") branches.push(e);
    else if (e.kind === "source") sources.push(e);
    else loads.push(e);
  }
  const branchA = Int32Array.from(branches, ({ a }) => nodeOf(a));
  const branchB = Int32Array.from(branches, ({ b }) => nodeOf(b));
  const neutrals = sources.map(({ neutral }) => nodeOf(neutral));
  const lineNodes = sources.map(({ lines }) => lines.map(({ node }) => nodeOf(node)));
  const loadA = loads.map(({ a }) => nodeOf(a));
  const loadB = loads.map(({ b }) => nodeOf(b));

  const metal = branches.flatMap(({ ohms, reactance }, i) => (Math.hypot(ohms, reactance) < NO_OHMS ? [i] : []));
  const join = new Int32Array(branches.length).fill(-1);
  metal.forEach((i, j) => (join[i] = j));
  const joinFrom = Int32Array.from(metal, (i) => branchA[i] ?? 0);
  const joinTo = Int32Array.from(metal, (i) => branchB[i] ?? 0);
  const joined = joinNodes(names.length, joinFrom, joinTo);
  const at = (node: number | undefined): number => joined.of[node ?? 0] ?? 0;
  metal.forEach((i, j) => {
    if (joined.ring[j] === 1)
      problems.push({ problem: "ring of no impedance", about: branches[i]?.id ?? "", field: "" });
  });

  // Nodes of one island: whatever ties volts together.
  const up = Int32Array.from({ length: joined.count }, (_, i) => i);
  const top = (i: number): number => {
    let t = i;
    while (up[t] !== t) t = up[t] = up[up[t] ?? 0] ?? 0;
    return t;
  };
  const tie = (a: number, b: number): void => {
    up[top(a)] = top(b);
  };
  branches.forEach((_, i) => {
    tie(at(branchA[i]), at(branchB[i]));
  });
  sources.forEach((_, s) =>
    lineNodes[s]?.forEach((node) => {
      tie(at(node), at(neutrals[s]));
    }),
  );
  loads.forEach(({ law }, l) => {
    if ("ohms" in law) tie(at(loadA[l]), at(loadB[l]));
  });
  const across = loads.map(({ law }, l) => !("ohms" in law) && top(at(loadA[l])) !== top(at(loadB[l])));
  loads.forEach((_, l) => {
    if (across[l] === true) tie(at(loadA[l]), at(loadB[l]));
  });
  const island = new Int32Array(joined.count);
  const tops = new Map<number, number>();
  for (let i = 0; i < joined.count; i++) {
    const t = top(i);
    let k = tops.get(t);
    if (k === undefined) tops.set(t, (k = tops.size));
    island[i] = k;
  }
  const references = new Int32Array(tops.size).fill(-1);
  const earth = network.earth === undefined ? undefined : number.get(network.earth);
  const candidates = [...(earth === undefined ? [] : [earth]), ...neutrals, ...names.keys()];
  for (const node of candidates) {
    const k = island[at(node)] ?? 0;
    if (references[k] === -1) references[k] = node;
  }

  const lines = sources.flatMap((source, s) =>
    source.lines.map(({ volts, degrees }, i): LaidLine => {
      const size = Math.hypot(source.ohms, source.reactance);
      const [r, x] = size < STIFFEST ? [STIFFEST, 0] : [source.ohms, source.reactance];
      const angle = (degrees * Math.PI) / 180;
      return {
        source: s,
        node: at(lineNodes[s]?.[i]),
        neutral: at(neutrals[s]),
        er: volts * Math.cos(angle),
        ei: volts * Math.sin(angle),
        ...admittance(r, x),
      };
    }),
  );
  const laidLoads = loads.map(({ law }, l) => laidLoad(law, at(loadA[l]), at(loadB[l]), across[l] === true));

  const plain = branches.flatMap((branch, i) =>
    join[i] === -1 ? [{ branch, a: at(branchA[i]), b: at(branchB[i]) }] : [],
  );
  const ties = [
    ...plain.map(({ branch, a, b }) => ({ a, b, ...admittance(branch.ohms, branch.reactance) })),
    ...lines.map(({ node, neutral, yr, yi }) => ({ a: node, b: neutral, yr, yi })),
    ...laidLoads.filter(({ is }) => is === "admittance"),
  ];
  const ldlt = prepareComplexLdlt(joined.count, Int32Array.from(ties, ({ a }) => a), Int32Array.from(ties, ({ b }) => b)); // prettier-ignore
  ties.forEach(({ a, b, yr, yi }, i) => {
    if (a === b) return;
    add(ldlt.diagonal, a, yr, yi);
    add(ldlt.diagonal, b, yr, yi);
    add(ldlt.beside, ldlt.slots[i] ?? 0, -yr, -yi);
  });
  // Nothing leaves an island, so a conductance to nowhere at its reference holds that at 0 V and carries nothing.
  for (const node of references) add(ldlt.diagonal, at(node), 1, 0);
  const isSolvable = ldlt.factor();
  if (!isSolvable) problems.push({ problem: "no solution", about: "", field: "" });
  return {
    names,
    branches,
    branchA,
    branchB,
    join,
    joinFrom,
    joinTo,
    joined,
    sources,
    lines,
    loads,
    laidLoads,
    island,
    references,
    ldlt: isSolvable ? ldlt : null,
    number,
    problems,
  };
}

function add({ re, im }: Parts, at: number, r: number, i: number): void {
  re[at] = (re[at] ?? 0) + r;
  im[at] = (im[at] ?? 0) + i;
}

/** 1 / (r + jx) */
export function admittance(r: number, x: number): { readonly yr: number; readonly yi: number } {
  const square = r * r + x * x;
  return { yr: r / square, yi: -x / square };
}

function laidLoad(law: AcLoad["law"], a: number, b: number, isAcross: boolean): LaidLoad {
  if ("ohms" in law) {
    return {
      a,
      b,
      is: "admittance",
      size: 0,
      cos: 1,
      sin: 0,
      madeFor: 0,
      ...admittance(law.ohms, law.reactance),
      standsIn: false,
    };
  }
  const cos = law.powerFactor;
  const sin = Math.sqrt(1 - cos * cos);
  const size = "va" in law ? law.va : law.amps;
  const base = { a, b, size, cos, sin, madeFor: law.volts ?? 0 };
  if (!isAcross) return { ...base, is: "va" in law ? "va" : "amps", yr: 0, yi: 0, standsIn: false };
  // Nobody says what it is made for: then it takes nothing, and its far side has no volts of its own.
  const volts = law.volts ?? Infinity;
  const y = "va" in law ? size / volts ** 2 : size / volts;
  return { ...base, is: "admittance", yr: Math.max(y * cos, LEAST), yi: -y * sin, standsIn: true };
}

/** Keeps the far side of a load that takes nothing tied to the rest, S. */
const LEAST = 1e-9;
