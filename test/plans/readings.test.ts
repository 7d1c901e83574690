import assert from "node:assert/strict";
import { test } from "vitest";
import { routeRuns } from "../../src/route/index.ts";
import { makeGrid, reachAlternating, type System } from "../../src/system/index.ts";
import { systemOf } from "./read-plan-file.ts";

// What the plans of this folder mean, worked out by hand from what they say.

const conductorsOf = (system: System, circuit: string): string[] =>
  (system.circuits.find((c) => c.id === circuit)?.conductors ?? []).map(
    (c) => `${c.role} ${c.from} – ${c.to}, ${c.length.high} m`,
  );

const element = (system: System, id: string) => {
  const found = system.elements.find((e) => e.id === id);
  assert.ok(found !== undefined, `there is no ${id}`);
  return found;
};

test("the links of a string are live, on both sides of a fuse in them; the leads from its ends are plus and return", () => {
  const system = systemOf("series-bank.yaml");
  assert.deepEqual(conductorsOf(system, "W1"), ["live B1:+ – BP:pole, 0.5 m"]);
  assert.deepEqual(conductorsOf(system, "W2"), ["live B1:− – B2:+, 0.3 m"]);
  assert.deepEqual(conductorsOf(system, "W5"), ["live B3:− – F1:in:pole, 0.2 m", "live F1:out:pole – B4:+, 0.2 m"]);
  assert.deepEqual(conductorsOf(system, "W6"), ["return B4:− – BN:pole, 0.5 m"]);
});

test("a tap belongs to the supply that it feeds, the string to its own", () => {
  const system = systemOf("midpoint-tap.yaml");
  const supplyOf = (id: string) => system.parts.find((p) => p.id === id)?.supply;
  assert.deepEqual(["B1", "B2", "winch", "PNL12", "radio"].map(supplyOf), ["DC", "DC", "DC", "DC12", "DC12"]);
  assert.equal(system.circuits.find((c) => c.id === "W4")?.supply, "DC12");
});

test("a shunt between a battery's minus and the bar has a return on both sides", () => {
  const system = systemOf("shunt-in-the-negative.yaml");
  assert.deepEqual(conductorsOf(system, "W1"), ["return B1:− – SH:in:pole, 0.3 m"]);
  assert.deepEqual(conductorsOf(system, "W2"), ["return SH:out:pole – BN:pole, 0.3 m"]);
  assert.deepEqual(conductorsOf(system, "W3"), ["live B1:+ – BP:pole, 0.5 m"]);
});

test("the run leads to the first point of a joint, where the others hang on the same metal", () => {
  const system = systemOf("joints.yaml");
  assert.deepEqual(conductorsOf(system, "W2"), ["live BP:pole – lamp:+, 4 m", "return BN:pole – lamp:−, 4 m"]);
  assert.deepEqual(conductorsOf(system, "W3"), ["live PV1:+ – MPPT:in:+, 7 m", "return PV1:− – MPPT:in:−, 7 m"]);
  const { nodeOf } = makeGrid(system);
  for (const [a, b] of [
    ["lamp:+", "fan:+"],
    ["lamp:−", "fan:−"],
    ["PV1:+", "PV2:+"],
    ["PV1:−", "PV2:−"],
    ["bar one:pole", "bar two:pole"],
  ] as const) {
    assert.equal(nodeOf(a), nodeOf(b), `${a} and ${b}`);
  }
  assert.notEqual(nodeOf("lamp:+"), nodeOf("lamp:−"));
  assert.deepEqual(system.circuits.find((c) => c.id === "W2")?.draws, ["lamp", "fan"]);
});

test("each part is counted to the supply of its own side", () => {
  const system = systemOf("two-voltages.yaml");
  const supplies = Object.fromEntries(system.parts.map((p) => [p.id, p.supply]));
  assert.deepEqual(supplies, {
    B24: "DC24",
    B12: "DC12",
    BP24: "DC24",
    BN: "DC12", // a return of both: the first that names it
    CONV: "DC12",
    UP: "DC24",
    FB12: "DC12",
    ALT: "DC12",
    PV: "DC24",
    MPPT: "DC24",
    winch: "DC24",
    radio: "DC12",
  });
  const volts = ["CONV", "UP", "MPPT", "ALT"].map((id) => {
    const e = element(system, id);
    return e.is === "converter" || e.is === "feed" ? e.volts.high : 0;
  });
  // 14.4 V per 12 V where something charges; a converter holds its nominal.
  assert.deepEqual(volts, [12, 28.8, 28.8, 14.4]);
});

