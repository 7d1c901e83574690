import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import type { Scene, TextShape } from "../scene.ts";
import { shapeBox } from "../shape-box.ts";
import { noteText } from "./compose-sheet.ts";
import { papers } from "../sheet/paper.ts";
import type { DrawnFinding } from "./drawn-finding.ts";
import { drawOneLine } from "./index.ts";
import { viewParts } from "./part-view.ts";

const SMALL = `wireworthy: 1
name: A boat
systems:
  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  RCD: { kind: breaker, name: shore main, rated: 16 A, poles: 2, residual device: 30 mA }
  GEN: { kind: generator, rated: 3.5 kVA, neutral: floating }
  GB: { kind: breaker, name: generator breaker, rated: 16 A, poles: 2 }
  TS: { kind: transfer switch, name: changeover, inputs: [shore, generator], off: yes, poles: 2 }
  CU: { kind: consumer unit, ways: { 1: breaker 16 A 2-pole }, main: { residual device: 30 mA, poles: 2, rated: 25 A } }
  compressor: { kind: load, motor: AC, running: 4 A }
circuits:
  A1: { path: INL → RCD, length: 0.4 m }
  A2: { path: RCD → TS:shore, length: 3 m, wire: 2.5 mm² }
  A3: { path: GEN → GB, length: 0.4 m }
  A4: { path: GB → TS:generator, length: 4 m, wire: 2.5 mm² }
  A5: { path: TS:out → CU, length: 1.2 m }
  A6: { path: CU:1 → compressor, length: 5 m }
`;

/** The changeover feeds a converter, whose wires are drawn apart: it begins a picture of its own. */
const BOAT = SMALL.replace("systems:", "systems:\n  DC: { kind: DC, nominal: 24 V, return: BN }")
  .replace("parts:", "parts:\n  BN: { kind: bus bar }\n  BP: { kind: bus bar }\n  B1: { kind: battery, chemistry: LFP, capacity: 400 Ah }\n  INV: { kind: inverter/charger, rated: 3000 VA, charging: 70 A }") // prettier-ignore
  .replace("TS:out → CU,", "TS:out → INV:in,")
  .concat("  A7: { path: INV:out → CU, length: 1 m }\n  D1: { path: B1 → BP, length: 1 m }\n  D2: { path: BP → INV:battery, length: 1 m }\n"); // prettier-ignore

function sheets(text: string, paper: "A4" | "A3"): Scene[] {
  const { plan, system, runs, design, judgement } = compile(text);
  return drawOneLine({ plan, system, runs, design, findings: judgement.findings }, { paper, variant: "iec" });
}
const textsOf = (scenes: readonly Scene[]): string =>
  scenes.flatMap(({ items }) => items.map(({ shapes }) => shapes.filter((s): s is TextShape => s.is === "text").map(({ text }) => text).join(""))).join("\n"); // prettier-ignore

test.each(["A4", "A3"] as const)("%s: what stands before a changeover is told with its figures", (paper) => {
  const says = textsOf(sheets(BOAT, paper));
  for (const told of ["16 A 30 mA", "3.5 kVA", "25 A 30 mA"]) assert.ok(says.includes(told), told);
  // Number and length on one line where the size takes another.
  for (const told of [/^A2\b.*\b3\.0 m$|^A2 3×2\.5 mm²\*$/m, /^A4\b.*\b4\.0 m$|^A4 3×2\.5 mm²\*$/m])
    assert.match(says, told);
  assert.equal(says.match(/3×2\.5 mm²\*/g)?.length, 2);
});

test.each(["A4", "A3"] as const)("%s: no contact of a changeover stands in a name", (paper) => {
  for (const { items } of [...sheets(SMALL, paper), ...sheets(BOAT, paper)]) {
    const rings = items
      .filter(({ about }) => about === "parts.TS")
      .flatMap(({ shapes }) => shapes.filter((s) => s.is === "ellipse"));
    if (items.some(({ about }) => about === "parts.TS")) assert.equal(rings.length, 3);
    const texts = items.flatMap(({ shapes }) => shapes.filter((s): s is TextShape => s.is === "text" && s.text !== ""));
    for (const ring of rings) {
      const [[x1, y1], [x2, y2]] = shapeBox(ring);
      for (const text of texts) {
        const [[a1, b1], [a2, b2]] = shapeBox(text);
        assert.ok(a2 <= x1 || x2 <= a1 || b2 <= y1 || y2 <= b1, text.text);
      }
    }
  }
});

test("a motor carries the sign of its current", () => {
  const { plan, system } = compile(SMALL);
  assert.equal(viewParts(plan, system, "unknown").get("compressor")?.symbol, "motor_ac");
});

test("under the sign of the gravest finding a lesser one says how grave it is", () => {
  const finding = (title: string, outcome: DrawnFinding["outcome"], severity: DrawnFinding["severity"]): DrawnFinding => ({ rule: `a/${title}`, outcome, severity, about: "parts.TS", title, because: "it is so" }); // prettier-ignore
  const findings = [finding("grave", "fail", "must"), finding("as grave", "fail", "must"), finding("lesser", "fail", "should"), finding("dark", "cannot tell", "must")]; // prettier-ignore
  const { text } = noteText({ number: 1, gravity: "fail", at: null, findings, abouts: [] }, papers.A4);
  assert.equal(text, "It is so. As grave: It is so. Lesser (should): It is so. Also: dark (cannot be told).");
});
