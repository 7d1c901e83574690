import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile, type Compiled } from "../../compile.ts";
import { titleOf } from "../one-line/title-of.ts";
import type { Item, Point, Scene, Shape, TextShape } from "../scene.ts";
import { shapeBox, type Box } from "../shape-box.ts";
import type { PaperName } from "../sheet/paper.ts";
import { CIRCUIT_DIAGRAM_CAUTION, drawCircuitDiagram } from "./index.ts";

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8");

const AC = "wireworthy: 1\nsystems:\n  DC: { kind: DC, nominal: 12 V, return: BN }\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE], earthed at: BN }\n"; // prettier-ignore
const long = "x".repeat(90);

/** A transformer, two sources, a switch in a line, a way that two circuits share, bonds, a blocker in earth, and names that nobody has. */
const ODD = `${AC}
parts:
  BN: { kind: bus bar }
  hull: { kind: structure, is: hull }
  INL: { kind: shore inlet, rated: 16 A, earthing: TT }
  GI: { kind: galvanic isolator }
  GEN: { kind: generator, rated: 2000 W }
  IT: { kind: isolation transformer, rated: 3600 VA, neutral–earth join: always }
  TS: { kind: transfer switch, inputs: [shore, "${long}", third] }
  CU: { kind: panel, name: "<b>&${long}", main: breaker 16 A 2-pole, ways: { 1: breaker 16 A 30 mA 2-pole, 2: breaker 10 A 2-pole, 3: breaker 10 A, 4: none } }
  S1: { kind: switch, rated: 16 A }
  heater: { kind: load, running: 2 A, class: I }
  ${long}: { kind: load, running: 2 A }
  sockets: { kind: outlet, running: 3 A, residual device: 30 mA }
  lamp: { kind: load, running: 1 A }
  fan: { kind: load, running: 1 A }
circuits:
  W1: { path: INL → IT:in, in PE: GI, length: 1 m }
  W2: { path: IT:out → TS:shore, length: 1 m, breaker: 16 A 2-pole at IT }
  W3: { path: GEN → TS:${long}, length: 3 m }
  W4: { path: TS:out → CU:in, length: 3 m }
  W5: { path: CU:1 → S1 → heater, length: 1 m }
  W6: { path: CU:2 → sockets, length: 8 m }
  W7: { path: CU:3 → ${long}, length: 8 m }
  W8: { path: CU:2 → lamp → fan, length: 8 m }
  W9: { path: CU:PE → hull, length: 1 m }
  W10: { path: BN → hull, length: 1 m }
`;

/** More circuits than a sheet holds. */
const MANY = `${AC}
parts:
  BN: { kind: bus bar }
  INL: { kind: shore inlet, rated: 32 A }
  CU: { kind: panel, ways: 40 }
${Array.from({ length: 40 }, (_, i) => `  load ${i}: { kind: load, running: 1 A }`).join("\n")}
circuits:
  W0: { path: INL → CU:in, length: 1 m }
${Array.from({ length: 40 }, (_, i) => `  W${i + 1}: { path: CU:${i + 1} → load ${i}, length: 2 m }`).join("\n")}
`;

/** Nothing but a source, a switch and a load; and a ring of boards that feed each other. */
const FEW = `${AC}
parts:
  BN: { kind: bus bar }
  GEN: { kind: generator, rated: 2000 W, neutral–earth join: always }
  heater: { kind: load, running: 2 A }
  A: { kind: panel, ways: 2 }
  B: { kind: panel, ways: 2 }
circuits:
  W1: { path: GEN → heater, length: 1 m }
  W2: { path: A:1 → B:in, length: 1 m }
  W3: { path: B:1 → A:in, length: 1 m }
`;

const plans: readonly (readonly [string, string])[] = [
  ...["sloop", "sloop-us", "sloop-audit", "van", "hut"].map((name) => [name, example(name)] as const),
  ["odd", ODD],
  ["many", MANY],
  ["few", FEW],
];

const compiledOnce = new Map<string, Compiled>();
function build(text: string): Compiled {
  const compiled = compiledOnce.get(text) ?? compile(text);
  compiledOnce.set(text, compiled);
  return compiled;
}

function drawn(text: string, on: PaperName, variant: "iec" | "na" = "iec"): Scene[] {
  const { plan, system, runs, design, judgement } = build(text);
  const of = { plan, system, runs, design, findings: judgement.findings };
  return drawCircuitDiagram(of, on, variant, titleOf(of, { variant, paper: on }));
}

const itemsOf = (scenes: readonly Scene[]): Item[] => scenes.flatMap(({ items }) => items);
const textsOf = ({ items }: Scene): TextShape[] =>
  items.flatMap(({ shapes }) => shapes.filter((s): s is TextShape => s.is === "text"));
