import assert from "node:assert/strict";
import fc from "fast-check";
import { test } from "vitest";
import type { FaultPlace } from "./find-fault.ts";
import type { FaultCase, FaultMetal, FaultPorts } from "./fault-metal.ts";
import { prepareFaults } from "./lay-faults.ts";
import { solveFault } from "./solve-fault.ts";

const metalOf = (nodeCount: number, edges: readonly (readonly [number, number])[]): FaultMetal => ({
  nodeCount,
  edges: edges.map(([a, b]) => ({ a, b })),
  at: Array.from({ length: nodeCount }, (_, n) => edges.flatMap(([a, b], e) => (a === n || b === n ? [e] : []))),
});

interface Build {
  readonly metal: FaultMetal;
  readonly ports: FaultPorts;
  readonly one: FaultCase;
}

/** A plus net and a minus net of a few nodes each, with stores and limited sources between them. */
const builds: fc.Arbitrary<Build> = fc
  .record({
    half: fc.integer({ min: 2, max: 6 }),
    chords: fc.array(fc.tuple(fc.nat(5), fc.nat(5), fc.boolean()), { maxLength: 5 }),
    ohms: fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 20, maxLength: 20 }),
    stores: fc.array(
      fc.tuple(fc.nat(5), fc.nat(5), fc.integer({ min: 118, max: 136 }), fc.integer({ min: 2, max: 20 })),
      {
        minLength: 1,
        maxLength: 3,
      },
    ),
    limited: fc.array(fc.tuple(fc.nat(5), fc.nat(5), fc.integer({ min: 5, max: 120 })), { maxLength: 3 }),
  })
  .map(({ half, chords, ohms, stores, limited }) => {
    const edges: [number, number][] = [];
    // Each net is a chain, and chords close loops in it.
    for (let i = 1; i < half; i++) edges.push([i - 1, i], [half + i - 1, half + i]);
    for (const [a, b, low] of chords) {
      const base = low ? half : 0;
      if (a % half !== b % half) edges.push([base + (a % half), base + (b % half)]);
    }
    const metal = metalOf(2 * half, edges);
    return {
      metal,
      ports: {
        stores: stores.map(([p, m]) => ({ plus: p % half, minus: half + (m % half) })),
        limited: limited.map(([p, m]) => ({ plus: p % half, minus: half + (m % half) })),
      },
      one: {
        ohms: Float64Array.from(edges, (_, i) => (ohms[i % 20] ?? 1) / 1e4),
        storeVolts: Float64Array.from(stores, ([, , v]) => v / 10),
        storeOhms: Float64Array.from(stores, ([, , , r]) => r / 1e3),
        limitedVolts: Float64Array.from(limited, () => 14.4),
        limitedAmps: Float64Array.from(limited, ([, , a]) => a),
      },
    };
  });

const places = (build: Build): FaultPlace[] => {
  const half = build.metal.nodeCount / 2;
  const list: FaultPlace[] = [];
  for (let p = 0; p < half; p++) list.push({ plus: { node: p }, minus: { node: half + ((p + 1) % half) } });
  build.metal.edges.forEach(({ a }, edge) => {
    if (a < half) list.push({ plus: { edge, share: 0.3 }, minus: { node: half } });
  });
  return list;
};