test("a return through chassis lands on the joint that is named, with the metres that are given", () => {
  const system = systemOf("chassis-return.yaml");
  assert.deepEqual(conductorsOf(system, "W2"), ["return BN:pole – chassis:front:pole, 0.4 m"]);
  assert.deepEqual(conductorsOf(system, "W4"), [
    "live BP:pole – lamp:+, 5 m",
    "return chassis:rear:pole – lamp:−, 0 m",
  ]);
  assert.deepEqual(conductorsOf(system, "W6"), [
    "live PNL:1:+ – fan:+, 4 m",
    "return chassis:rear:pole – fan:−, 0.3 m",
  ]);
  const ohms = ["chassis:front", "chassis:rear", "frame:left"].map((id) => {
    const e = element(system, id);
    return e.is === "contact" ? [e.ohms.low, e.ohms.high, e.ohms.origin] : [];
  });
  assert.deepEqual(ohms, [
    [0.0005, 0.0005, "given"],
    [0, 1, "unknown"],
    [0.002, 0.002, "given"],
  ]);
  assert.deepEqual(system.missing, [{ about: "chassis", fact: "joints: rear", why: "unknown" }]);
});

test("terminals that are written out are the ones that the same path without them finds", () => {
  const system = systemOf("named-terminals.yaml");
  const one = (id: string) => conductorsOf(system, id).map((c) => c.replace(/, .*/, ""));
  assert.deepEqual(one("W1"), ["live B1:+ – SEL:1:pole"]);
  assert.deepEqual(one("W3"), ["return B1:− – BN:pole"]);
  assert.deepEqual(one("W4"), ["return B2:− – BN:pole"]);
  assert.deepEqual(one("W6"), ["live SW:out:pole – BP:pole"]);
  assert.deepEqual(one("W7"), ["live BP:pole – PNL:in:+"]);
  assert.deepEqual(one("W8"), ["return BN:pole – PNL:in:−"]);
  assert.deepEqual(one("W11"), ["return BN:pole – DCDC:in:−"]);
});

test("cores that are written out are the conductors that there are", () => {
  const system = systemOf("cores-of-a-cable.yaml");
  const one = (id: string) => conductorsOf(system, id).map((c) => c.replace(/, .*/, ""));
  assert.deepEqual(one("W2"), ["live BP:pole – PNL:in:+", "return BN:pole – PNL:in:−"]);
  assert.deepEqual(one("W3"), ["protective PNL:1:PE – fan:PE", "live PNL:1:+ – fan:+", "return PNL:1:− – fan:−"]);
  assert.deepEqual(one("W4"), ["live PNL:2:+ – pump:+"]);
  assert.deepEqual(one("W5"), ["return pump:− – BN:pole"]);
});

test("an earth lead is one protective conductor, and neutral is joined to earth by one", () => {
  const system = systemOf("earth-leads.yaml");
  const one = (id: string) => conductorsOf(system, id).map((c) => c.replace(/, .*/, ""));
  assert.deepEqual(one("W5"), ["protective CU:in:PE – BE:pole"]);
  assert.deepEqual(one("W6"), ["protective BE:pole – BN:pole"]);
  assert.deepEqual(one("W8"), ["protective CU:in:N – CU:in:PE"]);
});

test("loads on either leg and across both add up at the inverter", () => {
  const system = systemOf("split-phase.yaml");
  const [state] = system.states;
  assert.ok(state !== undefined);
  // 1 A and 2 A from a line to neutral, 120 V; 8 A across both lines, 240 V
  assert.equal(reachAlternating(system)(state).get("INV"), 1 * 120 + 2 * 120 + 8 * 240);
});

test("a rack of four in parallel is one battery with four times the current and a quarter of the resistance", () => {
  const store = element(systemOf("hut.yaml", "examples"), "B");
  assert.ok(store.is === "store");
  assert.equal(store.nominalVolts, 51.2);
  assert.equal(store.shortCircuitAmps.high, 4 * 3000);
  assert.ok(Math.abs(store.ohms.high - 51.2 / 3000 / 4) < 1e-12);
});

