import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { kinds, makeGrid, resolveSystem, storeVolts, stripTrees, sumTrees, type System } from "./index.ts";

const HEAD = `wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V, return: BN }, AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] } }
parts:
  BN: { kind: bus bar }
  BP: { kind: bus bar }
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }
  B2: { like: B1 }
  SW: { kind: switch }
  PNL: { kind: panel, ways: 6, negative bar: yes }
  pump: { kind: load, running: 4 A }
  lamp: { kind: light, running: 0.5 A, count: 4 }
  INL: { kind: shore inlet }
  GI: { kind: galvanic isolator }
  CU: { kind: panel, ways: { 1: breaker 10 A 2-pole } }
  INV: { kind: inverter, rated: 800 VA }
  kettle: { kind: load, running: 4 A }
  chassis: { kind: structure, joints: [front, rear] }
circuits:
`;

function systemOf(circuits: string): System {
  const plan = readPlan(`${HEAD}${circuits}`, kinds);
  const { value, diagnostics } = resolveSystem(plan.value, kinds);
  const wrong = [...plan.diagnostics, ...diagnostics].filter((d) => d.level === "error");
  assert.deepEqual(
    wrong.map((d) => d.message),
    [],
  );
  return value;
}

const conductorsOf = (circuits: string): string[] =>
  systemOf(circuits).circuits.flatMap((c) => c.conductors.map((k) => `${k.id}: ${k.from} – ${k.to}, ${k.role}`));

// The table of docs/method.md section 1, row by row.
const expansions: readonly (readonly [says: string, circuit: string, conductors: readonly string[]])[] = [
  [
    "two ends with a minus get a pair",
    "  W1: { path: PNL:2 → pump, length: 3 m }",
    ["W1+: PNL:2:+ – pump:+, live", "W1−: PNL:2:− – pump:−, return"],
  ],
  [
    "an end of one pole sends the return to the system's bar",
    "  W1: { path: BP → pump, length: 3 m }",
    ["W1+: BP:pole – pump:+, live", "W1−: BN:pole – pump:−, return"],
  ],
  [
    "so does a battery's lead to a switch",
    "  W1: { path: B1 → SW, length: 1 m }",
    ["W1+: B1:+ – SW:in:pole, live", "W1−: B1:− – BN:pole, return"],
  ],
  [
    "but not when its minus has a circuit of its own",
    "  W1: { path: B1 → SW, length: 1 m }\n  W2: { path: B1:− → BN, length: 1 m }",
    ["W1+: B1:+ – SW:in:pole, live", "W2−: B1:− – BN:pole, return"],
  ],
  [
    "two points of one pole have one conductor",
    "  W1: { path: SW → BP, length: 1 m }",
    ["W1+: SW:out:pole – BP:pole, live"],
  ],
  ["a series link is live", "  W1: { path: B1:− → B2:+, length: 1 m }", ["W1: B1:− – B2:+, live"]],
  [
    "a feeder to a panel with a negative bar carries both poles",
    "  W1: { path: BP → PNL, length: 1 m }",
    ["W1+: BP:pole – PNL:in:+, live", "W1−: BN:pole – PNL:in:−, return"],
  ],
  [
    "a return can be forced through the chassis",
    "  W1: { path: BP → pump, length: 3 m, return: 'chassis:rear' }",
    ["W1+: BP:pole – pump:+, live", "W1−: chassis:rear:pole – pump:−, return"],
  ],
  ["or be left out", "  W1: { path: BP → pump, length: 3 m, return: none }", ["W1+: BP:pole – pump:+, live"]],
  [
    "alternating current takes the cores of its system, with a part set into the earth",
    "  W1: { path: INL → CU, length: 2 m, in PE: GI }",
    [
      "W1L: INL:L – CU:in:L, live",
      "W1N: INL:N – CU:in:N, return",
      "W1PE: INL:PE – GI:in:PE, protective",
      "W1PE': GI:out:PE – CU:in:PE, protective",
    ],
  ],
  [
    "an inverter is found by what flows at the other end",
    "  W1: { path: B1 → SW, length: 1 m }\n  W2: { path: SW → BP, length: 1 m }\n  W3: { path: BP → INV, length: 1 m }",
    [
      "W1+: B1:+ – SW:in:pole, live",
      "W1−: B1:− – BN:pole, return",
      "W2+: SW:out:pole – BP:pole, live",
      "W3+: BP:pole – INV:in:+, live",
      "W3−: BN:pole – INV:in:−, return",
    ],
  ],
];
for (const [says, circuit, conductors] of expansions) {
  test(says, () => {
    assert.deepEqual(conductorsOf(circuit), conductors);
  });
}

