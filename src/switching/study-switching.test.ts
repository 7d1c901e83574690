import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { studyProblem } from "./study-problem.ts";
import { studySwitching } from "./study-switching.ts";

const HEAD = `wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V, return: BN }, AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] } }
parts:
  BN: { kind: bus bar }
  BP: { kind: bus bar }
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }
  SW: { kind: switch }
  deck: { kind: switch, name: deck light switch }
  lamp: { kind: light, running: 1 A }
  INL: { kind: shore inlet }
  CU: { kind: panel, ways: { 1: breaker 10 A 2-pole } }
  kettle: { kind: load, running: 4 A }
  EB: { kind: bus bar }
`;

function studyOf(parts: string, circuits: string, more = "") {
  const plan = readPlan(`${HEAD.replace("systems:", `${more}systems:`)}${parts}circuits:\n${circuits}`, kinds);
  const { value, diagnostics } = resolveSystem(plan.value, kinds);
  const wrong = [...plan.diagnostics, ...diagnostics].filter((d) => d.level === "error");
  assert.deepEqual(
    wrong.map((d) => d.message),
    [],
  );
  return studySwitching(value);
}

const DIRECT = `  W1: { path: B1 → SW → BP, length: 1 m }
  W2: { path: BP → deck → lamp, length: 1 m }
`;
const SHORE = `  W3: { path: INL → CU, length: 1 m }
  W4: { path: 'CU:1 → kettle', length: 1 m }
`;

test("of direct current nothing counts that leads to nothing alternating", () => {
  const { study, problem } = studyOf("", DIRECT + SHORE);
  assert.deepEqual(study.movers, ["INL"]);
  assert.deepEqual(
    problem.movers.map((m) => m.id),
    ["CU:1", "INL"],
  );
  assert.deepEqual(
    study.groups.map((g) => [g.gives, g.islands.map((i) => i.joinsHigh), g.takers.map((t) => t.state)]),
    [
      [[], [], ["dead"]],
      [["INL"], [1], ["fed"]],
    ],
  );
});

test("an inverter lives through the battery switch alone, and a switch to a light is left out", () => {
  const { study } = studyOf(
    "  INV: { kind: inverter, rated: 800 VA, neutral–earth join: always }\n  tool: { kind: load, running: 2 A }\n",
    `${DIRECT}  W5: { path: BP → INV, length: 1 m }\n  W6: { path: INV:out → tool, length: 1 m }\n`,
  );
  assert.deepEqual(study.idle.concat(study.leaves.flatMap((l) => l.mover)), ["deck"]);
  assert.deepEqual([...study.movers].sort(), ["INL", "INV", "SW"]);
  assert.deepEqual(
    study.groups.map((g) => [g.gives.length, g.actions, g.count]),
    [
      [0, 0, 3],
      [1, 1, 3], // an inlet that leads nowhere is plugged in
      [1, 2, 1],
      [2, 3, 1],
    ],
  );
});

test("a bar on which neutral and earth both land is a join, once", () => {
  const joins = (circuits: string) =>
    studyOf("", SHORE + circuits)
      .study.groups.at(-1)
      ?.islands[0]?.joins.map((j) => [j.where, j.id]);
  assert.deepEqual(joins(""), [["ashore", "INL"]]);
  assert.equal(
    joins("  W7: { path: 'CU:N → EB', length: 1 m }\n  W8: { path: 'CU:PE → EB', length: 1 m }\n")?.length,
    2,
  );
});

test("a house's board joined to the neutral of a supply without a protective conductor is the one join; elsewhere it is a second", () => {
  const joins = (rules: string, cores = "", { at = "always", inlet = "" } = {}) => {
    const parts = `  SVC: { kind: shore inlet${inlet} }\n  LC: { kind: panel, neutral–earth join: ${at}, ways: { 1: breaker 10 A } }\n  stove: { kind: load, running: 4 A }\n`;
    const circuits = `  W1: { path: SVC → LC, length: 1 m${cores} }\n  W2: { path: 'LC:1 → stove', length: 1 m }\n`;
    const { study } = studyOf(parts, circuits, `rules: { AC: ${rules} }\n`);
    const group = study.groups.find((g) => g.takers.some((t) => t.taker === "stove" && t.state === "fed"));
    const stove = group?.takers.find((t) => t.taker === "stove");
    return [...(group?.islands[0]?.joins.map((j) => j.where) ?? []), stove?.earth];
  };
  const bare = ", cores: [L, N]";
  for (const set of ["us-cabin", "iec-cabin"]) {
    for (const name of [set, `${set.toUpperCase().replace("-", " ")} 2023`])
      assert.deepEqual(joins(name, bare), ["aboard", "joined"]);
    assert.deepEqual(joins(set), ["aboard", "ashore", "joined"]);
    assert.deepEqual(joins(set, bare, { inlet: ", earthing: TT" }), ["aboard", "ashore", "joined"]);
    // Where the board joins nothing, the supply is still earthed at its own place, and no metal leads there.
    assert.deepEqual(joins(set, bare, { at: "never" }), ["ashore", "open"]);
    assert.deepEqual(joins(set, bare, { at: "unknown" }), ["aboard", "unknown"]);
  }
  for (const set of ["iso-small-craft", "us-small-craft", "us-rv", "iec-caravan"])
    assert.deepEqual(joins(set, bare), ["aboard", "ashore", "joined"]);
});

