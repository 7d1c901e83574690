import { test } from "vitest";
import assert from "node:assert/strict";
import type { DcConverter, DcElement, DcLaw, DcNetwork } from "./dc-network.ts";
import type { ElementPoint, OperatingPoint } from "./operating-point.ts";
import { solveDc } from "./solve-dc.ts";

const resistor = (id: string, a: string, b: string, ohms: number): DcElement => ({ kind: "resistor", id, a, b, ohms });
const store = (id: string, plus: string, minus: string, volts: number, ohms: number): DcElement => ({
  kind: "store",
  id,
  plus,
  minus,
  volts,
  ohms,
});
const feed = (id: string, plus: string, minus: string, volts: number, amps: number, ohms?: number): DcElement => ({
  kind: "feed",
  id,
  plus,
  minus,
  volts,
  amps,
  ...(ohms === undefined ? {} : { ohms }),
});
const draw = (id: string, plus: string, minus: string, law: DcLaw, leastVolts = 0): DcElement => ({
  kind: "draw",
  id,
  plus,
  minus,
  law,
  leastVolts,
});
const converter = (
  id: string,
  from: readonly [string, string],
  to: readonly [string, string],
  rest: Pick<DcConverter, "volts" | "amps" | "efficiency"> & Partial<DcConverter>,
): DcElement => ({
  kind: "converter",
  id,
  in: { plus: from[0], minus: from[1] },
  out: { plus: to[0], minus: to[1] },
  input: "as needed",
  ...rest,
});

const solve = (...elements: DcElement[]) => {
  const point = solveDc({ elements });
  assert.ok(point.converged);
  assert.ok(point.worstKirchhoffAmps < 1e-9);
  return point;
};
const of = (point: OperatingPoint, id: string): ElementPoint => {
  const found = point.elements.find((e) => e.id === id);
  assert.ok(found, id);
  return found;
};
/** Double precision leaves some 1e-13 in these small networks. */
const near = (found: number, expected: number, within = 1e-11) => {
  assert.ok(Math.abs(found - expected) <= within * Math.max(1, Math.abs(expected)), `${found}, expected ${expected}`);
};

// --- straight laws ---

test("a divider: 12 V over 1 Ω and 2 Ω", () => {
  const point = solve(store("B", "+", "-", 12, 0), resistor("R1", "+", "x", 1), resistor("R2", "x", "-", 2));
  // A store without resistance has 0.1 µΩ: 3e-8 of the 3 Ω.
  near(of(point, "R2").volts, 8, 1e-7);
  near(of(point, "B").watts, -48, 1e-7);
  assert.equal(of(point, "B").condition, "pushing");
});

test("two unequal batteries side by side: the fuller one charges the other", () => {
  const point = solve(
    store("B1", "+", "-", 13.2, 0.01),
    store("B2", "b", "-", 12.6, 0.02),
    resistor("link", "+", "b", 0.03),
  );
  near(of(point, "link").amps, 0.6 / 0.06);
  assert.deepEqual([of(point, "B1").condition, of(point, "B2").condition], ["pushing", "taking"]);
  near(of(point, "B2").volts, 12.8);
});

/**
 * Four units of 1 mΩ on bus rows whose links have `link` Ω; 100 A taken between the plus of one unit and the minus of
 * another.
 */
const bank = (link: number, minusAt: number) => {
  const elements: DcElement[] = [draw("load", "p0", `m${minusAt}`, { amps: 100 })];
  for (let u = 0; u < 4; u++) {
    elements.push(store(`B${u}`, `p${u}`, `m${u}`, 13, 0.001));
    if (u > 0)
      elements.push(resistor(`p${u}`, `p${u - 1}`, `p${u}`, link), resistor(`m${u}`, `m${u - 1}`, `m${u}`, link));
  }
  const point = solve(...elements);
  return [0, 1, 2, 3].map((u) => -of(point, `B${u}`).amps);
};

test("four batteries in parallel share badly when both leads leave from the same end", () => {
  // Computed figures of a practitioner, to their digits: 73/20/5/2 A. Exact by hand: a ladder whose currents stand as
  // 55 : 15 : 4 : 1.3…
  assert.deepEqual(bank(1e-3, 0).map(Math.round), [73, 20, 5, 2]);
});