/** Node equations of the whole network as a dense matrix, the fault a resistor of next to nothing; limited sources by trying every standing. */
function oracle({ metal, ports, one }: Build, place: FaultPlace): number | null {
  const faultOhms = 1e-7;
  const n = metal.nodeCount + 2;
  const solveWith = (standing: readonly number[]): number[] => {
    const g = Array.from({ length: n }, () => new Array<number>(n + 1).fill(0));
    const add = (a: number, b: number, siemens: number): void => {
      for (const [i, j] of [
        [a, b],
        [b, a],
      ] as const) {
        const row = g[i] ?? [];
        row[i] = (row[i] ?? 0) + siemens;
        row[j] = (row[j] ?? 0) - siemens;
      }
    };
    const inject = (a: number, amps: number): void => {
      const row = g[a] ?? [];
      row[n] = (row[n] ?? 0) + amps;
    };
    const inside = new Map<number, { share: number; at: number }>();
    const ends = [place.plus, place.minus].map((point, k) => {
      if ("node" in point) return point.node;
      assert.ok("edge" in point);
      inside.set(point.edge, { share: point.share, at: metal.nodeCount + k });
      return metal.nodeCount + k;
    });
    metal.edges.forEach(({ a, b }, e) => {
      const r = one.ohms[e] ?? 1;
      const cut = inside.get(e);
      if (cut === undefined) add(a, b, 1 / r);
      else {
        add(a, cut.at, 1 / (cut.share * r));
        add(cut.at, b, 1 / ((1 - cut.share) * r));
      }
    });
    ports.stores.forEach(({ plus, minus }, s) => {
      const r = one.storeOhms[s] ?? 1;
      add(plus, minus, 1 / r);
      inject(plus, (one.storeVolts[s] ?? 0) / r);
      inject(minus, -(one.storeVolts[s] ?? 0) / r);
    });
    ports.limited.forEach(({ plus, minus }, k) => {
      if (standing[k] === 0) {
        inject(plus, one.limitedAmps[k] ?? 0);
        inject(minus, -(one.limitedAmps[k] ?? 0));
      } else if (standing[k] === 1) {
        const stiff = 1e7;
        add(plus, minus, stiff);
        inject(plus, stiff * (one.limitedVolts[k] ?? 0));
        inject(minus, -stiff * (one.limitedVolts[k] ?? 0));
      }
    });
    add(ends[0] ?? 0, ends[1] ?? 0, 1 / faultOhms);
    // Points that are not used, and one node as nought.
    for (let i = 0; i < n; i++) if ((g[i]?.[i] ?? 0) === 0) (g[i] ?? [])[i] = 1;
    const row = g[0] ?? [];
    row[0] = (row[0] ?? 0) + 1;
    const x = dense(g);
    return [((x[ends[0] ?? 0] ?? 0) - (x[ends[1] ?? 0] ?? 0)) / faultOhms, ...x];
  };
  const count = ports.limited.length;
  for (let code = 0; code < 3 ** count; code++) {
    const standing = Array.from({ length: count }, (_, k) => Math.floor(code / 3 ** k) % 3);
    const [amps = 0, ...x] = solveWith(standing);
    const stands = ports.limited.every(({ plus, minus }, k) => {
      const across = (x[plus] ?? 0) - (x[minus] ?? 0);
      const volts = one.limitedVolts[k] ?? 0;
      const pushes = 1e7 * (volts - across);
      if (standing[k] === 0) return across <= volts * (1 + 1e-7);
      if (standing[k] === 2) return across >= volts * (1 - 1e-7);
      return pushes >= -1e-2 && pushes <= (one.limitedAmps[k] ?? 0) + 1e-2;
    });
    if (stands) return amps;
  }
  return null;
}

function dense(rows: number[][]): number[] {
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c; r < n; r++) if (Math.abs(rows[r]?.[c] ?? 0) > Math.abs(rows[best]?.[c] ?? 0)) best = r;
    [rows[c], rows[best]] = [rows[best] ?? [], rows[c] ?? []];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const f = (rows[r]?.[c] ?? 0) / (rows[c]?.[c] ?? 1);
      if (f !== 0) for (let k = c; k <= n; k++) (rows[r] ?? [])[k] = (rows[r]?.[k] ?? 0) - f * (rows[c]?.[k] ?? 0);
    }
  }
  return rows.map((row, i) => (row[n] ?? 0) / (row[i] ?? 1));
}

// The oracle's fault of 0.1 µΩ beside at least 0.2 mΩ, and its stiff sources, cost a thousandth at most.
const NEAR = 2e-3;

