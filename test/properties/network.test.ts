/**
 * Laws of nature that every operating point has to keep, on builds by chance; and a second solver, written another way.
 */
import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import type { DcElement, DcNetwork } from "../../src/network/dc-network.ts";
import type { OperatingPoint } from "../../src/network/operating-point.ts";
import { prepareDc } from "../../src/network/prepare-dc.ts";
import { solveDc } from "../../src/network/solve-dc.ts";
import { makeRandomNetwork, seeded, type RandomNetworkWish } from "./random-network.ts";
import { solveByTrial } from "./solve-by-trial.ts";

const seed = fc.nat(1e6);
/** Builds of every make: with and without stores, light and hopeless, with converters. */
const anyBuild: fc.Arbitrary<DcNetwork> = fc
  .record({
    seed,
    stores: fc.constantFrom(0, 1, 2, 3),
    feeds: fc.nat(3),
    converters: fc.nat(3),
    demand: fc.constantFrom(0.3, 1, 4, 30),
  })
  .map(makeRandomNetwork);

const greatest = (values: readonly number[]) => values.reduce((most, v) => Math.max(most, Math.abs(v)), 1);
const portsOf = (e: DcElement): readonly (readonly [string, string])[] =>
  e.kind === "resistor"
    ? [[e.a, e.b]]
    : e.kind === "converter"
      ? [
          [e.in.plus, e.in.minus],
          [e.out.plus, e.out.minus],
        ]
      : [[e.plus, e.minus]];
const pointsOf = (point: OperatingPoint, k: number) => {
  const p = point.elements[k];
  assert.ok(p);
  return p.out === undefined ? [p] : [p, p.out];
};

/**
 * Without any store, chargers and converters alone may have no operating point to settle at (one that makes two chargers
 * take turns); with a store there always is one.
 */
const assertConverged = (network: DcNetwork, point: OperatingPoint) => {
  const hasStore = network.elements.some((e) => e.kind === "store" && e.id.startsWith("store"));
  const unsettled = point.problems.map((p) => p.problem);
  assert.deepEqual(hasStore ? unsettled : unsettled.filter((p) => p !== "converters did not settle"), []);
};

test("as much current flows out of every node as into it, and as much power is taken as given", () => {
  fc.assert(
    fc.property(anyBuild, (network) => {
      const point = solveDc(network);
      assertConverged(network, point);
      const out = new Map<string, number>();
      let power = 0;
      network.elements.forEach((e, k) => {
        portsOf(e).forEach(([plus, minus], port) => {
          const { amps, watts } = pointsOf(point, k)[port] ?? { amps: NaN, watts: NaN };
          out.set(plus, (out.get(plus) ?? 0) + amps);
          out.set(minus, (out.get(minus) ?? 0) - amps);
          power += watts;
        });
      });
      const scale = greatest(point.elements.map((e) => e.amps));
      for (const [node, amps] of out) assert.ok(Math.abs(amps) <= 1e-9 * scale, `${node}: ${amps} A`);
      assert.ok(Math.abs(power) <= 1e-9 * greatest(point.elements.map((e) => e.watts)), `${power} W`);
    }),
    { numRuns: 400 },
  );
});

