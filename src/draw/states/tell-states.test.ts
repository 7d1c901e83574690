import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { studySwitching } from "../../switching/index.ts";
import { tellStates, type ToldStates } from "./index.ts";

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8");

function told(text: string): ToldStates {
  const { system, judgement } = compile(text);
  return tellStates(studySwitching(system), judgement.findings);
}

test("the hut: before the inverter lets it through, its generator meets earth nowhere", () => {
  const { states } = told(example("hut"));
  assert.deepEqual(
    states.map(({ steps, gives }) => [steps, gives]),
    [
      [[], []],
      [["start GEN"], ["GEN"]],
      [["switch INV on", "the relay of INV goes to inverting by itself"], ["INV"]],
      // With the inverter on, as people leave it: charger only would lead the generator on as well.
      [
        ["switch INV on", "the relay of INV goes to inverting by itself", "start GEN", "the relay of INV goes to passing by itself"], // prettier-ignore
        ["GEN"],
      ],
    ],
  );
  assert.deepEqual(states.map(({ joins }) => joins.map(({ low, high }) => [low, high])), [[], [[0, 0]], [[1, 1]], [[1, 1]]]); // prettier-ignore
  const nowhere = states.map(({ dangers }) => dangers.some(({ says }) => says.includes("meets earth nowhere")));
  assert.deepEqual(nowhere, [false, true, false, false]);
});

test("every position belongs to a state, and what each feeds and leaves dead is every taker", () => {
  for (const name of ["sloop", "sloop-us", "van", "hut"]) {
    const { states, reached } = told(example(name));
    assert.equal(
      states.reduce((sum, { positions }) => sum + positions, 0),
      reached,
    );
    const all = states[0]?.dead.toSorted();
    for (const { feeds, dead } of states)
      assert.deepEqual([...dead, ...feeds.flatMap((f) => f.takers)].toSorted(), all, name);
  }
});

const FLOATING =
  "rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n" +
  "  INL: { kind: shore inlet, rated: 16 A }\n  IT: { kind: isolation transformer, rated: 16 A, neutral–earth join: never }\n" +
  "  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 2-pole } }\n" +
  "  sockets: { kind: outlet, running: 3 A }\ncircuits:\n  W2: { path: INL → IT:in, length: 2 m }\n" +
  "  W3: { path: IT:out → CU, length: 2 m }\n  W5: { path: CU:1 → sockets, length: 4 m }\n";

test("a floating secondary that its rule set lets float is a note of that rule, as the check has it; one that it does not is its must", () => {
  const nowhere = (text: string) => {
    const { system, judgement } = compile(`wireworthy: 1\n${text}`);
    const { states } = tellStates(studySwitching(system), judgement.findings, judgement.notApplicable);
    const all = states.flatMap(({ dangers }) => dangers.filter((d) => d.rule === "ac/missing-neutral-earth-join"));
    return {
      dangers: all.map(({ grade }) => grade),
      others: states.flatMap(({ dangers }) => dangers.filter((d) => d.rule === null && d.says.includes("nowhere"))),
      outcomes: [...judgement.findings.filter((f) => f.rule === "ac/missing-neutral-earth-join").map((f) => `${f.outcome} ${f.severity}`)], // prettier-ignore
    };
  };
  // ISO 13297:2020 6.8: no join behind an isolation transformer whose branches open both poles.
  assert.deepEqual(nowhere(FLOATING), { dangers: ["note"], others: [], outcomes: [] });
  const half = FLOATING.replace("breaker 10 A 2-pole", "breaker 10 A 1-pole");
  assert.deepEqual(nowhere(half), { dangers: ["must"], others: [], outcomes: ["fail must"] });
});

const TWO_BREAKERS =
  "wireworthy: 1\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n" +
  "  INL: { kind: shore inlet, rated: 16 A }\n  GEN: { kind: generator, rated: 2000 W, neutral–earth join: yes }\n" +
  "  S1: { kind: switch, rated: 16 A }\n  S2: { kind: switch, rated: 16 A }\n" +
  "  heater: { kind: load, running: 2 A }\ncircuits:\n" +
  "  W1: { path: INL → S1 → heater, length: 1 m }\n  W2: { path: GEN → S2 → heater, length: 1 m }\n";

test("a transfer that joins both supplies is told as a must, with the states in which it does", () => {
  // Two breakers in place of the transfer switch: both may be on.
  const { states } = told(TWO_BREAKERS);
  const must = states.filter(({ dangers }) => dangers.some((d) => d.grade === "must" && /feed the same line/.test(d.says))); // prettier-ignore
  assert.equal(must.length, 1);
  // What the rule finds stands with the state whose way it tells, not with others of the same name.
  const ruled = states.filter(({ dangers }) => dangers.some((d) => d.rule === "ac/parallel-sources"));
  assert.deepEqual(ruled, must);
  // Nor is it told twice there, once as read off the state; without what rules found the state says it itself.
  const says = (list: ToldStates["states"]): (string | null)[] =>
    list.flatMap(({ dangers }) => dangers.filter((d) => /feed the same line/.test(d.says)).map((d) => d.rule));
  assert.deepEqual(says(states), ["ac/parallel-sources"]);
  const { system } = compile(TWO_BREAKERS);
  assert.deepEqual(says(tellStates(studySwitching(system), []).states), [null]);
  assert.deepEqual(must[0]?.gives.toSorted(), ["GEN", "INL"]);
});

test("a plan without alternating current has one state, in which nothing gives", () => {
  const { states, untold } = told("wireworthy: 1\n");
  assert.deepEqual(
    states.map(({ gives, feeds }) => [gives, feeds]),
    [[[], []]],
  );
  assert.equal(untold, null);
});
