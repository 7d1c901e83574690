import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";
import { compile } from "../../compile.ts";

const RULE = "protection/overdrawn-feeder";
const panel = (states: string) => `parts:
  kettle: { kind: load, running: 50 A }
  hob: { kind: load, running: 50 A }
circuits:
  W04: { path: BP → PNL, length: 1.5 m, wire: 35 mm², fuse: 70 A at BP }
  W20: { path: PNL:3 → kettle, length: 2 m, wire: 25 mm², breaker: 80 A at PNL }
  W21: { path: PNL:4 → hob, length: 2 m, wire: 25 mm², breaker: 80 A at PNL }
states:
${states}`;

test("100 A of loads on 70 A are right as long as two are never on together", () => {
  const apart = "  breakfast: { on: [kettle], charge: 60 % }\n  dinner: { on: [hob], charge: 60 % }";
  const together = "  feast: { on: [kettle, hob], charge: 60 % }";
  assert.equal(saidOf(judgePlain(panel(apart)), RULE, "circuits.W04"), "pass");
  const found = judgePlain(panel(together)).judgement.findings.find((f) => f.rule === RULE);
  assert.equal(found?.about, "circuits.W04");
  assert.equal(found.state, "feast");
  assert.equal(found.severity, "must");
});

test("the ratings of the branches are not added", () => {
  const said = judgePlain(panel("  dinner: { on: [hob], charge: 60 % }"));
  // 80 A + 80 A + the rest behind 70 A
  assert.equal(saidOf(said, RULE, "circuits.W04"), "pass");
});

test("a bar is held against all that flows into it", () => {
  const text = (rated: string) => `parts:
  BP: { kind: bus bar, rated: ${rated} }
  kettle: { kind: load, running: 50 A }
  hob: { kind: load, running: 50 A }
circuits:
  W20: { path: BP → kettle, length: 2 m, fuse: 70 A at BP }
  W21: { path: BP → hob, length: 2 m, fuse: 70 A at BP }
states:
  feast: { on: [kettle, hob], charge: 60 % }`;
  // two loads of 50 A by what the volts make of it
  assert.equal(saidOf(judgePlain(text("110 A")), RULE, "parts.BP"), "pass");
  assert.equal(saidOf(judgePlain(text("90 A")), RULE, "parts.BP"), "fail");
  assert.equal(saidOf(judgePlain(text("unknown")), RULE, "parts.BP"), "cannot tell");
});

test("a load behind it of which nobody knows what it takes", () => {
  const said = judgePlain(
    "parts:\n  box: { kind: load, running: unknown }\ncircuits:\n  W20: { path: PNL:3 → box, length: 2 m }",
  );
  assert.equal(saidOf(said, RULE, "circuits.W04"), "cannot tell");
});

test("a main on two lines is held against the line that carries most", () => {
  const cabin = (main: string, more = "") => `wireworthy: 1
rules: { AC: us-cabin NEC 2023 }
systems:
  AC: { kind: AC, nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE] }
stock: { sizes: AWG }
parts:
  INL: { kind: shore inlet, rated: 50 A }
  LC: { kind: load centre, main: { rated: ${main}, poles: 2 }, ways: 4 }
  range: { kind: load, running: 8 A }
  kitchen: { kind: load, running: 20 A }
  pump: { kind: load, motor: AC, running: 9 A }
circuits:
  A2: { path: INL → LC, length: 2 m }
  A3: { path: LC:1 → range, length: 6 m }
  A4: { path: LC:2 → kitchen, length: 9 m, cores: [L1, N, PE] }
  A5: { path: LC:3 → pump, length: 9 m, cores: [L2, N, PE] }
states:
  all: { shore: in, on: [range, kitchen, pump] }
  some: { shore: in, on: [range, pump] }
${more}`;
  // L1: 8 + 20 = 28 A; L2: 8 + 9 = 17 A. Both together would be 37 A on one line.
  const { findings } = compile(cabin("25 A")).judgement;
  const found = findings.find((f) => f.rule === RULE && f.about === "parts.LC");
  assert.deepEqual([found?.measured?.value, found?.limit?.value, found?.state], [28, 25, "all"]);
  assert.match(found?.because ?? "", /28 A on L1 flow through the main of LC \(all\), more than its 25 A/);
  assert.equal(saidOf(compile(cabin("30 A")), RULE, "parts.LC"), "pass");
});