test("four batteries taken off diagonally share in pairs, and well only with links far below their own resistance", () => {
  // The same source: 37.5/12.5/12.5/37.5 A with links of 1 mΩ, 27/23/23/27 A with 0.1 mΩ.
  bank(1e-3, 3).forEach((amps, u) => {
    near(amps, [37.5, 12.5, 12.5, 37.5][u] ?? 0);
  });
  assert.deepEqual(bank(1e-4, 3).map(Math.round), [27, 23, 23, 27]);
});

test("a string of two units with a load on its mid-point", () => {
  // Lower unit carries 10 + 4 A, upper 10 A; the tap lead of 50 mΩ loses 0.2 V.
  const point = solve(
    store("lower", "mid", "-", 12.5, 0.01),
    store("upper", "+", "mid", 12.5, 0.01),
    resistor("tap", "mid", "t", 0.05),
    draw("24 V load", "+", "-", { amps: 10 }),
    draw("12 V load", "t", "-", { amps: 4 }),
  );
  near(of(point, "lower").volts, 12.5 - 0.14);
  near(of(point, "upper").volts, 12.4);
  near(of(point, "12 V load").volts, 12.36 - 0.2);
  assert.equal(point.islands[0]?.reference, "-");
});

test("a structure shares the return with the wire, in proportion to conductance", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    draw("load", "+", "l-", { amps: 30 }),
    resistor("wire", "l-", "-", 0.004),
    resistor("bolt 1", "l-", "chassis", 0.003),
    resistor("bolt 2", "chassis", "-", 0.005),
  );
  near(of(point, "wire").amps, 20);
  near(of(point, "bolt 2").amps, 10);
});

// --- constant power ---

test("constant power stands on the upper root of V² − E·V + R·P = 0, up to a billionth below E²/4R", () => {
  for (const part of [1e-6, 0.3, 0.9, 0.999, 1 - 1e-6, 1 - 1e-9]) {
    const watts = 360 * part;
    const point = solve(store("B", "+", "-", 12, 0.01), resistor("W", "+", "x", 0.09), draw("L", "x", "-", { watts }));
    // Near the limit the root moves with the square root of the demand: 1e-16 there is 1e-8 here.
    near(of(point, "L").volts, 6 + Math.sqrt(36 - 0.1 * watts), part > 0.999 ? 1e-7 : 1e-11);
    near(of(point, "L").watts, watts);
  }
});

test("beyond E²/4R the load collapses: said with what it could have had and what is in the way, and the rest is solved", () => {
  for (const part of [1 + 1e-9, 1.01, 2, 1000]) {
    const point = solve(
      store("B", "+", "-", 12, 0.01),
      resistor("W", "+", "x", 0.09),
      draw("big", "x", "-", { watts: 360 * part }),
      draw("small", "+", "-", { ohms: 12 }),
    );
    assert.equal(of(point, "big").condition, "collapsed");
    assert.equal(of(point, "big").amps, 0);
    near(of(point, "small").volts, 12 / (1 + 0.01 / 12), 1e-9);
    const [collapse] = point.collapses;
    assert.ok(collapse);
    assert.deepEqual([collapse.draw, collapse.cause, collapse.unit], ["big", "W", "W"]);
    // With the 12 Ω beside it the source is a shade weaker: E' = 11.99 V, R' = 0.09 + 0.00999 Ω.
    const [e, r] = [12 / (1 + 0.01 / 12), 0.09 + 1 / (100 + 1 / 12)];
    near(collapse.most, (e * e) / (4 * r), 1e-6);
    near(collapse.atVolts, e / 2, 1e-3);
    near(collapse.share, 0.09 / (0.09 + 0.01), 1e-3);
  }
});

test("of two loads on one thin lead the one that weighs more gives way, and the other stands", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    resistor("W", "+", "x", 0.09),
    draw("inverter", "x", "-", { watts: 330 }),
    draw("fridge", "x", "-", { watts: 60 }),
  );
  assert.equal(of(point, "inverter").condition, "collapsed");
  near(of(point, "fridge").volts, 6 + Math.sqrt(36 - 6));
});

test("a load in amperes collapses when its lead cannot carry them even as a short", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    resistor("W", "+", "x", 0.99),
    draw("winch", "x", "-", { amps: 20 }),
    draw("lamp", "+", "-", { amps: 1 }),
  );
  assert.equal(of(point, "winch").condition, "collapsed");
  near(of(point, "lamp").volts, 11.99);
  const [collapse] = point.collapses;
  assert.equal(collapse?.unit, "A");
  near(collapse.most, 11.99, 1e-5);
  assert.equal(collapse.cause, "W");
});

