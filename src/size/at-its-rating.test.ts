import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import type { Design } from "./index.ts";

const HEAD = `wireworthy: 1
rules:   { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock:   { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
`;
const design = (rest: string): Design => compile(HEAD + rest).design;
const amps = (d: Design, id: string): number => d.circuits.find((c) => c.id === id)?.steadyA ?? NaN;

test("a thin wire does not lower the current that its charger is rated for", () => {
  for (const wire of ["0.75 mm²", "2.5 mm²", "25 mm²"]) {
    const d = design(`parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 3 kA }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  CH: { kind: charger, output: 30 A }
  ALT: { kind: alternator, rated: 80 A }
  MP: { kind: solar controller, output: 20 A }
  PV: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }
circuits:
  W1: { path: B1 → BP, length: 1 m }
  W2: { path: CH:out → BP, length: 12 m, wire: ${wire} }
  W3: { path: ALT → BP, length: 12 m, wire: ${wire} }
  W4: { path: MP:out → BP, length: 12 m, wire: ${wire} }
  W5: { path: PV → MP:in, length: 12 m, wire: ${wire} }
`);
    for (const [id, rated] of [
      ["W2", 30],
      ["W3", 80],
      ["W4", 20],
      ["W5", 1.25 * 9.2],
    ] as const) {
      // Six digits: the solver stops at a billionth of the build's greatest current.
      assert.equal(Number(amps(d, id).toPrecision(6)), rated, `${id} of ${wire}`);
    }
  }
});

test("where nothing can take what a source is rated for, its wire carries what its loads take", () => {
  const d = design(`parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 3 kA }
  BP: { kind: bus bar }
  BX: { kind: bus bar }
  BN: { kind: bus bar }
  C: { kind: DC-DC converter, output: 30 A, isolated: yes }
  L: { kind: load, running: 8 A }
circuits:
  W1: { path: B1 → BP, length: 1 m }
  W2: { path: BP → C:in, length: 1 m }
  W3: { path: C:out → BX, length: 1 m }
  W4: { path: BX → L, length: 1 m }
`);
  assert.equal(Number(amps(d, "W3").toPrecision(6)), 8);
  assert.equal(d.settled, true);
});