test("every fault is that of the whole network solved as a dense matrix, limits by trial of every standing", () => {
  let compared = 0;
  fc.assert(
    fc.property(builds, (build) => {
      const laid = prepareFaults(build.metal, build.ports).lay(build.one);
      for (const place of places(build)) {
        const expected = oracle(build, place);
        if (expected === null) continue;
        compared++;
        const { amps } = solveFault(laid, place);
        assert.ok(Math.abs(amps - expected) <= NEAR * Math.max(1, Math.abs(expected)), `${amps} is not ${expected}`);
      }
    }),
    { numRuns: 300 },
  );
  assert.ok(compared > 1000);
});

test("at every node what comes in goes out, sources and the fault counted", () => {
  fc.assert(
    fc.property(builds, (build) => {
      const laid = prepareFaults(build.metal, build.ports).lay(build.one);
      for (const place of places(build)) {
        const fault = solveFault(laid, place);
        const sum = new Float64Array(build.metal.nodeCount);
        const add = (n: number, amps: number): void => {
          sum[n] = (sum[n] ?? 0) + amps;
        };
        for (const { edge, atA, atB } of fault.flows) {
          add(build.metal.edges[edge]?.a ?? 0, -atA);
          add(build.metal.edges[edge]?.b ?? 0, atB);
        }
        for (const { store, amps } of fault.stores) {
          add(build.ports.stores[store]?.plus ?? 0, amps);
          add(build.ports.stores[store]?.minus ?? 0, -amps);
        }
        for (const { limited, amps } of fault.limited) {
          add(build.ports.limited[limited]?.plus ?? 0, amps);
          add(build.ports.limited[limited]?.minus ?? 0, -amps);
        }
        if ("node" in place.plus) add(place.plus.node, -fault.amps);
        if ("node" in place.minus) add(place.minus.node, fault.amps);
        // Sixteen digits, over conductances that differ ten-thousandfold.
        for (const s of sum) assert.ok(Math.abs(s) < 1e-6 * Math.max(1, Math.abs(fault.amps)), String(s));
      }
    }),
    { numRuns: 200 },
  );
});

// Of batteries of equal volts alone: beside a charger, a battery and a thicker wire to it also take current away from the fault.
test("thicker wire never lowers the greatest current, and a source taken away never raises it", () => {
  fc.assert(
    fc.property(builds, fc.nat(30), fc.double({ min: 0.1, max: 0.99, noNaN: true }), (build, which, times) => {
      const prepared = prepareFaults(build.metal, build.ports);
      const one = {
        ...build.one,
        storeVolts: build.one.storeVolts.map(() => 13.2),
        limitedAmps: build.one.limitedAmps.map(() => 0),
      };
      const ohms = one.ohms.slice();
      const e = which % Math.max(1, ohms.length);
      ohms[e] = times * (ohms[e] ?? 0);
      const storeOhms = one.storeOhms.slice();
      storeOhms[which % storeOhms.length] = Infinity;
      const before = prepared.lay(one);
      const all = places(build).map((place) => ({ place, amps: solveFault(before, place).amps }));
      const thicker = prepared.lay({ ...one, ohms });
      const thick = all.map(({ place }) => solveFault(thicker, place).amps);
      const fewer = prepared.lay({ ...one, storeOhms });
      const few = all.map(({ place }) => solveFault(fewer, place).amps);
      all.forEach(({ amps }, i) => {
        // Rounding of sixteen digits.
        assert.ok((thick[i] ?? 0) >= amps * (1 - 1e-9), "thicker wire");
        assert.ok((few[i] ?? 0) <= amps * (1 + 1e-9), "a battery less");
      });
    }),
    { numRuns: 200 },
  );
});

test("an ampere at one place gives at another the volts that an ampere there gives at the first", () => {
  fc.assert(
    fc.property(builds, (build) => {
      const laid = prepareFaults(build.metal, build.ports).lay(build.one);
      const n = laid.shape.coreCount;
      for (let i = 0; i < n; i++)
        for (let j = 0; j < i; j++) assert.ok(Math.abs((laid.column(i)[j] ?? 0) - (laid.column(j)[i] ?? 0)) < 1e-9);
    }),
    { numRuns: 100 },
  );
});