test("below its least volts a load still takes, and it is said", () => {
  const point = solve(store("B", "+", "-", 12, 0.1), draw("fridge", "+", "-", { amps: 10 }, 11.5));
  assert.equal(of(point, "fridge").condition, "below least volts");
  near(of(point, "fridge").volts, 11);
});

// --- feeds ---

test("a charger holds its volts, comes to its limit, or is blocked by a fuller battery", () => {
  const at = (amps: number, emf: number) => {
    const point = solve(
      feed("C", "c", "-", 14.4, 30, 0.001),
      resistor("W", "c", "b", 0.004),
      store("B", "b", "-", emf, 0.005),
      draw("L", "b", "-", { amps }),
    );
    return of(point, "C");
  };
  // Holding: the battery takes (14.4 − 14.3) / 10 mΩ = 10 A.
  near(at(0, 14.3).amps, -10);
  assert.equal(at(0, 14.3).condition, "holding");
  near(at(50, 14.3).amps, -30);
  assert.equal(at(50, 14.3).condition, "limited");
  assert.deepEqual([at(0, 14.5).amps, at(0, 14.5).condition], [0, "blocked"]);
  // 20 A of load pull the battery to 14.4 V: there it begins to push.
  assert.equal(at(30, 14.5).condition, "holding");
});

test("a charger alone carries what it can, and is named as the cause beyond that", () => {
  const at = (watts: number) => solve(feed("C", "+", "-", 14.4, 30), draw("L", "+", "-", { watts }));
  near(of(at(431), "L").volts, 14.4, 2e-6);
  const point = at(433);
  assert.equal(of(point, "L").condition, "collapsed");
  assert.equal(point.collapses[0]?.cause, "C");
  near(point.collapses[0]?.most ?? 0, 432, 3e-6);
  const amps = solve(
    feed("C", "+", "-", 14.4, 30),
    draw("L1", "+", "-", { amps: 40 }),
    draw("L2", "+", "-", { amps: 20 }),
  );
  assert.deepEqual([of(amps, "L1").condition, of(amps, "L2").condition], ["collapsed", "taking"]);
  assert.equal(amps.collapses[0]?.cause, "C");
});

test("two chargers of different set points: the higher one works, until it is at its limit", () => {
  const at = (amps: number) =>
    solve(feed("A", "+", "-", 14.4, 20, 0.001), feed("B", "+", "-", 14.2, 40, 0.001), draw("L", "+", "-", { amps }));
  const conditions = (amps: number) => ["A", "B"].map((id) => of(at(amps), id).condition);
  assert.deepEqual(conditions(15), ["holding", "blocked"]);
  assert.deepEqual(conditions(50), ["limited", "holding"]);
  near(of(at(50), "B").amps, -30);
  near(of(at(50), "L").volts, 14.2 - 0.03);
});

test("modules in a string: the weaker one sets the current, unless a diode leads round it", () => {
  const string = [
    feed("P1", "a", "-", 20, 5, 0.1),
    feed("P2", "b", "a", 20, 8, 0.1),
    resistor("W", "b", "+", 0.01),
    store("B", "+", "-", 26, 0.01),
  ];
  near(-of(solve(...string), "P2").amps, 5);
  const shaded = [feed("P1", "a", "-", 20, 1, 0.1), ...string.slice(1, 3), store("B", "+", "-", 12, 0.01)];
  near(-of(solve(...shaded), "P2").amps, 1);
  const bypassed = solve(...shaded, feed("diode", "a", "-", 0, 20));
  near(-of(bypassed, "P2").amps, 8);
  near(-of(bypassed, "diode").amps, 7);
});

test("modules of equal limits in a string, and a string that stays below the battery, have an answer", () => {
  const string = (volts: number) =>
    solve(feed("P1", "a", "-", volts, 5), feed("P2", "+", "a", volts, 5), store("B", "+", "-", 12, 0.01));
  near(-of(string(20), "P1").amps, 5);
  near(of(string(5), "B").amps, 0);
});

// --- what no source reaches ---