const apart = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box): boolean =>
  ax2 <= bx1 || bx2 <= ax1 || ay2 <= by1 || by2 <= ay1;

/** Straight pieces of the conductors of a scene. */
function wiresOf({ items }: Scene): { readonly name: string; readonly from: Point; readonly to: Point }[] {
  return items.flatMap(({ role, name, shapes }) => {
    const [shape] = shapes;
    return role === "wire" && shape?.is === "polyline" ? [{ name, from: shape.points[0] ?? [0, 0], to: shape.points.at(-1) ?? [0, 0] }] : []; // prettier-ignore
  });
}

test.each(plans)(
  "%s: no word lies on another or on a conductor, no conductor goes through a box, all is in the frame",
  (_, text) => {
    // prettier-ignore
    for (const on of ["A4", "A3", "Letter"] as const) {
    const scenes = drawn(text, on, on === "Letter" ? "na" : "iec");
    assert.ok(scenes.length > 0);
    for (const scene of scenes) {
      const texts = textsOf(scene).map((t) => [t.text, shapeBox(t)] as const);
      for (const [i, [one, a]] of texts.entries())
        for (const [other, b] of texts.slice(0, i)) assert.ok(apart(a, b), `${on}: ${one} / ${other}`);
      const wires = wiresOf(scene);
      for (const { name, from, to } of wires)
        for (const [says, box] of texts) assert.ok(apart(box, [from, [to[0], to[1] + 0.01]]), `${on}: ${name} / ${says}`); // prettier-ignore
      const boxes = scene.items.flatMap(({ role, name, shapes }) => shapes.flatMap((s: Shape) => (s.is === "rectangle" && role !== "sheet" && role !== "table" ? [[name, shapeBox(s)] as const] : []))); // prettier-ignore
      for (const { name, from, to } of wires)
        for (const [says, [[x1, y1], [x2, y2]]] of boxes) assert.ok(apart([[x1 + 0.1, y1 + 0.1], [x2 - 0.1, y2 - 0.1]], [from, [to[0], to[1] + 0.01]]), `${on}: ${name} through ${says}`); // prettier-ignore
      const [left, top, right, bottom] = on === "A3" ? [20, 10, 410, 287] : on === "A4" ? [20, 10, 200, 287] : [20, 10, 205.9, 269.4]; // prettier-ignore
      for (const { role, name, shapes } of scene.items) {
        if (role === "sheet") continue;
        for (const [[x1, y1], [x2, y2]] of shapes.map(shapeBox)) assert.ok(x1 >= left && y1 >= top && x2 <= right + 0.01 && y2 <= bottom + 0.01, `${on}: ${name} ${x1} ${y1} ${x2} ${y2}`); // prettier-ignore
      }
    }
  }
  },
);

test.each(plans)("%s: every conductor of the alternating side is drawn once, and nothing else", (_, text) => {
  const all = build(text).system.circuits.filter(({ current }) => current === "AC").flatMap(({ conductors }) => conductors.map(({ id }) => id)); // prettier-ignore
  for (const on of ["A4", "A3"] as const) {
    const wires = itemsOf(drawn(text, on)).filter(({ role }) => role === "wire");
    assert.deepEqual(wires.map(({ name }) => name).sort(), all.toSorted());
  }
});

test.each(plans)("%s: every pole that there is is drawn once", (_, text) => {
  const { system } = build(text);
  const ends = system.circuits.filter(({ current }) => current === "AC").flatMap(({ conductors }) => conductors.flatMap(({ from, to }) => [from, to])); // prettier-ignore
  const portOf = (terminal: string): string => terminal.slice(0, terminal.lastIndexOf(":"));
  const wired = new Set(ends.map(portOf));
  const poles = system.elements.flatMap((e) => {
    if (e.is !== "contact" || !/:(?:L\d?|N|PE)$/.test(e.a)) return [];
    // Where a way feeds one line of two, its other pole is not there.
    const isThere = e.way === undefined || !wired.has(portOf(e.b)) || ends.includes(e.b);
    const isMet = ends.some((t) => t.startsWith(`${e.part}:`));
    return isThere && isMet ? [e.id] : [];
  });
  const ids = new Set(poles);
  for (const on of ["A4", "A3"] as const) {
    const names = itemsOf(drawn(text, on)).filter(({ role, name }) => role === "symbol" && ids.has(name)); // prettier-ignore
    assert.deepEqual(names.map(({ name }) => name).sort(), poles.toSorted());
  }
});

