import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { studySwitching } from "../../switching/index.ts";
import { titleOf } from "../one-line/title-of.ts";
import type { Scene, TextShape } from "../scene.ts";
import { shapeBox, type Box } from "../shape-box.ts";
import { drawStates, tellStates, type StatesOn } from "./index.ts";
import { placeGraph } from "./place-graph.ts";
import { stateGraph } from "./state-graph.ts";

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8");

/** Three supplies, two of which can be on one bar, under names that nobody has. */
const long = "x".repeat(60);
const THREE = `wireworthy: 1
systems:
  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  GEN: { kind: generator, rated: 2000 W, neutral–earth join: yes }
  OTHER: { kind: generator, rated: 2000 W, neutral–earth join: no }
  S1: { kind: switch, rated: 16 A }
  S2${long}: { kind: switch, rated: 16 A }
  S3: { kind: switch, rated: 16 A }
  heater: { kind: load, running: 2 A }
  ${long}: { kind: load, running: 2 A }
circuits:
  W1: { path: INL → S1 → heater, length: 1 m }
  W2: { path: GEN → S2${long} → heater, length: 1 m }
  W3: { path: OTHER → S3 → ${long}, length: 1 m }
`;

function drawn(text: string, on: "A4" | "A3" | "Letter" | "screen") {
  const { plan, system, runs, design, judgement } = compile(text);
  const switching = studySwitching(system);
  const told = tellStates(switching, judgement.findings);
  const build = { plan, system, runs, design, findings: judgement.findings };
  const sheet: StatesOn =
    on === "screen" ? { on, width: 184 } : { on, fields: titleOf(build, { variant: "iec", paper: on }) };
  return { scenes: drawStates(switching, told, plan.name, sheet), switching, told };
}

const textsOf = ({ items }: Scene): TextShape[] =>
  items.flatMap(({ shapes }) => shapes.filter((s): s is TextShape => s.is === "text"));

const apart = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box): boolean =>
  ax2 <= bx1 || bx2 <= ax1 || ay2 <= by1 || by2 <= ay1;

const plans = (["sloop", "sloop-us", "van", "hut"] as const).map((name) => [name, example(name)] as const);

test.each<readonly [string, string]>([...plans, ["three supplies", THREE]])(
  "%s: no word lies on another, and all is on the sheet",
  (_, text) => {
    for (const on of ["A4", "A3", "Letter", "screen"] as const) {
      const { scenes, told } = drawn(text, on);
      assert.ok(scenes.length > 0);
      const heads = scenes.flatMap(textsOf).filter((t) => /^\d+: /.test(t.text) && t.weight === "semibold");
      assert.equal(heads.length, told.states.length, "each state once");
      for (const scene of scenes) {
        const boxes = textsOf(scene).map((t) => [t.text, shapeBox(t)] as const);
        for (const [says, [[x1, y1], [x2, y2]]] of boxes)
          assert.ok(x1 >= 0 && y1 >= 0 && x2 <= scene.width && y2 <= scene.height, says);
        for (const [i, [one, a]] of boxes.entries())
          for (const [other, b] of boxes.slice(0, i)) assert.ok(apart(a, b), `${on}: ${one} / ${other}`);
      }
    }
  },
);

test("no two lines across lie on each other, and no line ends on a stranger", () => {
  for (const [name, text] of [...plans, ["three", THREE] as const]) {
    const graph = stateGraph(studySwitching(compile(text).system));
    const { segments, rows } = placeGraph(graph);
    for (const [i, a] of segments.entries())
      for (const [j, b] of segments.entries())
        if (j < i && rows[i] === rows[j]) assert.ok(a.to <= b.from || b.to <= a.from, `${name} ${i} ${j}`);
    assert.deepEqual([...new Set(segments.flatMap((s) => s.joints))].length, graph.joints.length, name);
  }
});

test("sloop: shore is left of the transfer switch, the inverter feeds the same joint, sockets are one", () => {
  const { sources, links, takers, joints } = stateGraph(studySwitching(compile(example("sloop")).system));
  assert.deepEqual(sources.map(({ name }) => name).toSorted(), ["INL", "INV"]);
  assert.deepEqual(links.map(({ label }) => label).toSorted(), ["CU 3", "CU main", "TS", "TS", "W30 breaker"]);
  assert.deepEqual(
    takers.map(({ names }) => names),
    [["CHG"], ["sockets to port", "sockets to starboard"]],
  );
  // From the inlet: main, way 3, transfer switch.
  assert.equal(Math.max(...joints.map(({ rank }) => rank)), 3);
  // The transfer switch parts the neutrals too.
  assert.ok(links.filter(({ label }) => label === "TS").every(({ neutralThrough }) => !neutralThrough));
});

test("a danger that must not be has the solid mark in its picture and its words", () => {
  const { scenes, told } = drawn(THREE, "screen");
  const bad = told.states.filter(({ dangers }) => dangers[0]?.grade === "must");
  assert.ok(bad.length > 0);
  const marks = scenes.flatMap(({ items }) => items.flatMap(({ shapes }) => shapes.filter((s) => s.is === "polyline" && s.fill === "fail"))); // prettier-ignore
  // One in the head of each such state at least.
  assert.ok(marks.length >= bad.length);
  const [scene] = drawn(example("sloop"), "screen").scenes;
  assert.ok(scene?.items.every(({ shapes }) => shapes.every((s) => s.is === "text" || s.fill !== "fail")));
});

test("every sheet says who decides; a plan without alternating current has none", () => {
  for (const scene of drawn(example("sloop"), "A4").scenes)
    assert.match(textsOf(scene).map(({ text }) => text).join(" "), /licensed electrician and the local code decide/); // prettier-ignore
  assert.deepEqual(drawn("wireworthy: 1\n", "A4").scenes, []);
});
