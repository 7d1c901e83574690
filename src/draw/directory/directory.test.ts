import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile as compileAnew, type Compiled } from "../../compile.ts";
import { titleOf } from "../one-line/title-of.ts";
import type { Scene, TextShape } from "../scene.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import type { PaperName } from "../sheet/paper.ts";
import { drawDirectories, readBoards } from "./index.ts";

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8");

/** More ways than a sheet holds, under a name that nobody has. */
const long = "x".repeat(90);
const MANY = `wireworthy: 1
systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
parts:
  B: { kind: battery, chemistry: LFP, capacity: 100 Ah }
  BN: { kind: bus bar }
  F: { kind: fuse block, name: ${long}, ways: 70, negative bar: yes }
  ${long}: { kind: load, running: 2 A }
circuits:
  W1: { path: B → F, length: 1 m }
  W2: { path: F:1 → ${long}, length: 1 m }
`;

const compiledOnce = new Map<string, Compiled>();

function compile(text: string): Compiled {
  const compiled = compiledOnce.get(text) ?? compileAnew(text);
  compiledOnce.set(text, compiled);
  return compiled;
}

const boardsOf = (text: string) => readBoards(compile(text));

function drawn(text: string, on: PaperName): Scene[] {
  const compiled = compile(text);
  const fields = titleOf({ ...compiled, findings: compiled.judgement.findings }, { variant: "iec", paper: on });
  return drawDirectories(readBoards(compiled), on, fields);
}

const textsOf = ({ items }: Scene): TextShape[] =>
  items.flatMap(({ shapes }) => shapes.filter((s): s is TextShape => s.is === "text"));

test.each<readonly [string, string]>([
  ...["sloop", "sloop-us", "van", "hut"].map((name) => [name, example(name)] as const),
  ["seventy ways", MANY],
])("%s: no word lies on another, and all is on the sheet", (_, text) => {
  for (const on of ["A4", "A3", "Letter"] as const) {
    const scenes = drawn(text, on);
    assert.ok(scenes.length > 0);
    for (const scene of scenes) {
      for (const { shapes } of scene.items) {
        const [[x1, y1], [x2, y2]] = boxAround(shapes.flatMap(shapeBox));
        assert.ok(x1 >= 0 && y1 >= 0 && x2 <= scene.width && y2 <= scene.height, `${on}: ${x1} ${y1} ${x2} ${y2}`);
      }
      const boxes = textsOf(scene).map((shape) => ({ text: shape.text, box: shapeBox(shape) }));
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const [[[ax1, ay1], [ax2, ay2]], [[bx1, by1], [bx2, by2]]] = [a.box, b.box];
          assert.ok(!(ax1 < bx2 && ax2 > bx1 && ay1 < by2 && ay2 > by1), `${on}: "${a.text}" meets "${b.text}"`);
        }
      });
    }
  }
});

test("every way of every board is there once, and every circuit that hangs on one", () => {
  for (const name of ["sloop", "sloop-us", "van", "hut"]) {
    const { system } = compile(example(name));
    const boards = boardsOf(example(name));
    const ways = new Set(system.elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [`${e.part}:${e.way}`] : []))); // prettier-ignore
    assert.deepEqual(new Set(boards.flatMap(({ id, rows }) => rows.map(({ way }) => `${id}:${way}`))), ways);
    const hung = system.circuits.filter(({ from }) => ways.has(`${from.part}:${from.port}`)).map(({ id }) => id);
    assert.deepEqual(boards.flatMap(({ rows }) => rows.flatMap(({ circuit }) => (circuit === "" ? [] : [circuit]))).sort(), hung.sort()); // prettier-ignore
  }
  const words = drawn(MANY, "A4").flatMap(textsOf).map(({ text }) => text); // prettier-ignore
  for (let way = 1; way <= 70; way++) assert.equal(words.filter((text) => text === String(way)).length >= 1, true, String(way)); // prettier-ignore
});

test("a board says what its plan says of it: main device, feed, poles, leakage, what lies behind", () => {
  const [, unit] = boardsOf(example("sloop"));
  assert.equal(unit?.main, "residual device 30 mA, opens 2 poles");
  assert.deepEqual(unit.feeds, ["W25 from shore inlet INL"]);
  const [empty, charger, sockets] = unit.rows;
  assert.deepEqual([empty?.circuit, empty?.feeds, empty?.rating, empty?.poles], ["", "", "16 A", "2"]);
  assert.deepEqual([charger?.feeds, charger?.rating, charger?.isProposed], ["charger CHG", "10 A", false]);
  assert.equal(sockets?.feeds, "transfer switch TS: sockets to port, sockets to starboard");

  const [, centre] = boardsOf(example("hut"));
  assert.equal(centre?.main, null);
  assert.equal(centre.joins, "always");
  // Two lines share the kitchen's neutral, the freezer hangs on one: its device opens no more than its own line.
  assert.deepEqual(centre.rows.slice(0, 2).map(({ poles }) => poles), ["2", "1"]); // prettier-ignore
  assert.equal(centre.rows[0]?.feeds, "kitchen (5 mA in the outlet)");
  // Nobody can tell the pump's device while its wire is too thin for it.
  assert.deepEqual([centre.rows[8]?.device, centre.rows[8]?.rating], ["cannot be told", "?"]);

  const [, panel] = boardsOf(example("van"));
  assert.equal(panel?.main, "breaker 30 A, opens 2 poles");
  assert.equal(panel.rows[0]?.feeds, "inverter-charger INV: AC panel, inverter");
});

test("leakage stands with the way whose breaker watches it", () => {
  const text = `wireworthy: 1
systems: { AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] } }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  CU: { kind: panel, main: breaker 16 A 2-pole, ways: { 1: breaker 16 A 30 mA 2-pole, 2: breaker 10 A 2-pole } }
  heater: { kind: load, running: 2 A }
circuits:
  W1: { path: INL → CU:in, length: 1 m }
  W2: { path: CU:1 → heater, length: 1 m }
`;
  assert.deepEqual(boardsOf(text).flatMap(({ rows }) => rows.map(({ way, residual }) => [way, residual])), [["1", "30 mA"], ["2", ""]]); // prettier-ignore
});