test("what goes on elsewhere names the place, and there the way back is named", () => {
  const scenes = drawn(example("van"), "A4");
  const flags = itemsOf(scenes).filter(({ role, name }) => role === "mark" && /^(?:to|from) /.test(name));
  assert.deepEqual(flags.map(({ about, name }) => `${about ?? ""} ${name.split(" ")[0] ?? ""}`).sort(), [
    "circuits.W21 from",
    "circuits.W21 to",
    "circuits.W22 from",
    "circuits.W22 to",
  ]);
  for (const { name } of flags) assert.match(name, /(?:sheet [12], )?[A-F][1-4]/);
});

test("neutral meets earth where the plan says it: ashore, in the inverter, not in a floating generator", () => {
  const joins = (text: string): string[] => itemsOf(drawn(text, "A4")).flatMap(({ about, name }) => (name.startsWith("neutral meets earth") ? [`${about ?? ""} ${name.slice(20)}`.trim()] : [])); // prettier-ignore
  assert.deepEqual(joins(example("sloop")).sort(), ["parts.INL ashore", "parts.INV"]);
  assert.deepEqual(joins(example("hut")), ["parts.LC"]);
  assert.deepEqual(joins(example("van")).sort(), ["parts.INL ashore", "parts.INV while inverting"]);
  assert.deepEqual(joins(ODD).sort(), ["parts.GEN ?", "parts.INL TT", "parts.IT"]);
});

test("on A3 what a board feeds stands beside it where there is room", () => {
  const scenes = drawn(example("sloop"), "A3");
  assert.equal(scenes.length, 1);
  assert.ok(itemsOf(scenes).every(({ name }) => !/^(?:to|from) /.test(name)));
});

test("no function is told by colour alone, and paper keeps what is pale", () => {
  for (const scene of drawn(example("hut"), "A4")) {
    for (const { name, role, shapes } of scene.items) {
      if (role !== "wire") continue;
      const strokes = shapes.flatMap((s) => (s.is === "polyline" && s.stroke !== undefined ? [s.stroke] : []));
      assert.equal(strokes[0]?.dash?.length, /PE/.test(name) ? 4 : /N$/.test(name) ? 2 : undefined, name);
      // White is edged with ink.
      if (strokes.at(-1)?.ink === "WH") assert.equal(strokes[0]?.ink, "ink");
    }
  }
});

test("every sheet says who decides; a plan without alternating current has none", () => {
  for (const scene of drawn(MANY, "A4")) {
    const words = textsOf(scene).map(({ text }) => text).join(" "); // prettier-ignore
    assert.ok(words.includes(CIRCUIT_DIAGRAM_CAUTION));
  }
  assert.deepEqual(drawn("wireworthy: 1\n", "A4"), []);
});

/** A changeover of three, and breakers that a hand may close at once. */
const LOCKS = `${AC}
parts:
  BN: { kind: bus bar }
  INL: { kind: shore inlet, rated: 16 A }
  GEN: { kind: generator, rated: 2000 W }
  INV: { kind: inverter, rated: 1000 W }
  TS: { kind: transfer switch, inputs: [shore, generator, inverter], poles: 2 }
  CU: { kind: panel, main: breaker 16 A 2-pole, ways: { 1: breaker 10 A 2-pole, 2: breaker 10 A 2-pole } }
  kettle: { kind: load, running: 5 A }
circuits:
  W1: { path: INL → TS:shore, length: 1 m }
  W2: { path: GEN → TS:generator, length: 3 m }
  W3: { path: INV:out → TS:inverter, length: 3 m }
  W4: { path: TS:out → CU:in, length: 3 m }
  W5: { path: CU:1 → kettle, length: 1 m }
`;

test("inputs of a changeover are shown to exclude each other, once for each that follows another, and nothing else is", () => {
  for (const on of ["A4", "A3"] as const) {
    const locks = itemsOf(drawn(LOCKS, on)).filter(({ name }) => name.startsWith("interlocked"));
    assert.deepEqual(
      locks.map(({ name }) => name),
      ["interlocked: shore or generator or inverter, never together"],
    );
    const wedges = locks.flatMap(({ shapes }) => shapes.filter((s) => s.is === "polyline" && s.closed === true));
    assert.equal(wedges.length, 2);
    assert.ok(drawn(LOCKS, on).flatMap(textsOf).some(({ text }) => text === "generator" || text === "inverter")); // prettier-ignore
  }
});

test("wide paper takes no more sheets than narrow paper, and its pictures stand in columns", () => {
  for (const [name, text] of plans) {
    const [a4, a3] = [drawn(text, "A4"), drawn(text, "A3")];
    assert.ok(a3.length <= a4.length, `${name}: ${a3.length} sheets of A3, ${a4.length} of A4`);
  }
  assert.equal(drawn(example("hut"), "A3").length, 1);
});
