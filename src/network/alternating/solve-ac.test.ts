import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { conduitImpedance, effectiveImpedance } from "../../wire/geometry/index.ts";
import { awgSize, metricSize } from "../../wire/index.ts";
import type { AcBranch, AcElement, AcLaw, AcLine, AcLoad, AcSource } from "./ac-network.ts";
import { conductorImpedance } from "./conductor-impedance.ts";
import { solveAc, voltsBetween } from "./solve-ac.ts";

const line = (node: string, volts: number, degrees = 0): AcLine => ({ node, volts, degrees });
const source = (lines: readonly AcLine[], more: Partial<AcSource> = {}): AcSource => ({
  kind: "source",
  id: "source",
  neutral: "N",
  lines,
  ohms: 0,
  reactance: 0,
  ...more,
});
const wire = (id: string, a: string, b: string, ohms: number, reactance = 0): AcBranch => ({
  kind: "branch",
  id,
  a,
  b,
  ohms,
  reactance,
});
const load = (id: string, a: string, b: string, law: AcLaw): AcLoad => ({ kind: "load", id, a, b, law });
const solve = (...elements: AcElement[]) => solveAc({ elements });
const near = (found: number | undefined, wanted: number, slack: number, says = ""): void => {
  assert.ok(found !== undefined && Math.abs(found - wanted) <= slack, `${says} ${found} against ${wanted}`);
};

/** A stiff source is 0.1 mΩ, and nothing here is known to better than a few of those times 100 A. */
const STIFF = 0.02;

describe("shared neutrals", () => {
  const split = (second: number, ohms = 0.02) =>
    solve(
      source([line("L1", 120, 0), line("L2", 120, second)]),
      wire("W L1", "L1", "a", 0.02),
      wire("W L2", "L2", "b", 0.02),
      wire("W N", "n", "N", ohms),
      load("left", "a", "n", { amps: 12, powerFactor: 1 }),
      load("right", "b", "n", { amps: 12, powerFactor: 1 }),
    );
  const neutral = (second: number, ohms?: number) =>
    split(second, ohms).branches.find(({ id }) => id === "W N")?.amps?.size;

  test("12 A on each of two lines: nothing where they swing against each other, 24 A where they swing together", () => {
    near(neutral(180), 0, 1e-9);
    near(neutral(0), 24, 1e-9);
    near(split(0).sources[0]?.neutralAmps.size, 24, 1e-9);
  });

  test("on two of three phases it carries as much as each of them, and on all three nothing", () => {
    near(neutral(120, 0), 12, 1e-9); // through its ohms the volts of the two would turn a little against each other
    const three = [0, -120, 120].map((degrees, i) => ({ degrees, node: `L${i + 1}` }));
    const point = solve(
      source(three.map(({ node, degrees }) => line(node, 230, degrees))),
      ...three.flatMap(({ node }) => [
        wire(`W ${node}`, node, `at ${node}`, 0.1, 0.01),
        load(node, `at ${node}`, "n", { va: 2000, powerFactor: 0.8 }),
      ]),
      wire("W N", "n", "N", 0.1, 0.01),
    );
    near(point.branches.find(({ id }) => id === "W N")?.amps?.size, 0, 1e-9);
    assert.ok(point.converged);
    near(voltsBetween(point, "L1", "L2")?.size, 230 * Math.sqrt(3), STIFF);
    near(point.sources[0]?.powerFactor ?? 0, 0.8, 0.01);
  });

  test("a load between two lines has the volts of both", () => {
    const point = solve(
      source([line("L1", 120, 0), line("L2", 120, 180)]),
      load("pump", "L1", "L2", { va: 1920, powerFactor: 1 }),
    );
    near(point.loads[0]?.volts.size, 240, STIFF);
    near(point.loads[0]?.amps.size, 8, 0.001);
    near(point.sources[0]?.neutralAmps.size, 0, 1e-9);
  });

  test("a load made for both lines works on none that swing together", () => {
    const point = solve(
      source([line("L1", 121, 0), line("L2", 120, 0)]),
      load("pump", "L1", "L2", { va: 1920, powerFactor: 1, volts: 240 }),
    );
    near(point.loads[0]?.volts.size, 1, STIFF);
    assert.equal(point.loads[0]?.condition, "as impedance");
    assert.ok(point.converged);
  });

  test("a lost neutral leaves two loads in series, and the smaller one gets the more volts", () => {
    const point = solve(
      source([line("L1", 120, 0), line("L2", 120, 180)]),
      load("large", "L1", "n", { va: 1200, powerFactor: 1, volts: 120 }), // 12 Ω
      load("small", "L2", "n", { va: 240, powerFactor: 1, volts: 120 }), // 60 Ω
    );
    near(point.loads.find(({ id }) => id === "small")?.volts.size, 200, STIFF);
    near(point.loads.find(({ id }) => id === "large")?.volts.size, 40, STIFF);
    assert.deepEqual(point.loads.map(({ condition }) => condition), ["as impedance", "as impedance"]); // prettier-ignore
  });
});