test("every element keeps its own law", () => {
  fc.assert(
    fc.property(anyBuild, (network) => {
      const point = solveDc(network);
      assertConverged(network, point);
      const scale = greatest(point.elements.map((e) => e.amps));
      const volts = (node: string) => point.nodes.find((n) => n.id === node)?.volts ?? NaN;
      network.elements.forEach((e, k) => {
        const [first, out] = pointsOf(point, k);
        const condition = point.elements[k]?.condition;
        assert.ok(first);
        const { amps, volts: v } = first;
        const say = `${e.id} ${condition ?? ""}: ${v} V, ${amps} A`;
        // The last place of 50 V behind the conductance of the element, beside what the solver allows itself.
        const near = (found: number, expected: number, perVolt = 0) => {
          assert.ok(
            Math.abs(found - expected) <= 1e-9 * scale + 1e-13 * perVolt,
            `${say}; ${found}, expected ${expected}`,
          );
        };
        portsOf(e).forEach(([plus, minus], port) => {
          const across = volts(plus) - volts(minus);
          assert.ok(Math.abs(across - (pointsOf(point, k)[port]?.volts ?? NaN)) <= 1e-9, say);
        });
        if (e.kind === "resistor") near(amps, v / e.ohms, 1 / e.ohms);
        else if (e.kind === "store") near(amps, (v - e.volts) / e.ohms, 1 / e.ohms);
        else if (e.kind === "feed") {
          const ohms = e.ohms ?? NaN;
          near(-amps, Math.max(0, Math.min(e.amps, (e.volts - v) / ohms)), 1 / ohms);
        } else if (e.kind === "draw") {
          const { law } = e;
          if (condition === "collapsed" || condition === "no source") near(amps, 0);
          else if ("amps" in law) near(amps, law.amps);
          else if ("watts" in law) near(amps * v, law.watts, v);
          else near(amps, v / law.ohms);
        } else if (out !== undefined) {
          // The two sides agree to 1e-9 of the converter's greatest power.
          const power = (found: number, expected: number) => {
            const within = 2e-9 * (e.volts * e.amps + (e.idleWatts ?? 0) + 1);
            assert.ok(Math.abs(found - expected) <= within, `${say}; ${found} W, expected ${expected} W`);
          };
          assert.ok(-out.amps >= -1e-9 * scale && -out.amps <= e.amps * (1 + 1e-9), say);
          assert.ok(-out.amps <= 1e-9 * scale || out.volts <= e.volts * (1 + 1e-9), say);
          if (condition === "collapsed" || condition === "no source") {
            near(amps, 0);
            near(out.amps, 0);
            return;
          }
          // Where the input limit does not even let through what idling takes, nothing is pushed.
          if (!point.converged || (condition === "input limited" && out.amps === 0)) return;
          power(amps * v, -(out.amps * out.volts) / e.efficiency + (out.amps < 0 || amps > 0 ? (e.idleWatts ?? 0) : 0));
          if (condition === "holding") assert.ok(Math.abs(out.volts / e.volts - 1) <= 2e-6, say);
          if (condition === "limited") near(-out.amps, e.amps);
          if (condition === "blocked") near(out.amps, 0);
          if (condition === "input limited") near(amps, e.inputAmps ?? NaN);
          if (condition === "passing" && amps > 0) assert.ok(Math.abs(v / (e.trackVolts ?? NaN) - 1) <= 2e-6, say);
          if (e.inputAmps !== undefined) assert.ok(amps <= e.inputAmps * (1 + 1e-9), say);
        }
      });
    }),
    { numRuns: 400 },
  );
});

test("agrees with a solver that tries all conditions of the chargers on a dense matrix", () => {
  for (let k = 0; k < 150; k++) {
    const network = makeRandomNetwork({ seed: 1000 + k, feeds: k % 4, demand: k % 2 === 0 ? 1 : 2 });
    const point = solveDc(network);
    assert.equal(point.collapses.length, 0);
    const tried = solveByTrial(network);
    for (const node of point.nodes) {
      // The trial stops when its volts move by less than 1e-11 V a round and gains a factor of 2 or more a round.
      assert.ok(Math.abs(node.volts - (tried.get(node.id) ?? NaN)) < 1e-9, `network ${k}: ${node.id}`);
    }
  }
});

/** A tree on either side, one store, loads that do not take less when the volts fall: on those the laws below are theorems. */
const radial = (wish: Pick<RandomNetworkWish, "seed">): DcNetwork =>
  makeRandomNetwork({ ...wish, nodes: 8, ties: 0, stores: 1, feeds: 0, laws: ["amps", "watts"] });
const drawVolts = (network: DcNetwork): readonly number[] => {
  const point = solveDc(network);
  assert.equal(point.collapses.length, 0);
  return network.elements.flatMap((e, k) => (e.kind === "draw" ? [point.elements[k]?.volts ?? NaN] : []));
};
// Nothing changes but for rounding: 1e-12 of 12 V.
const ROUNDING = 1e-11;

