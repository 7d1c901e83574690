import assert from "node:assert/strict";
import fc from "fast-check";
import { test } from "vitest";
import { makeGrid, resolveSystem, kinds, stripTrees } from "../system/index.ts";
import { readPlan } from "../plan/index.ts";
import { findPush } from "./index.ts";

type Network = Parameters<typeof findPush>[0];

/** Wires and devices between a few nodes; chargers that limit themselves and batteries on some of them. */
interface Build {
  readonly nodes: number;
  readonly edges: readonly {
    readonly a: number;
    readonly b: number;
    readonly rating: number | null;
    /** Contact of a switch that chooses: closed in this position of it alone. */
    readonly contact?: { readonly part: string; readonly closedIn: readonly string[] } | null;
  }[];
  readonly chargers: readonly { readonly node: number; readonly amps: number }[];
  readonly batteries: readonly number[];
}

const builds: fc.Arbitrary<Build> = fc.integer({ min: 2, max: 6 }).chain((nodes) => {
  const node = fc.nat(nodes - 1);
  return fc.record({
    nodes: fc.constant(nodes),
    edges: fc.array(fc.record({ a: node, b: node, rating: fc.option(fc.integer({ min: 1, max: 60 }), { freq: 4 }) }), {
      maxLength: 10,
    }),
    chargers: fc.array(fc.record({ node, amps: fc.integer({ min: 1, max: 90 }) }), { maxLength: 3 }),
    batteries: fc.array(node, { maxLength: 2 }),
  });
});

const push = ({ nodes, edges, chargers, batteries }: Build, at: number) => {
  const list = edges.filter(({ a, b }) => a !== b);
  const grid = {
    nodeCount: nodes,
    edges: list.map(({ a, b, contact = null }, i) => ({ id: `e${i}`, a, b, circuit: 0, conductor: i, contact, live: true })), // prettier-ignore
    at: Array.from({ length: nodes }, (_, n) => list.flatMap(({ a, b }, i) => (a === n || b === n ? [i] : []))),
    stores: batteries.map((plus, i) => ({ element: { part: `B${i}` }, plus, minus: nodes })),
    feeds: chargers.map(({ node, amps }, i) => ({
      element: { part: `C${i}`, amps: { low: amps, high: amps, origin: "given" }, selfLimited: true },
      plus: node,
      minus: nodes,
    })),
    converters: [],
  } as unknown as Network; // only what is asked of sources
  const trees = { isTree: new Uint8Array(list.length), up: new Int32Array(nodes).fill(-1) };
  return findPush(grid, trees, at, -1, (e) => list[e]?.rating ?? undefined);
};

/** The least that any way of cutting the node off from the sources would have to cut: as much as the greatest flow. */
function leastCut({ nodes, edges, chargers, batteries }: Build, at: number): number {
  let least = Infinity;
  for (let side = 0; side < 1 << nodes; side++) {
    if ((side >> at) % 2 === 0) continue;
    const inside = (n: number): boolean => (side >> n) % 2 === 1;
    let cut = 0;
    for (const { a, b, rating } of edges) if (inside(a) !== inside(b)) cut += rating ?? Infinity;
    for (const { node, amps } of chargers) if (inside(node)) cut += amps;
    for (const node of batteries) if (inside(node)) cut = Infinity;
    least = Math.min(least, cut);
  }
  return least;
}

test("what can be pushed is the greatest flow, found by trying every cut", () => {
  fc.assert(
    fc.property(builds, (build) => {
      // Whole amperes: sums of them are exact.
      assert.equal(push(build, 0).amps, leastCut(build, 0));
    }),
    { numRuns: 3000 },
  );
});

const SWITCHES = ["S0", "S1"];
const POSITIONS = ["1", "2", "3"];

test("behind switches that choose it is the most of what any position lets through", () => {
  const contact = fc.option(
    fc.record({ part: fc.constantFrom(...SWITCHES), closedIn: fc.constantFrom(...POSITIONS).map((p) => [p]) }),
    { freq: 3 },
  );
  const chosen = fc.tuple(builds, fc.array(contact, { minLength: 10, maxLength: 10 })).map(([build, seats]): Build => ({
    ...build,
    edges: build.edges.map((e, i) => ({ ...e, contact: seats[i] ?? null })),
  }));
  fc.assert(
    fc.property(chosen, (build) => {
      const closed = POSITIONS.flatMap((s0) => POSITIONS.map((s1) => ({ S0: s0, S1: s1 })));
      const each = closed.map((at: Readonly<Record<string, string>>) => {
        const edges = build.edges.filter(({ contact: c }) => c == null || c.closedIn.includes(at[c.part] ?? ""));
        return leastCut({ ...build, edges }, 0);
      });
      assert.equal(push(build, 0).amps, Math.max(...each));
    }),
    { numRuns: 1000 },
  );
});

test("behind a changeover of 16 A and 15.2 A stand 16 A, and nothing comes back into an input", () => {
  const at = (part: string, position: string) => ({ part, closedIn: [position] });
  const build: Build = {
    nodes: 3,
    edges: [
      { a: 0, b: 2, rating: null, contact: at("TS", "shore") },
      { a: 1, b: 2, rating: null, contact: at("TS", "inverter") },
    ],
    chargers: [
      { node: 0, amps: 16 },
      { node: 1, amps: 15.2 },
    ],
    batteries: [],
  };
  assert.deepEqual([push(build, 2).amps, push(build, 2).sources], [16, ["C0", "C1"]]);
  assert.equal(push({ ...build, chargers: build.chargers.slice(1) }, 0).amps, 0);
});

test("it does not hang on the order in which wires and sources are listed", () => {
  fc.assert(
    fc.property(builds, (build) => {
      const turned: Build = {
        ...build,
        edges: build.edges.map(({ a, b, rating }) => ({ a: b, b: a, rating })).reverse(),
        chargers: [...build.chargers].reverse(),
        batteries: [...build.batteries].reverse(),
      };
      assert.equal(push(turned, 0).amps, push(build, 0).amps);
    }),
    { numRuns: 1000 },
  );
});

test("two fused leads of one battery give the sum of their fuses, in either order", () => {
  const [a, b] = ["  W1: { path: B1 → SW1, length: 1 m }\n", "  W2: { path: B1 → SW1, length: 1 m }\n"];
  for (const leads of [`${a}${b}`, `${b}${a}`]) {
    const text = `wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }
  SW1: { kind: switch }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  L: { kind: load, running: 3 A }
circuits:
${leads}  W3: { path: SW1 → BP, length: 1 m }
  W4: { path: BP → L, length: 1 m }
`;
    const grid = makeGrid(resolveSystem(readPlan(text, kinds).value, kinds).value);
    const kept = new Uint8Array(grid.nodeCount);
    for (const { plus, minus } of grid.stores) kept[plus] = kept[minus] = 1;
    const rating: Record<string, number> = { "W1+": 60, "W2+": 40 };
    const edge = grid.edges.findIndex((e) => e.id === "W4+");
    const found = findPush(grid, stripTrees(grid, kept), grid.nodeOf("BP:pole"), edge, (e) => {
      return rating[grid.edges[e]?.id ?? ""];
    });
    assert.equal(found.amps, 100);
  }
});
