import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { drawBench } from "../bench/index.ts";
import type { Item, Point, Scene } from "../scene.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import { drawOneLine } from "./index.ts";

const plan = (circuits: string): string => `wireworthy: 1
name: cabin
rules: { AC: iec-cabin IEC 60364 }
systems:
  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  GEN: { kind: generator, rated: 3000 VA, neutral–earth join: always }
  GSW: { kind: switch, rated: 16 A, poles: 2 }
  GI: { kind: galvanic isolator }
  TS: { kind: transfer switch, rated: 25 A }
  CU: { kind: consumer unit, main: breaker 16 A 2-pole, ways: 2 }
  heater: { kind: load, running: 8 A }
states:
  ashore: { shore: in, TS: 1, on: [heater] }
  away: { shore: out, TS: 2, on: [heater, GEN] }
circuits:
${circuits}`;

/** Both supplies meet in the changeover, before a board, or before a load with a switch of the generator. */
const BOARD = plan("  W1: { path: INL → TS:1, in PE: GI, length: 6 m }\n  W2: { path: GEN → TS:2, length: 9 m }\n  W3: { path: TS:out → CU:in, length: 2 m }\n  W4: { path: CU:1 → heater, length: 3 m }\n"); // prettier-ignore
const LOAD = plan("  W1: { path: INL → TS:1, length: 6 m }\n  W2: { path: GEN → GSW:in, length: 9 m }\n  W5: { path: GSW:out → TS:2, length: 1 m }\n  W3: { path: TS:out → heater, length: 2 m }\n"); // prettier-ignore
/** The changeover stands behind the board, the generator comes to it from elsewhere. */
const BEHIND = plan("  W1: { path: INL → CU:in, in PE: GI, length: 6 m }\n  W2: { path: CU:1 → TS:1, length: 6 m }\n  W3: { path: GEN → GSW:in, length: 6 m }\n  W5: { path: GSW:out → TS:2, length: 6 m }\n  W4: { path: TS:out → heater, length: 2 m }\n"); // prettier-ignore

const onA4 = (text: string): Scene[] =>
  drawOneLine({ ...compile(text), findings: [] }, { paper: "A4", variant: "iec" });
const onBench = (text: string, state: string | null): Scene => drawBench({ ...compile(text), findings: [] }, { variant: "iec", state, handles: false }).scene; // prettier-ignore
const about = ({ items }: Scene, path: string, role = "symbol"): Item[] =>
  items.filter((item) => item.about === path && item.role === role);

/** Metal that is joined to a place: lines that end on each other. */
function joinedTo({ items }: Scene, start: Point): Point[] {
  const lines = items.flatMap(({ role, shapes }) => (role === "wire" ? shapes.flatMap((s) => (s.is === "polyline" ? [s.points] : [])) : [])); // prettier-ignore
  const touches = ([ax, ay]: Point, points: readonly Point[]): boolean =>
    points.slice(1).some(([x2, y2], i) => {
      const [x1, y1] = points[i] ?? [0, 0];
      return ax >= Math.min(x1, x2) - 0.01 && ax <= Math.max(x1, x2) + 0.01 && ay >= Math.min(y1, y2) - 0.01 && ay <= Math.max(y1, y2) + 0.01; // prettier-ignore
    });
  const met: Point[] = [start];
  for (const at of met)
    for (const points of lines)
      if (touches(at, points) || points.some((p) => touches(p, [at, at])))
        for (const p of points) if (!met.some((m) => m[0] === p[0] && m[1] === p[1])) met.push(p);
  return met;
}

const right = (item: Item | undefined): Point => {
  const [[, y1], [x2, y2]] = boxAround((item?.shapes ?? []).flatMap(shapeBox));
  return [x2, (y1 + y2) / 2];
};

test.each([
  ["before a board", BOARD],
  ["before a load", LOAD],
])("%s: two supplies of a changeover do not touch", (_, text) => {
  // prettier-ignore
  for (const scene of [...onA4(text), onBench(text, null)]) {
    const [inlet] = about(scene, "parts.INL");
    const [x, y] = right(inlet);
    // Its line goes to one contact, far above that of the generator.
    const wire = scene.items.find(({ role, about: path }) => role === "wire" && path === "circuits.W1");
    const ends = (wire?.shapes ?? []).flatMap((s) => (s.is === "polyline" ? s.points : []));
    assert.ok(ends.length >= 2, `${x} ${y}`);
    const met = joinedTo(scene, ends[0] ?? [0, 0]);
    const other = scene.items.filter(({ role, about: path }) => role === "wire" && path === "circuits.W2");
    for (const s of other.flatMap(({ shapes }) => shapes))
      if (s.is === "polyline") for (const p of s.points) assert.ok(!met.some((m) => Math.abs(m[0] - p[0]) < 0.01 && Math.abs(m[1] - p[1]) < 0.01)); // prettier-ignore
    assert.equal(about(scene, "parts.TS").length, 1);
    // A contact for each supply, and the hinge.
    const rings = about(scene, "parts.TS").flatMap(({ shapes }) => shapes.filter((s) => s.is === "ellipse"));
    assert.equal(rings.length, 3);
  }
});

test("in a state the blade stands on the supply that it chooses, at rest on none", () => {
  const tipOf = (state: string | null): Point => {
    const blade = about(onBench(BOARD, state), "parts.TS").flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "polyline" ? [s.points] : [])))[0]; // prettier-ignore
    return blade?.[1] ?? [0, 0];
  };
  const contacts = about(onBench(BOARD, null), "parts.TS").flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "ellipse" ? [s.centre] : []))); // prettier-ignore
  assert.deepEqual(tipOf("ashore"), contacts[0]);
  assert.deepEqual(tipOf("away"), contacts[1]);
  assert.ok(contacts.every((c) => c[0] !== tipOf(null)[0]));
});

test("nothing that is wired is lost: the generator's switch, what stands in earth alone", () => {
  for (const [text, parts] of [[BOARD, ["INL", "GEN", "GI", "TS"]], [LOAD, ["INL", "GEN", "GSW", "TS"]], [BEHIND, ["INL", "GEN", "GSW", "GI", "TS"]]] as const) // prettier-ignore
    for (const part of parts) assert.equal(onA4(text).flatMap((scene) => about(scene, `parts.${part}`)).length, 1, part); // prettier-ignore
});