test("a load stands on the cores of the circuit that brings its line; what brings none adds to them", () => {
  const coresAt = (circuits: string): string[] => {
    const fed = `  W0: { path: INL → CU, length: 1 m }\n${circuits}`;
    const draw = systemOf(fed).elements.find((e) => e.is === "draw" && e.part === "kettle");
    assert.ok(draw?.is === "draw" && draw.alternating !== undefined);
    const { lines, neutral, earth } = draw.alternating;
    return [...lines, neutral, earth].flatMap((terminal) => terminal?.split(":").at(-1) ?? []);
  };
  const feed = "  W1: { path: CU:1 → kettle, length: 2 m }";
  assert.deepEqual(coresAt(feed), ["L", "N", "PE"]);
  // The neutral of another circuit that lands here as well takes nothing away.
  assert.deepEqual(coresAt(`${feed}\n  W2: { path: CU:N → kettle, length: 2 m, cores: [N] }`), ["L", "N", "PE"]);
  const two = "  W1: { path: CU:1 → kettle, length: 2 m, cores: [L, N] }";
  assert.deepEqual(coresAt(two), ["L", "N"]);
  assert.deepEqual(coresAt(`  W2: { path: CU:PE → kettle, length: 2 m, cores: [PE] }\n${two}`), ["L", "N", "PE"]);
  // A neutral that is written from the load.
  const bare = "  W1: { path: CU:1 → kettle, length: 2 m, cores: [L, PE] }";
  assert.deepEqual(coresAt(`${bare}\n  W2: { path: kettle → CU, length: 2 m, cores: [N] }`), ["L", "N", "PE"]);
});

test("a return that is given to alternating current is refused, with how a neutral elsewhere is written", () => {
  const said = (more: string): string[] => {
    const circuits = `  W0: { path: INL → CU, length: 1 m }\n  W1: { path: CU:1 → kettle, length: 2 m${more} }`;
    const plan = readPlan(`${HEAD}${circuits}`, kinds);
    return resolveSystem(plan.value, kinds).diagnostics.flatMap((d) =>
      d.id === "system/neutral-elsewhere" ? [`${d.level} ${d.about ?? ""}: ${d.hint ?? ""}`] : [],
    );
  };
  assert.deepEqual(said(", return: CU"), [
    "error circuits.W1.return: a neutral that really goes to `CU` is a circuit of its own with `cores: [N]`, and this one then has `cores: [L, PE]`",
  ]);
  assert.deepEqual(said(", return: none"), []);
  assert.deepEqual(said(""), []);
});

test("a load counted several times draws for all of them", () => {
  const draw = systemOf("  W1: { path: BP → lamp, length: 3 m }").elements.find(
    (e) => e.is === "draw" && e.part === "lamp",
  );
  assert.ok(draw?.is === "draw");
  assert.equal(draw.levels[0]?.amps.high, 2);
});

test("rest volts follow the measured curves: the rows themselves, straight lines between, flat beyond", () => {
  const lfp = { curve: "LFP", nominalVolts: 12.8 } as const;
  // reference/energy/lfp_ocv.csv prints 12.965 V for 4 cells at 20 % and 13.179 at 40 %.
  assert.ok(Math.abs(storeVolts(lfp, 0.2) - 12.965) < 0.0005);
  assert.ok(Math.abs(storeVolts(lfp, 0.4) - 13.179) < 0.0005);
  assert.equal(storeVolts(lfp, 1.2), storeVolts(lfp, 1));
  // lead_acid_rest_voltage.csv: 12.06 V at 25 %, 11.89 V at 0.
  const lead = { curve: "lead", nominalVolts: 24 } as const;
  assert.ok(Math.abs(storeVolts(lead, 0.2) - 2 * (11.89 + 0.8 * 0.17)) < 1e-9);
  for (let charge = 0; charge < 1; charge += 0.01) assert.ok(storeVolts(lfp, charge + 0.01) >= storeVolts(lfp, charge));
});

test("what flows in a tree is what hangs beyond it", () => {
  const system = systemOf(
    "  W1: { path: B1 → BP, length: 1 m }\n  W2: { path: BP → PNL, length: 1 m }\n  W3: { path: PNL:1 → pump, length: 3 m }\n  W4: { path: PNL:2 → lamp, length: 3 m }",
  );
  const grid = makeGrid(system);
  const kept = new Uint8Array(grid.nodeCount);
  for (const { plus, minus } of grid.stores) kept[plus] = kept[minus] = 1;
  const trees = stripTrees(grid, kept);
  const flow = new Float64Array(grid.nodeCount);
  for (const { element, plus, minus } of grid.draws) {
    const amps = element.levels[0]?.amps.high ?? 0;
    flow[plus] = (flow[plus] ?? 0) + amps;
    flow[minus] = (flow[minus] ?? 0) - amps;
  }
  const into = new Float64Array(grid.edges.length);
  sumTrees(trees, flow, into);
  const amps = Object.fromEntries(grid.edges.map((e, i) => [e.id, into[i]]));
  assert.equal(amps["W2+"], 6);
  assert.equal(amps["W2−"], -6);
  assert.equal(amps["W3+"], 4);
  assert.equal(amps["W4−"], -2);
  assert.equal(amps["PNL:1"], 4);
});

