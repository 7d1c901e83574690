import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { givesIn, kinds, resolveSystem, type GivenState } from "./index.ts";

const PARTS = `  INV: { kind: inverter/charger, rated: 3000 VA, charging: 70 A, neutral–earth join: closed when inverting }
  CU: { kind: consumer unit, ways: { 1: breaker 16 A 2-pole } }
  kettle: { kind: outlet, running: 8 A }`;

function resolved(parts: string, circuits: string, states = "") {
  const read = readPlan(
    `wireworthy: 1
systems: { AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] } }
parts:
${parts}
${PARTS}
circuits:
${circuits}
  A8: { path: INV:out → CU, length: 3 m }
  A9: { path: CU:1 → kettle, length: 3 m }
${states === "" ? "" : `states:\n${states}`}
`,
    kinds,
  );
  const { value, diagnostics } = resolveSystem(read.value, kinds);
  return {
    system: value,
    sources: value.elements.flatMap((e) => (e.is === "source" ? [e.part] : [])),
    plugs: value.parts.flatMap((p) => (p.traits.plug === true ? [p.id] : [])),
    told: diagnostics.filter(({ level }) => level !== "note"),
    notes: diagnostics.filter(({ id }) => id.startsWith("system/plug-")),
    states: value.states,
  };
}

const GEN = "  GEN: { kind: generator, rated: 3 kVA, neutral: floating }\n";
const GIN = "  GIN: { kind: shore inlet, rated: 16 A }\n";
const INL = "  INL: { kind: shore inlet, rated: 16 A }\n";

test("an inlet that a generator is led to is a plug in its line, and no source", () => {
  const { system, sources, plugs, told } = resolved(
    GEN + GIN,
    "  A0: { path: GEN → GIN, length: 5 m }\n  A1: { path: GIN → INV:in, length: 2 m }",
  );
  assert.deepEqual([sources, plugs, told], [["GEN"], ["GIN"], []]);
  const ends = (id: string) => system.circuits.find((c) => c.id === id)?.conductors.map((c) => [c.from, c.to]);
  assert.deepEqual(ends("A0")?.[0], ["GEN:L", "GIN:in:L"]);
  assert.deepEqual(ends("A1")?.[0], ["GIN:out:L", "INV:in:L"]);
  // What is live it opens; the protective conductor comes with the lead.
  const inside = system.elements.flatMap((e) => (e.part === "GIN" && (e.is === "contact" || e.is === "join") ? [[e.is, e.a]] : [])); // prettier-ignore
  assert.deepEqual(inside, [["contact", "GIN:in:L"], ["contact", "GIN:in:N"], ["join", "GIN:in:PE"]]); // prettier-ignore
  assert.ok(!system.assumptions.some(({ id }) => id === "shore-earthing"));
});

test("one path through the inlet means the same, and a bond to its case lands behind it", () => {
  const whole = resolved(GEN + GIN, "  A0: { path: GEN → GIN → INV:in, length: 7 m }");
  assert.deepEqual([whole.sources, whole.plugs], [["GEN"], ["GIN"]]);
  const bonded = resolved(
    `${GEN}${GIN}  BE: { kind: bus bar }\n`,
    '  A0: { path: GEN → GIN, length: 5 m }\n  A1: { path: GIN → INV:in, length: 2 m }\n  A2: { path: "GIN:PE → BE", length: 1 m, cores: [PE] }',
  );
  assert.deepEqual(bonded.told, []);
  assert.equal(bonded.system.circuits.find((c) => c.id === "A2")?.conductors[0]?.from, "GIN:out:PE");
});

test("what comes by a lead, a board or another inlet feeds a plug too", () => {
  const lead = resolved(
    `${GEN}${GIN}  AD: { kind: adapter }\n`,
    "  A0: { path: GEN → AD → GIN, length: 5 m }\n  A1: { path: GIN → INV:in, length: 2 m }",
  );
  assert.deepEqual([lead.sources, lead.plugs], [["GEN"], ["GIN"]]);
  const board = resolved(
    `${INL}${GIN}  HOUSE: { kind: consumer unit, ways: { 1: breaker 16 A 2-pole } }\n`,
    '  A0: { path: INL → HOUSE, length: 5 m }\n  A1: { path: "HOUSE:1 → GIN", length: 5 m }\n  A2: { path: GIN → INV:in, length: 2 m }',
  );
  assert.deepEqual([board.sources, board.plugs], [["INL"], ["GIN"]]);
});