test("more copper never drops more on a radial build", () => {
  fc.assert(
    fc.property(seed, fc.nat(13), fc.double({ min: 0.1, max: 1, noNaN: true }), (s, which, part) => {
      const network = radial({ seed: s });
      const resistors = network.elements.filter((e) => e.kind === "resistor");
      const chosen = resistors[which % resistors.length]?.id;
      const thicker = {
        ...network,
        elements: network.elements.map((e) =>
          e.kind === "resistor" && e.id === chosen ? { ...e, ohms: e.ohms * part } : e,
        ),
      };
      const before = drawVolts(network);
      drawVolts(thicker).forEach((v, k) => {
        assert.ok(v >= (before[k] ?? NaN) - ROUNDING);
      });
    }),
  );
});

test("one load more never raises the volts at another on a radial build with one store", () => {
  fc.assert(
    fc.property(seed, fc.nat(7), fc.nat(7), fc.double({ min: 0, max: 60, noNaN: true }), (s, p, m, watts) => {
      const network = radial({ seed: s });
      const more: DcElement = { kind: "draw", id: "more", plus: `p${p}`, minus: `m${m}`, law: { watts } };
      const before = drawVolts(network);
      const after = drawVolts({ ...network, elements: [...network.elements, more] });
      before.forEach((v, k) => {
        assert.ok((after[k] ?? NaN) <= v + ROUNDING);
      });
    }),
  );
});

test("what loads do together is the sum of what each does alone, where all laws are straight", () => {
  fc.assert(
    fc.property(seed, (s) => {
      const network = makeRandomNetwork({ seed: s, feeds: 0, laws: ["amps"], demand: 0.5 });
      const prepared = prepareDc(network);
      const draws = network.elements.flatMap((e, k) => (e.kind === "draw" ? [k] : []));
      const volts = (on: readonly number[]) => {
        const values = prepared.values();
        for (const k of draws) values.on[k] = on.includes(k) ? 1 : 0;
        return Array.from(prepared.solve(values).nodeVolts);
      };
      const none = volts([]);
      const alone = draws.map((k) => volts([k]));
      volts(draws).forEach((v, i) => {
        const sum = alone.reduce((all, one) => all + (one[i] ?? NaN) - (none[i] ?? NaN), none[i] ?? NaN);
        assert.ok(Math.abs(v - sum) <= 1e-10);
      });
    }),
  );
});

test("the order of the elements changes nothing", () => {
  fc.assert(
    fc.property(anyBuild, seed, (network, s) => {
      const random = seeded(s);
      const shuffled = network.elements
        .map((e) => ({ e, at: random() }))
        .sort((a, b) => a.at - b.at)
        .map(({ e }) => e);
      const point = solveDc(network);
      const other = solveDc({ ...network, elements: shuffled });
      if (!point.converged) return;
      const scale = greatest(point.elements.map((e) => e.amps));
      for (const e of point.elements) {
        const same = other.elements.find((o) => o.id === e.id);
        assert.equal(same?.condition, e.condition, e.id);
        assert.ok(Math.abs(same.volts - e.volts) <= 1e-9 * 50, `${e.id}: ${e.volts} V, ${same.volts} V`);
        assert.ok(Math.abs(same.amps - e.amps) <= 1e-7 * scale, `${e.id}: ${e.amps} A, ${same.amps} A`);
      }
    }),
    { numRuns: 200 },
  );
});