describe("voltage drop", () => {
  // NFPA 70 Chapter 9 Table 9, printed column "effective Z at 0.85 PF", uncoated copper in PVC conduit, Ω/kft (memory).
  const printed = [["10", 1.1], ["8", 0.69], ["6", 0.44], ["4", 0.29], ["2", 0.19], ["1/0", 0.13], ["4/0", 0.074], ["500", 0.043]] as const; // prettier-ignore

  test("is 2 · Ze · L · I of the effective impedance of NEC Chapter 9 Table 9 note 2, up to the turn of the volts", () => {
    const LENGTH = 304.8; // 1000 ft
    for (const [name, ze] of printed) {
      const size = awgSize(name);
      const z = size === null ? null : conduitImpedance(size, "copper", "PVC");
      if (z === null) {
        assert.equal(name, "500"); // kcmil
        continue;
      }
      // Three numbers of two digits go into two digits.
      near(effectiveImpedance(z, 0.85) * LENGTH, ze, 0.05 * ze, name);
      const [r, x] = [z.resistanceOhmsPerMetre * LENGTH, z.reactanceOhmsPerMetre * LENGTH];
      const amps = 6 / ze; // 6 V a conductor, 5 % of 240 V there and back
      const point = solve(
        source([line("L", 240)]),
        wire("out", "L", "a", r, x),
        wire("back", "n", "N", r, x),
        load("load", "a", "n", { amps, powerFactor: 0.85 }),
      );
      const drop = 240 - (point.loads[0]?.volts.size ?? 0);
      const formula = 2 * effectiveImpedance(z, 0.85) * LENGTH * amps;
      // What the formula leaves out: the part of the drop across the volts, (X · cos − R · sin)² · I² / 2U; and the source's 0.1 mΩ.
      const across = (2 * amps * (x * 0.85 - r * Math.sqrt(1 - 0.85 ** 2))) ** 2 / (2 * 240);
      near(drop, formula, across * 1.05 + 2e-4 * amps, name);
    }
  });

  test("a supply lead of 75 m of 2.5 mm² at 16 A takes about a sixth of 230 V more than 25 m of it would", () => {
    const size = metricSize(2.5);
    const z = conductorImpedance({
      make: { size, metal: "copper", plating: "plain", strands: "class 5" },
      conductorC: 70,
      hertz: 50,
      raceway: "cable",
    });
    const lost = (metres: number) =>
      230 -
      (solve(
        source([line("L", 230)]),
        wire("out", "L", "a", z.ohmsPerMetre * metres, z.reactancePerMetre * metres),
        wire("back", "n", "N", z.ohmsPerMetre * metres, z.reactancePerMetre * metres),
        load("heater", "a", "n", { amps: 16, powerFactor: 1 }),
      ).loads[0]?.volts.size ?? 0);
    // IEC 60228 class 5: 7.98 Ω/km at 20 °C, × 1.1965 at 70 °C: 9.55 mΩ/m; 2 · 16 · 9.55e-3 = 0.3056 V/m.
    near(lost(25), 7.64, 0.01);
    near(lost(75), 22.92, 0.02);
  });
});