test("behind an open switch nothing is taken, and that is not a collapse", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    resistor("panel", "p", "x", 0.001),
    draw("lamp", "x", "-", { amps: 5 }),
    draw("radio", "p", "-", { watts: 20 }),
    draw("pump", "+", "-", { amps: 1 }),
  );
  assert.deepEqual(
    ["lamp", "radio", "pump"].map((id) => of(point, id).condition),
    ["no source", "no source", "taking"],
  );
  assert.equal(point.collapses.length, 0);
  const dead = point.islands.filter((island) => !island.live);
  assert.deepEqual(dead, [{ reference: "p", nodes: ["p", "x"], live: false, unreached: ["lamp", "radio"] }]);
});

test("a dead panel with a heater on it is dead too, though the heater ties it to the common minus", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    draw("heater", "p", "-", { ohms: 2 }),
    draw("lamp", "p", "-", { amps: 5 }),
    draw("pump", "+", "-", { amps: 1 }),
  );
  assert.deepEqual([of(point, "heater").condition, of(point, "lamp").condition], ["no source", "no source"]);
  near(of(point, "heater").amps, 0);
});

test("a load connected the wrong way round takes nothing and is named", () => {
  const point = solve(store("B", "+", "-", 12, 0.01), draw("radio", "-", "+", { watts: 20 }));
  assert.deepEqual([of(point, "radio").condition, of(point, "radio").amps], ["reversed", 0]);
});

test("two separate systems are two islands, each with a reference of its own", () => {
  const point = solveDc({
    elements: [
      store("B1", "+", "-", 12, 0.01),
      store("B2", "2+", "2-", 24, 0.01),
      draw("across", "2+", "-", { amps: 3 }),
    ],
    ground: "+",
  });
  assert.deepEqual(
    point.islands.map((i) => i.reference),
    ["+", "2-"],
  );
  near(point.nodes.find((n) => n.id === "-")?.volts ?? 0, -12);
  assert.equal(of(point, "across").condition, "no source");
});

// --- joints without resistance ---

test("what flows in a joint of 0 Ω is told", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    resistor("bar 1", "+", "bar", 0),
    resistor("bar 2", "far", "bar", 0),
    draw("near", "bar", "-", { amps: 3 }),
    draw("away", "far", "-", { amps: 4 }),
  );
  near(of(point, "bar 1").amps, 7);
  near(of(point, "bar 2").amps, -4);
  assert.equal(of(point, "bar 1").condition, "joined");
});

test("in a ring of 0 Ω no share can be known, and it is said; the rest is not disturbed", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    resistor("link 1", "+", "x", 0),
    resistor("link 2", "+", "x", 0),
    draw("L", "x", "-", { amps: 8 }),
  );
  assert.deepEqual([of(point, "link 1").condition, of(point, "link 2").condition], ["share unknown", "share unknown"]);
  near(of(point, "link 1").amps + of(point, "link 2").amps, 8);
  near(of(point, "L").volts, 11.92);
});

test("a store shorted by a joint pushes all it can through the joint", () => {
  const point = solve(store("B", "+", "-", 12, 0.01), resistor("spanner", "+", "-", 0));
  near(of(point, "spanner").amps, 1200);
});

// --- converters ---

test("a converter takes output ÷ efficiency + idle from its input", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.02),
    converter("up", ["+", "-"], ["24+", "24-"], { volts: 24, amps: 10, efficiency: 0.9, idleWatts: 3 }),
    draw("L", "24+", "24-", { amps: 5 }),
  );
  // Output 120 W less a millionth at half of its range; input 136.33 W out of 12 V behind 20 mΩ.
  const watts = (5 * 24 * (1 - 0.5e-6)) / 0.9 + 3;
  near(of(point, "up").watts, watts, 1e-8);
  near(of(point, "up").volts, 6 + Math.sqrt(36 - 0.02 * watts), 1e-8);
  assert.equal(of(point, "up").condition, "holding");
});

test("a charger between two batteries is limited by its output or by its input, whichever comes first", () => {
  const at = (inputAmps: number) =>
    of(
      solve(
        store("start", "s", "-", 13.8, 0.01),
        converter("DC-DC", ["s", "-"], ["h", "-"], { volts: 14.4, amps: 30, efficiency: 0.92, inputAmps }),
        store("house", "h", "-", 13, 0.01),
      ),
      "DC-DC",
    );
  assert.equal(at(100).condition, "limited");
  near(at(100).out?.amps ?? 0, -30);
  near(at(100).watts, (30 * 13.3) / 0.92, 1e-8);
  assert.equal(at(20).condition, "input limited");
  near(at(20).amps, 20);
  near(-(at(20).out?.watts ?? 0), 0.92 * 20 * 13.6, 1e-8);
});