test("a bond between two points of one pole is one conductor of protective earth, though what it bonds is on the alternating side", () => {
  const all = conductorsOf("  W1: { path: INL → CU:in, length: 1 m }\n  W2: { path: CU:PE → chassis:front, length: 1 m }\n  W3: { path: BN → chassis:front, length: 1 m }\n"); // prettier-ignore
  assert.deepEqual(all.filter((c) => c.startsWith("W3")), ["W3PE: BN:pole – chassis:front:pole, protective"]); // prettier-ignore
});

test("a return that is drawn beside a pair's own is told, with both places and what to write", () => {
  const twice = (own: string): string[] => {
    const plan = readPlan(
      `${HEAD}  W1: { path: BP → pump, length: 5 m${own} }\n  W2: { path: pump:− → BN, length: 5 m }`,
      kinds,
    );
    return resolveSystem(plan.value, kinds).diagnostics.flatMap((d) =>
      d.id === "system/return-drawn-twice" ? [`${d.at.length} ${d.about ?? ""}: ${d.hint ?? ""}`] : [],
    );
  };
  assert.deepEqual(twice(""), ["2 circuits.W2: write `return: none` on `W1`, or delete `W2`"]);
  assert.deepEqual(twice(", return: none"), []);
});

test("a neutral that is drawn beside a circuit that brings its own is told, and one beside its line alone may be one cable with it", () => {
  const said = (cores: string, third = "  A3: { path: 'CU:N → kettle:N', length: 4 m }\n"): string[] => {
    const plan = readPlan(
      `wireworthy: 1\nsystems: { AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] } }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  CU: { kind: consumer unit, ways: { 1: breaker 10 A 2-pole } }\n  kettle: { kind: load, running: 5 A }\ncircuits:\n  A1: { path: INL → CU:in, length: 1 m }\n  A2: { path: CU:1 → kettle, length: 4 m${cores} }\n${third}`,
      kinds,
    );
    return resolveSystem(plan.value, kinds).diagnostics.flatMap((d) =>
      d.level === "hint" ? [`${d.id} ${d.about ?? ""}: ${d.hint ?? ""}`] : [],
    );
  };
  assert.deepEqual(said(""), ["system/return-drawn-twice circuits.A3: delete `A3`, or write `cores: [L, PE]` on `A2`"]);
  assert.deepEqual(said(", cores: [L, PE]"), [
    "system/cores-drawn-apart circuits.A3: where one cable holds both, delete `A3` and the `cores` of `A2`: a circuit of alternating current has line, neutral and protective earth",
  ]);
  assert.deepEqual(said("", ""), []);
});

test("a generator whose two keys say otherwise of its neutral is refused, with what to keep", () => {
  const said = (facts: string): string[] => {
    const plan = readPlan(
      `${HEAD.replace("  kettle:", `  GEN: { kind: generator, rated: 2 kVA${facts} }\n  kettle:`)}  W1: { path: GEN → kettle, length: 5 m }`,
      kinds,
    );
    return resolveSystem(plan.value, kinds).diagnostics.flatMap((d) =>
      d.id === "system/neutral-contradicts-itself" ? [`${d.level}: ${d.hint ?? ""}`] : [],
    );
  };
  assert.deepEqual(said(", neutral: floating, neutral–earth join: always"), [
    "error: keep one of them: `neutral: joined to earth` says the same as `neutral–earth join: always`",
  ]);
  assert.equal(said(", neutral: joined to earth, neutral–earth join: never").length, 1);
  assert.deepEqual(said(", neutral: floating, neutral–earth join: never"), []);
  assert.deepEqual(said(", neutral: floating"), []);
});

test("a fuse block that is the return of its supply gives its ways that supply's volts", () => {
  const { value } = readPlan(
    `wireworthy: 1
systems: { DC: { kind: DC, nominal: 48 V, return: BN }, LOW: { kind: DC, nominal: 24 V, return: FB } }
parts:
  BN: { kind: bus bar }
  FB: { kind: fuse block, ways: 4, negative bar: yes }
  B1: { kind: battery, nominal: 51.2 V, capacity: 100 Ah }
  TC: { kind: DC-DC converter, nominal: 24 V, output: 10 A }
  radio: { kind: electronics, running: 1.2 A }
circuits:
  W1: { path: B1 → TC:in, length: 1 m }
  W2: { path: TC:out → FB, length: 1 m }
  W3: { path: FB:2 → radio, length: 1 m }
`,
    kinds,
  );
  const system = resolveSystem(value, kinds).value;
  const supplyOf = (id: string): string | undefined => system.parts.find((p) => p.id === id)?.supply;
  assert.deepEqual([supplyOf("FB"), supplyOf("radio"), supplyOf("B1")], ["LOW", "LOW", "DC"]);
});