describe("limits", () => {
  const limited = (law: AcLaw, more: Partial<AcSource>) =>
    solve(source([line("L", 120)], { ohms: 0.01, ...more }), load("load", "L", "N", law));

  test("an impedance makes a source sag to its rating, and it is told", () => {
    const point = limited({ ohms: 4, reactance: 0 }, { ratedVA: 3000 });
    assert.equal(point.sources[0]?.condition, "limited by source");
    near(point.sources[0]?.lines[0]?.amps.size, 25, 1e-6); // 3000 VA at 120 V
    near(point.loads[0]?.volts.size, 100, 1e-5);
    near(point.sources[0]?.load ?? 0, 1, 1e-8);
  });

  test("within its rating it does not", () => {
    const point = limited({ ohms: 5, reactance: 0 }, { ratedVA: 3000 });
    assert.deepEqual([point.sources[0]?.condition, point.sources[0]?.sag], ["gives", 1]);
  });

  test("a power that lower volts do not lessen overloads it", () => {
    const point = limited({ va: 3600, powerFactor: 1 }, { ratedVA: 3000 });
    assert.equal(point.sources[0]?.condition, "overloaded");
    near(point.sources[0]?.load ?? 0, 1.2, 0.005); // the 0.3 V in its 10 mΩ
    assert.ok(point.converged);
  });

  test("one line past its own limit counts, however little the other gives", () => {
    const point = solve(
      source([line("L1", 120, 0), line("L2", 120, 180)], { ratedVA: 6000, lineAmps: 25 }),
      load("load", "L1", "N", { amps: 40, powerFactor: 1 }),
    );
    assert.equal(point.sources[0]?.condition, "overloaded");
    near(point.sources[0]?.load ?? 0, 1.6, 1e-6);
  });

  test("more than E² / 4R is more than a line can carry, and it is said how much it can", () => {
    const ask = (va: number) =>
      solve(
        source([line("L", 230)]),
        wire("W", "L", "a", 0.4999),
        load("load", "a", "N", { va, powerFactor: 1 }),
        load("other", "L", "N", { amps: 1, powerFactor: 1 }),
      );
    const most = 230 ** 2 / (4 * 0.5); // with the 0.1 mΩ of the source; the other load takes 0.1 mV
    const below = ask(0.985 * most);
    assert.ok(below.converged);
    // The upper root of V² − E·V + P·R = 0.
    near(below.loads[0]?.volts.size, 115 * (1 + Math.sqrt(1 - 0.985)), 0.01);
    const above = ask(1.25 * most);
    assert.equal(above.converged, false);
    assert.equal(above.shortage?.load, "load");
    near(above.shortage?.bearable ?? 0, 0.8, 0.01 * 0.8);
    assert.match(above.shortage?.says ?? "", /asks for more than the line can carry/);
    assert.equal(above.loads[0]?.condition, "not borne");
  });
});

describe("plain data", () => {
  test("joints carry what flows through them, dead loads take nothing, islands are kept apart", () => {
    const point = solve(
      source([line("L", 230)]),
      wire("joint", "L", "bar", 0),
      wire("W", "bar", "a", 0.1),
      wire("PE", "case", "rod", 0.1),
      load("on", "a", "N", { va: 460, powerFactor: 0.5 }),
      load("off", "x", "N", { va: 460, powerFactor: 1 }),
    );
    near(point.branches[0]?.amps?.size, point.loads[0]?.amps.size ?? 0, 1e-9);
    assert.deepEqual([point.loads[1]?.condition, point.loads[1]?.amps.size], ["dead", 0]);
    assert.equal(voltsBetween(point, "case", "L"), null);
    assert.deepEqual(point.islands.map(({ sources }) => sources.length).sort(), [0, 1]);
    assert.deepEqual(JSON.parse(JSON.stringify(point)), point);
    // Lagging by 60 degrees.
    near((point.loads[0]?.volts.degrees ?? 0) - (point.loads[0]?.amps.degrees ?? 0), 60, 1e-9);
  });

  test("what cannot be used is told, and the rest is solved", () => {
    const point = solve(
      source([line("L", 230)]),
      wire("bad", "L", "a", NaN),
      load("odd", "L", "N", { va: 100, powerFactor: 1.2 }),
      load("good", "L", "N", { va: 230, powerFactor: 1 }),
    );
    assert.deepEqual(point.problems, [
      { problem: "unusable number", about: "bad", field: "ohms" },
      { problem: "unusable number", about: "odd", field: "powerFactor" },
    ]);
    near(point.loads[0]?.amps.size, 1, 1e-5);
  });

  test("a resonance without resistance has no solution", () => {
    const point = solve(
      wire("coil", "a", "b", 0, 1),
      load("capacitor", "a", "b", { ohms: 0, reactance: -1 }),
      load("rest", "b", "c", { ohms: 1, reactance: 0 }),
    );
    assert.equal(point.converged, false);
    assert.equal(point.problems[0]?.problem, "no solution");
  });
});