test("with nothing ahead, with a lead alone, or with a lead back from its own board, an inlet is where shore enters", () => {
  const none = resolved(INL, "  A1: { path: INL → INV:in, length: 2 m }");
  const lead = resolved(`${INL}  AD: { kind: adapter }\n`, "  A0: { path: AD → INL, length: 5 m }\n  A1: { path: INL → INV:in, length: 2 m }"); // prettier-ignore
  const round = resolved(INL, '  A1: { path: INL → INV:in, length: 2 m }\n  A2: { path: "CU:1 → INL", length: 5 m }');
  const turned = resolved(INL, '  A1: { path: "INV:in → INL", length: 2 m }');
  for (const { sources, plugs } of [none, lead, round, turned]) assert.deepEqual([sources, plugs], [["INL"], []]);
  // The lead lands ahead of it, and what lies behind goes on from its other side.
  assert.equal(lead.system.circuits.find((c) => c.id === "A0")?.conductors[0]?.to, "INL:in:L");
});

test("what a plug says of its supply is held against what feeds it, with both places", () => {
  const said = (gen: string, gin: string) =>
    resolved(
      `  GEN: { kind: generator, rated: 3 kVA, ${gen} }\n  GIN: { kind: shore inlet, rated: 16 A, ${gin} }\n`,
      "  A0: { path: GEN → GIN, length: 5 m }\n  A1: { path: GIN → INV:in, length: 2 m }",
    ).notes.map(({ id, at, message }) => [id, at.length, message]);
  assert.deepEqual(said("neutral: floating", "earthing: TN"), [
    ["system/plug-contradicts", 2, "`earthing` of `GIN` contradicts `neutral` of `GEN`, which feeds it; what feeds it counts"],
  ]); // prettier-ignore
  assert.deepEqual(said("neutral: joined to earth", "earthing: TN"), []);
  assert.deepEqual(said("neutral: floating", "earthing: IT"), []);
  assert.deepEqual(said("neutral–earth join: always", "earthing: IT")[0]?.slice(0, 2), ["system/plug-contradicts", 2]);
  // A lead only makes a short weaker.
  assert.deepEqual(said("prospective current: 80 A, neutral: floating", "prospective current: 60 A"), []);
  assert.equal(said("prospective current: 80 A, neutral: floating", "prospective current: 3 kA")[0]?.[1], 2);
  assert.equal(said("neutral: floating", "prospective current: 3 kA")[0]?.[0], "system/plug-says-supply");
});

const stateOf = (state: string, parts: string, circuits: string): GivenState | undefined =>
  resolved(parts, circuits, `  one: { ${state} }`).states[0];

test("a state plugs it in by `shore`, by its own name, or by what runs ahead of it", () => {
  const at = (state: string) =>
    stateOf(state, GEN + GIN, "  A0: { path: GEN → GIN, length: 5 m }\n  A1: { path: GIN → INV:in, length: 2 m }");
  const told = (state: string) => {
    const one = at(state);
    return [one?.shore, one?.positions["GIN"]];
  };
  assert.deepEqual(told("shore: in, GEN: on"), [true, "in"]);
  assert.deepEqual(told("GIN: in, GEN: on"), [true, "in"]);
  assert.deepEqual(told("GEN: on"), [true, "in"]);
  assert.deepEqual(told("GEN: on, GIN: out"), [false, "out"]);
  assert.deepEqual(told("GEN: on, shore: out"), [false, "out"]);
  assert.deepEqual(told("on: [kettle]"), [false, "out"]);
});

test("of several inlets a state plugs in those that it names, and `shore` says it of the others", () => {
  const circuits =
    "  A0: { path: INL → TS:1, length: 5 m }\n  A1: { path: IN2 → TS:2, length: 5 m }\n  A2: { path: TS:out → INV:in, length: 2 m }";
  const parts = `${INL}  IN2: { kind: shore inlet, rated: 10 A }\n  TS: { kind: transfer switch }\n`;
  const gives = (state: string): string[] => {
    const { system, states } = resolved(parts, circuits, `  one: { ${state} }`);
    const [one] = states;
    return one === undefined ? [] : ["INL", "IN2"].filter((part) => givesIn(one, part, system));
  };
  assert.deepEqual(gives("shore: in"), ["INL", "IN2"]);
  assert.deepEqual(gives("IN2: in"), ["IN2"]);
  assert.deepEqual(gives("INL: in, IN2: in"), ["INL", "IN2"]);
  assert.deepEqual(gives("shore: in, IN2: out"), ["INL"]);
  assert.deepEqual(gives("INL: out"), []);
  assert.deepEqual(gives("shore: out"), []);
  assert.equal(stateOf("IN2: in", parts, circuits)?.shore, true);
  const clash = resolved(parts, circuits, "  one: { shore: out, IN2: in }").told;
  assert.match(clash[0]?.message ?? "", /`IN2: in` contradicts `shore: out`/);
});