test("a converter that its lead cannot feed collapses, and what hangs on it is dead", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    resistor("W", "+", "x", 0.2),
    converter("inverter", ["x", "-"], ["L", "N"], { volts: 230, amps: 9, efficiency: 0.9 }),
    draw("kettle", "L", "N", { watts: 1000 }),
  );
  assert.deepEqual([of(point, "inverter").condition, of(point, "kettle").condition], ["collapsed", "no source"]);
  const [collapse] = point.collapses;
  assert.equal(collapse?.cause, "W");
  near(collapse.asked, 1000 / 0.9, 1e-5);
  near(collapse.most, 144 / (4 * 0.21), 1e-6);
});

test("a solar controller holds its input and passes on what arrives, until the battery is full", () => {
  const at = (sun: number, emf: number) => {
    const point = solve(
      feed("PV", "p", "p-", 22, sun, 0.2),
      converter("MPPT", ["p", "p-"], ["b", "-"], {
        volts: 14.4,
        amps: 30,
        efficiency: 0.97,
        input: "tracks",
        trackVolts: 18,
      }),
      resistor("W", "b", "c", 0.004),
      store("B", "c", "-", emf, 0.006),
    );
    return of(point, "MPPT");
  };
  const passing = at(6, 13);
  assert.equal(passing.condition, "passing");
  near(passing.volts, 18, 1e-6);
  near(-(passing.out?.watts ?? 0), 0.97 * 6 * passing.volts, 1e-8);
  const full = at(6, 14.37);
  // Holding 14.4 V, the battery takes 30 mV / 10 mΩ = 3 A; the modules go up to where they give no more than that.
  assert.equal(full.condition, "holding");
  near(-(full.out?.amps ?? 0), 3, 1e-3);
  assert.ok(full.volts > 18 && full.volts < 22);
  near(full.watts, -(full.out?.watts ?? 0) / 0.97, 1e-8);
  assert.equal(at(6, 14.5).condition, "blocked");
  assert.equal(at(0, 13).condition, "no source");
});

test("a charger on the inverter of its own bank settles at its limit and drains the bank by both losses", () => {
  for (const emf of [12.8, 14.2, 14.39]) {
    for (const lead of [0.0005, 0.002, 0.02]) {
      const point = solve(
        store("bank", "b", "-", emf, 0.005),
        converter("inverter", ["b", "-"], ["L", "N"], { volts: 230, amps: 9, efficiency: 0.9, idleWatts: 15 }),
        converter("charger", ["L", "N"], ["c", "-"], { volts: 14.4, amps: 60, efficiency: 0.9 }),
        resistor("W", "c", "b", lead),
      );
      const [inverter, charger] = [of(point, "inverter"), of(point, "charger")];
      near(inverter.watts, -(inverter.out?.watts ?? 0) / 0.9 + 15, 1e-7);
      near(charger.watts, -(charger.out?.watts ?? 0) / 0.9, 1e-7);
      assert.ok(of(point, "bank").amps < 0, "the bank empties");
      // Whatever is lost comes out of the bank: nothing runs for ever.
      near(point.powerErrorWatts, 0, 1e-6);
    }
  }
});

test("converters that only feed each other are dead", () => {
  const to = { volts: 14, amps: 30, efficiency: 0.9 };
  const point = solve(converter("a", ["1", "-"], ["2", "-"], to), converter("b", ["2", "-"], ["1", "-"], to));
  assert.deepEqual([of(point, "a").condition, of(point, "b").condition], ["no source", "no source"]);
});

// --- whatever is given ---

test("an empty network and one without sources have an answer", () => {
  assert.deepEqual(solveDc({ elements: [] }).elements, []);
  const point = solve(resistor("R", "a", "b", 1), draw("L", "a", "b", { amps: 1 }));
  assert.equal(of(point, "L").condition, "no source");
});