test("volts and ohms times k leave the currents alone; amps times k, ohms by k leave the volts alone", () => {
  fc.assert(
    fc.property(seed, fc.constantFrom(0.01, 0.5, 4, 30), (s, k) => {
      const network = makeRandomNetwork({ seed: s });
      const scaled = (volts: number, amps: number): DcNetwork => ({
        ...network,
        elements: network.elements.map((e): DcElement => {
          const ohms = volts / amps;
          if (e.kind === "resistor") return { ...e, ohms: e.ohms * ohms };
          if (e.kind === "store") return { ...e, volts: e.volts * volts, ohms: e.ohms * ohms };
          if (e.kind === "feed") {
            return { ...e, volts: e.volts * volts, amps: e.amps * amps, ohms: (e.ohms ?? NaN) * ohms };
          }
          if (e.kind !== "draw") return e;
          const { law } = e;
          if ("amps" in law) return { ...e, law: { amps: law.amps * amps } };
          return { ...e, law: "watts" in law ? { watts: law.watts * volts * amps } : { ohms: law.ohms * ohms } };
        }),
      });
      const point = solveDc(network);
      for (const [volts, amps] of [
        [k, 1],
        [1, k],
      ] as const) {
        solveDc(scaled(volts, amps)).elements.forEach((e, i) => {
          const before = point.elements[i];
          assert.ok(before);
          assert.ok(Math.abs(e.volts / volts - before.volts) <= 1e-10);
          assert.equal(e.condition, before.condition);
        });
      }
    }),
  );
});

test("what a collapsed load could have had is what it can have: a little less stands, a little more does not", () => {
  let looked = 0;
  for (let s = 0; s < 120; s++) {
    const network = makeRandomNetwork({
      seed: s,
      demand: 12,
      stores: s % 3,
      feeds: 1 + (s % 2),
      laws: ["amps", "watts"],
    });
    const point = solveDc(network);
    const gone = point.collapses.map((c) => c.draw);
    for (const collapse of point.collapses) {
      assert.ok(collapse.most < collapse.asked * (1 + 1e-6), `${s}: ${collapse.draw}`);
      const stands = (part: number) => {
        const elements = network.elements
          .filter((e) => e.id === collapse.draw || !gone.includes(e.id))
          .map((e): DcElement => {
            if (e.kind !== "draw" || e.id !== collapse.draw) return e;
            const asked = collapse.most * part;
            return { ...e, law: collapse.unit === "W" ? { watts: asked } : { amps: asked } };
          });
        return solveDc({ ...network, elements }).collapses.length === 0;
      };
      assert.deepEqual([stands(0.999), stands(1.001)], [true, false], `${s}: ${JSON.stringify(collapse)}`);
      looked++;
    }
  }
  assert.ok(looked > 30, `${looked} collapses`);
});

test("the response to a small draw is what the network does", () => {
  fc.assert(
    fc.property(seed, fc.nat(11), fc.nat(11), (s, a, b) => {
      const network = makeRandomNetwork({ seed: s, nodes: 12 });
      const prepared = prepareDc(network);
      const node = (id: string) => prepared.nodes.indexOf(id);
      const plus = node(`p${a}`);
      const minus = node(`m${b}`);
      const all = Array.from(prepared.nodes.keys());
      const every = Array.from(prepared.elements.keys());
      const before = prepared.solve();
      const [volts, amps] = [before.nodeVolts.slice(), before.amps.slice()];
      const perAmp = { volts: new Float64Array(all.length), amps: new Float64Array(every.length) };
      assert.ok(prepared.respond(plus, minus, all, every, perAmp.volts, perAmp.amps));
      const small = 1e-5;
      const more: DcElement = { kind: "draw", id: "more", plus: `p${a}`, minus: `m${b}`, law: { amps: small } };
      const point = solveDc({ ...network, elements: [...network.elements, more] });
      // A corner of a charger between the two points is no fault of either: then the conditions differ.
      if (network.elements.some((_, k) => before.conditions[k] !== point.elements[k]?.condition)) return;
      // The curvature of constant power, P/v³·dv², is some 1e-9 of the change; the stay of a limited charger a 1e-6.
      all.forEach((i) => {
        const change = ((point.nodes[i]?.volts ?? NaN) - (volts[i] ?? NaN)) / small;
        assert.ok(Math.abs(change - (perAmp.volts[i] ?? NaN)) <= 2e-6, `${change} ${perAmp.volts[i] ?? NaN} V/A`);
      });
      every.forEach((k) => {
        const change = ((point.elements[k]?.amps ?? NaN) - (amps[k] ?? NaN)) / small;
        assert.ok(Math.abs(change - (perAmp.amps[k] ?? NaN)) <= 1e-4, `${change} ${perAmp.amps[k] ?? NaN} A/A`);
      });
    }),
  );
});