test("taking an edge out is the case laid anew without it", () => {
  fc.assert(
    fc.property(builds, fc.nat(30), (build, which) => {
      const prepared = prepareFaults(build.metal, build.ports);
      const e = which % Math.max(1, build.metal.edges.length);
      const ohms = build.one.ohms.slice();
      ohms[e] = Infinity;
      const out = prepared.lay(build.one).without([e]);
      const anew = prepared.lay({ ...build.one, ohms });
      for (const place of places(build)) assert.equal(solveFault(out, place).amps, solveFault(anew, place).amps);
    }),
    { numRuns: 100 },
  );
});

/** A source between nodes 0 and 1 with one loop of wire behind it: the plus wire is edge 0, the return edge 1. */
const loop = (volts: number, ohms: number, wire: number, back: number, limited = 0): number => {
  const prepared = prepareFaults(
    metalOf(4, [
      [0, 2],
      [3, 1],
    ]),
    { stores: [{ plus: 0, minus: 1 }], limited: [{ plus: 0, minus: 1 }] },
  );
  const laid = prepared.lay({
    ohms: Float64Array.of(wire, back),
    storeVolts: Float64Array.of(volts),
    storeOhms: Float64Array.of(ohms),
    limitedVolts: Float64Array.of(14.4),
    limitedAmps: Float64Array.of(limited),
  });
  return solveFault(laid, { plus: { node: 2 }, minus: { node: 3 } }).amps;
};

test("Ohm's law by hand: 12.8 V behind 4 mΩ, 10 mΩ of wire and 10 mΩ back", () => {
  // 12.8 ÷ (0.004 + 0.010 + 0.010)
  assert.ok(Math.abs(loop(12.8, 0.004, 0.01, 0.01) - 12.8 / 0.024) < 1e-9);
  // 30 A more into 4 mΩ are 0.12 V more behind the same resistance.
  assert.ok(Math.abs(loop(12.8, 0.004, 0.01, 0.01, 30) - (12.8 + 30 * 0.004) / 0.024) < 1e-9);
});

test("a charger alone gives its limit into a short wire, and what its volts push through a long one", () => {
  assert.ok(Math.abs(loop(12.8, Infinity, 0.1, 0.1, 30) - 30) < 1e-9);
  // 14.4 V ÷ 0.6 Ω = 24 A, less than its 30 A.
  assert.ok(Math.abs(loop(12.8, Infinity, 0.3, 0.3, 30) - 14.4 / 0.6) < 1e-9);
});

/** Shares in percent of four units of 1 mΩ in a row, links between neighbours in the plus and the minus row, both leads where told. */
function shares(link: number, minusAt: number): number[] {
  const edges = [0, 1, 2].flatMap((k): [number, number][] => [
    [k, k + 1],
    [4 + k, 4 + k + 1],
  ]);
  const laid = prepareFaults(metalOf(8, edges), {
    stores: [0, 1, 2, 3].map((k) => ({ plus: k, minus: 4 + k })),
    limited: [],
  }).lay({
    ohms: new Float64Array(6).fill(link),
    storeVolts: new Float64Array(4).fill(12.8),
    storeOhms: new Float64Array(4).fill(0.001),
    limitedVolts: new Float64Array(0),
    limitedAmps: new Float64Array(0),
  });
  const fault = solveFault(laid, { plus: { node: 0 }, minus: { node: 4 + minusAt } });
  return fault.stores.map(({ amps }) => (100 * amps) / fault.amps);
}

test("four units of 1 mΩ share a fault as the published example says", () => {
  // Batteries in parallel, worked in many guides: by hand the ladder from the far end gives 1 : 3 : 11 : 41 of 56.
  const near = (got: number[], expected: number[]): void => {
    got.forEach((g, k) => {
      assert.ok(Math.abs(g - (expected[k] ?? 0)) < 0.5, `${got.join()} is not ${expected.join()}`);
    });
  };
  near(shares(0.001, 0), [73, 20, 5, 2]);
  near(shares(0.001, 3), [37.5, 12.5, 12.5, 37.5]);
  near(shares(0.0001, 3), [27, 23, 23, 27]);
});