test("a bundle counts in the zone that it is given for", () => {
  const system = systemOf("bundles-by-zone.yaml");
  const { runs } = routeRuns(system).value;
  assert.deepEqual(
    runs.map((r) => r.stretches.map((s) => [s.zone ?? "", s.bundle])),
    [
      [["", 4]],
      [
        ["engine space", 12],
        ["headliner", 6],
        ["", 2],
      ],
      [["engine space", 8]],
    ],
  );
});

test("feet, inches and yards are metres inside", () => {
  const system = systemOf("feet-and-inches.yaml");
  const [w1, w2, w3] = system.circuits;
  const near = (a: number | undefined, b: number): void => {
    assert.ok(Math.abs((a ?? NaN) - b) < 1e-9, `${a} and ${b}`);
  };
  near(w1?.length.high, 3 * 0.3048);
  near(w2?.length.high, 28.25 * 0.3048);
  near(w3?.length.high, 27 * 0.3048);
  assert.deepEqual(
    [w1, w2, w3].map((w) => w?.size !== "unknown" && w?.size?.label),
    ["2/0 AWG", "2 AWG", "250 kcmil"],
  );
  const devices = w3?.devices ?? "unknown";
  near(typeof devices === "string" ? undefined : devices[0]?.distance.high, 7 * 0.0254);
  near(system.zones[0]?.ambient?.high, 60);
});

test("what is unknown is listed, and nothing takes its place", () => {
  const system = systemOf("found-and-unknown.yaml");
  assert.deepEqual(
    system.missing.map((m) => `${m.about} ${m.fact} ${m.why}`).sort(),
    [
      "W1 fuse unknown",
      "W1 length unknown",
      "W1 wire unknown",
      "W2 fuse absent",
      "W3 bundle unknown",
      "W3 insulation unknown",
      "W4 length unknown",
      "W4 zone unknown",
      "old box kind unknown",
      "stereo running unknown",
    ].sort(),
  );
  const devices = Object.fromEntries(system.circuits.map((c) => [c.id, c.devices]));
  assert.equal(devices["W1"], "unknown");
  assert.equal(devices["W2"], "unknown", "nothing was written of its fuse, so nobody has looked");
  assert.deepEqual(devices["W3"], [], "there is none");
  assert.equal(system.circuits.find((c) => c.id === "W3")?.insulationC.low, 60);
});

test("labels give what their keys would, and circuits of one cable share its label, its sheath and their bundle", () => {
  const system = systemOf("labels.yaml");
  const circuit = (id: string) => {
    const found = system.circuits.find((c) => c.id === id);
    assert.ok(found !== undefined, id);
    return found;
  };
  const sizeOf = (id: string) => {
    const { size } = circuit(id);
    return typeof size === "object" ? size.label : size;
  };
  const main = circuit("W1");
  assert.equal(sizeOf("W1"), "2/0 AWG");
  assert.deepEqual(
    [main.metal, main.strands, main.insulationC.low, main.colours],
    ["tinned copper", "type 3", 105, [{ fn: "+", colour: ["RD"] }]],
  );
  // 65 · π/4 · 0.30² mm²
  const counted = circuit("W2").size;
  assert.ok(typeof counted === "object" && Math.abs(counted.areaMm2 / ((65 * Math.PI * 0.09) / 4) - 1) < 1e-9);
  for (const id of ["W3", "W4"]) {
    assert.equal(sizeOf(id), "14 AWG");
    assert.equal(circuit(id).sheathed, true);
    assert.deepEqual(circuit(id).cable?.circuits, ["W3", "W4"]);
    assert.equal(circuit(id).bundle, 4);
  }
  assert.deepEqual(
    circuit("W3").colours.map(({ fn, colour }) => `${fn} ${colour.join("/")}`),
    ["+ RD", "− YE"],
  );
  assert.deepEqual(circuit("W4").colours, []);
  // What stands under its own key counts before the label.
  assert.equal(circuit("W5").insulationC.low, 90);
  assert.equal(circuit("W6").cable?.isUnclear, true);
  // What was written and cannot be read is no leave to choose.
  assert.equal(circuit("W7").size, "unknown");
});