test("solving again with other numbers is the same as solving anew", () => {
  fc.assert(
    fc.property(anyBuild, seed, (network, s) => {
      const random = seeded(s);
      const prepared = prepareDc(network);
      for (let turn = 0; turn < 4; turn++) {
        const values = prepared.values();
        const elements = network.elements.map((e, k): DcElement => {
          const dice = Math.floor(random() * 8);
          if (e.kind === "resistor") {
            if (dice === 0) values.ohms[k] = 0;
            else if (dice < 4) values.ohms[k] = e.ohms * 2 * random();
            return { ...e, ohms: values.ohms[k] ?? NaN };
          }
          if (e.kind === "store" && dice < 4) values.volts[k] = e.volts * (0.98 + 0.04 * random());
          if (e.kind === "feed" && dice < 4) values.amps[k] = e.amps * random();
          if (e.kind === "store") return { ...e, volts: values.volts[k] ?? NaN };
          if (e.kind === "feed") return { ...e, amps: values.amps[k] ?? NaN };
          return e;
        });
        const off = network.elements.map(() => random() < 0.15);
        off.forEach((isOff, k) => (values.on[k] = isOff ? 0 : 1));
        prepared.solve(values);
        const again = prepared.describe();
        const anew = prepareDc({ ...network, elements });
        const same = anew.values();
        same.on.set(values.on);
        anew.solve(same);
        const first = anew.describe();
        assert.equal(again.converged, first.converged);
        if (!first.converged) return;
        first.elements.forEach((e, k) => {
          const other = again.elements[k];
          assert.equal(other?.condition, e.condition, e.id);
          assert.ok(Math.abs(other.volts - e.volts) <= 1e-9 && Math.abs(other.amps - e.amps) <= 1e-6, e.id);
        });
        assert.deepEqual(again.islands, first.islands);
      }
    }),
  );
});

test("whatever numbers come in, an answer of numbers comes out", () => {
  const wild = fc.oneof(
    fc.double(),
    fc.constantFrom(0, -0, 1e-320, 1e-9, 1e-8, 1e-7, 1e6, 1e12, NaN, Infinity, -Infinity, -1),
    fc.double({ min: 0, max: 100, noNaN: true }),
  );
  const node = fc.constantFrom("a", "b", "c", "d", "e");
  const port = { plus: node, minus: node };
  const element: fc.Arbitrary<DcElement> = fc.oneof(
    fc.record({ kind: fc.constant("resistor" as const), id: fc.string(), a: node, b: node, ohms: wild }),
    fc.record({ kind: fc.constant("store" as const), id: fc.string(), ...port, volts: wild, ohms: wild }),
    fc.record({ kind: fc.constant("feed" as const), id: fc.string(), ...port, volts: wild, amps: wild }),
    fc.record({ kind: fc.constant("feed" as const), id: fc.string(), ...port, volts: wild, amps: wild, ohms: wild }),
    fc.record({
      kind: fc.constant("draw" as const),
      id: fc.string(),
      ...port,
      law: fc.oneof(fc.record({ amps: wild }), fc.record({ watts: wild }), fc.record({ ohms: wild })),
    }),
    fc.record({
      kind: fc.constant("converter" as const),
      id: fc.string(),
      in: fc.record(port),
      out: fc.record(port),
      volts: wild,
      amps: wild,
      efficiency: fc.oneof(wild, fc.double({ min: 0.5, max: 1, noNaN: true })),
      idleWatts: wild,
      inputAmps: wild,
      input: fc.constantFrom("as needed" as const, "tracks" as const),
      trackVolts: wild,
    }),
  );
  fc.assert(
    fc.property(fc.array(element, { maxLength: 14 }), (elements) => {
      const began = performance.now();
      const point = solveDc({ elements });
      // JSON turns what is not a number into null.
      assert.deepEqual(JSON.parse(JSON.stringify(point)), point);
      assert.ok(performance.now() - began < 2000, "in bounded time");
    }),
    { numRuns: 1500 },
  );
});