test("a device in the outlet itself has every join ahead of it, even one of which nobody knows; one ahead of that join may be blind", () => {
  const guardsOf = (at: string) => {
    const { study } = studyOf(
      `  INV: { kind: inverter, rated: 800 VA, neutral–earth join: unknown }\n  tool: { kind: outlet, running: 2 A${at} }\n`,
      `${DIRECT}  W5: { path: BP → INV, length: 1 m }\n  W6: { path: INV:out → tool, length: 1 m }\n`,
    );
    const fed = study.groups.flatMap((g) => g.takers.filter((t) => t.taker === "tool" && t.state === "fed"));
    return fed.flatMap((t) => t.guards.map((g) => g.joinAhead));
  };
  assert.deepEqual(new Set(guardsOf(", residual device: 5 mA")), new Set(["perhaps none"]));
  assert.deepEqual(guardsOf(""), []);
  // The bar of a board behind a guarded main, where a bond of which nobody knows may be.
  const { study } = studyOf(
    "  PB: { kind: panel, main: breaker 16 A 30 mA, neutral–earth join: unknown, ways: { 1: breaker 10 A } }\n  stove: { kind: load, running: 4 A }\n",
    "  W3: { path: INL → PB, length: 1 m }\n  W4: { path: 'PB:1 → stove', length: 1 m }\n",
  );
  const stove = study.groups.flatMap((g) => g.takers.filter((t) => t.taker === "stove" && t.state === "fed"));
  assert.deepEqual(new Set(stove.flatMap((t) => t.guards.map((g) => g.joinAhead))), new Set(["unknown"]));
});

test("plain data comes out, and a terminal leads to its node", () => {
  const found = studyOf("", SHORE);
  assert.deepEqual(JSON.parse(JSON.stringify(found)), found);
  const live = found.study.groups.at(-1)?.islands[0]?.lineNodes ?? [];
  assert.ok(live.some((n) => found.terminals[n]?.includes("kettle:L")));
});

test("a residual device of one switched pole has neutral through it, in a way, in a line and at a main; what joins behind it is behind it", () => {
  const guardsOf = (parts: string, circuits: string) => {
    const { study } = studyOf(parts, circuits);
    const fed = study.groups.flatMap((g) => g.takers.filter((t) => t.taker === "stove" && t.state === "fed"));
    assert.ok(fed.length > 0, "it is fed");
    return fed.flatMap((t) => t.guards.map((g) => [g.guard, g.joinAhead, g.neutralThrough]));
  };
  const board = (facts: string, more = "") =>
    `  PB: { kind: panel, ${facts} }\n  stove: { kind: load, running: 4 A }\n${more}`;
  const lines = (circuit: string) => `  W3: { path: INL → PB, length: 1 m }\n  W4: { ${circuit}, length: 1 m }\n`;
  const way = board("ways: { 1: breaker 10 A 30 mA }");
  assert.deepEqual(guardsOf(way, lines("path: 'PB:1 → stove'")), [["PB:1:residual", true, true]]);
  const main = board("main: breaker 16 A 30 mA, ways: { 1: breaker 10 A }");
  assert.deepEqual(guardsOf(main, lines("path: 'PB:1 → stove'")), [["PB:main:residual", true, true]]);
  const plain = board("ways: { 1: breaker 10 A }");
  const onWay = lines("path: 'PB:1 → stove', breaker: 10 A 30 mA at PB");
  assert.deepEqual(guardsOf(plain, onWay), [["PB:1:residual", true, true]]);
  const direct = "  W3: { path: INL → stove, length: 1 m, breaker: 10 A 30 mA at INL }\n";
  assert.deepEqual(guardsOf(plain, direct), [["W3:breaker:residual", true, true]]);
  // Shore joins ahead of it, the board behind it once more: what comes back by earth is not seen.
  const behind = board("main: breaker 16 A 30 mA, neutral–earth join: always, ways: { 1: breaker 10 A }");
  assert.deepEqual(guardsOf(behind, lines("path: 'PB:1 → stove'")), [["PB:main:residual", false, true]]);
});

test("a study asked for once more is the one that was made, and any change of what it reads makes another", () => {
  const first = studyOf("", DIRECT + SHORE);
  // A length is nothing that it reads.
  const longer = studyOf("", DIRECT + SHORE.replace("INL → CU, length: 1 m", "INL → CU, length: 7 m"));
  assert.equal(longer.study, first.study);
  assert.deepEqual(longer, first);
  for (const [parts, circuits] of [
    ["", DIRECT],
    ["  S2: { kind: switch }\n", DIRECT + SHORE.replace("INL → CU", "INL → S2 → CU")],
  ] as const) {
    const other = studyOf(parts, circuits);
    assert.notDeepEqual(other.study, first.study);
    // With limits it is studied anew.
    assert.deepEqual(studyProblem(other.problem, {}), other.study);
  }
  assert.deepEqual(studyProblem(first.problem), studyOf("", DIRECT + SHORE).study);
});