test("an unusable number leaves its element out, is reported, and the rest is solved", () => {
  const bad = [NaN, -1, Infinity, -Infinity, 1e300];
  const rest = [store("B", "+", "-", 12, 0.01), draw("lamp", "+", "-", { amps: 2 })];
  for (const value of bad) {
    const elements: DcElement[] = [
      resistor("x", "+", "a", value),
      store("x", "+", "-", value, 0.01),
      store("x", "+", "-", 12, value),
      feed("x", "+", "-", value, 10),
      feed("x", "+", "-", 14, value),
      draw("x", "+", "-", { amps: value }),
      draw("x", "+", "-", { watts: value }),
      draw("x", "+", "-", { ohms: value }),
      converter("x", ["+", "-"], ["o", "-"], { volts: value, amps: 1, efficiency: 0.9 }),
      converter("x", ["+", "-"], ["o", "-"], { volts: 5, amps: 1, efficiency: value }),
      converter("x", ["+", "-"], ["o", "-"], {
        volts: 5,
        amps: 1,
        efficiency: 0.9,
        input: "tracks",
        trackVolts: value,
      }),
    ];
    for (const element of elements) {
      const point = solve(element, ...rest);
      assert.equal(of(point, "x").condition, "off");
      assert.deepEqual([point.problems.length, point.problems[0]?.problem], [1, "unusable number"]);
      assert.equal(point.problems[0]?.found, String(value));
      near(of(point, "lamp").volts, 11.98);
    }
  }
});

test("what is not an element at all is reported too", () => {
  const elements = [
    null,
    { kind: "teapot", id: "t" },
    { kind: "resistor", id: "r", a: "+", ohms: 1 },
    { kind: "draw", id: "d", plus: "+", minus: "-" },
    { kind: "converter", id: "c", in: { plus: "+", minus: "-" }, input: "as needed" },
    { kind: "store", id: "__proto__", plus: "+", minus: "constructor", volts: 12, ohms: 0.1 },
  ];
  // As it might come out of a file: the types promise nothing here.
  const point = solveDc({ elements, ground: "nowhere" } as unknown as DcNetwork);
  assert.deepEqual(
    point.problems.map((p) => [p.problem, p.about, p.field]),
    [
      ["unknown kind", "#0", "kind"],
      ["unknown kind", "t", "kind"],
      ["unknown kind", "r", "b"],
      ["unknown kind", "d", "law"],
      ["unknown kind", "c", "out."],
      ["unknown ground", "", "ground"],
    ],
  );
  near(of(point, "__proto__").volts, 12);
});

test("the result is plain data", () => {
  const point = solve(
    store("B", "+", "-", 12, 0.01),
    draw("big", "+", "-", { watts: 1e6 }),
    resistor("x", "+", "y", NaN),
  );
  assert.deepEqual(JSON.parse(JSON.stringify(point)), point);
});

test("hundreds of loads that a feeder cannot bear together end in bounded time, and what is left stands", () => {
  const elements: DcElement[] = [store("B", "+", "-", 12, 0.01), resistor("feeder", "+", "p", 0.04)];
  for (let k = 0; k < 300; k++) {
    elements.push(resistor(`W${k}`, "p", `x${k}`, 0.05), draw(`L${k}`, `x${k}`, "-", { watts: 10 + k / 50 }));
  }
  const point = solve(...elements);
  // The feeder alone gives 720 W; together they ask for 3900 W.
  assert.ok(point.problems.some((p) => p.problem === "collapsed together"));
  const standing = point.elements.filter((e) => e.condition === "taking");
  assert.ok(standing.length > 10, `${standing.length} stand`);
  assert.ok(standing.every((e) => e.volts > 5));
});

test("loads that ask for too much even alone are all named, however many", () => {
  const elements: DcElement[] = [store("B", "+", "-", 12, 0.01)];
  for (let k = 0; k < 300; k++) {
    elements.push(resistor(`W${k}`, "+", `x${k}`, 0.5), draw(`L${k}`, `x${k}`, "-", { watts: 100 + k }));
  }
  const point = solve(...elements, draw("lamp", "+", "-", { amps: 1 }));
  assert.equal(of(point, "lamp").condition, "taking");
  assert.equal(point.elements.filter((e) => e.condition === "collapsed").length, 300);
  assert.deepEqual(point.problems, []);
  assert.ok(
    point.collapses.every(
      (c) => Math.abs(c.most / (11.99 ** 2 / 4 / 0.51) - 1) < 1e-3 && c.cause === c.draw.replace("L", "W"),
    ),
  );
});
