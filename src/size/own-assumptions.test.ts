import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";

const plan = (x: {
  zone?: string;
  bundle?: string;
  fuse?: string;
  drop?: string;
  charger?: string;
  battery?: string;
}): string => `wireworthy: 1
rules:   { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock:   { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
zones:   { er: { kind: engine${x.zone ?? ""} } }
parts:
  B1: { kind: battery, chemistry: AGM, capacity: 100 Ah${x.battery ?? ""} }
  BN: { kind: bus bar }
  BP: { kind: bus bar }
  CH: { kind: charger, output: 20 A${x.charger ?? ""} }
circuits:
  W1: { path: B1 → BP, length: 1 m, zone: er${x.bundle ?? ""}${x.fuse ?? ""} }
  W2: { path: CH:out → BP, length: 1 m${x.drop ?? ""}${x.bundle ?? ""}${x.fuse ?? ""} }
`;
const listed = (text: string): readonly string[] => compile(text).design.assumptions.map((a) => a.id);

/** Each default, and the fact that silences it. */
const CASES: readonly (readonly [id: string, stated: Parameters<typeof plan>[0]])[] = [
  ["engine-space-air", { zone: ", ambient: 45 °C" }],
  ["bundle-own", { bundle: ", bundle: 2" }],
  ["device-load", { fuse: ", fuse: 30 A at BP" }],
  ["charging-drop", { drop: ", drop: 4 %" }],
  ["charger-self-limited", { charger: ", self-limited: yes" }],
  ["fault-by-capacity", { battery: ", short-circuit: 2 kA" }],
];

test("what sizing assumes is listed, and a stated fact silences it", () => {
  for (const [id, stated] of CASES) {
    assert.ok(listed(plan({})).includes(id), `${id} is listed`);
    assert.ok(!listed(plan(stated)).includes(id), `${id} is silent`);
  }
  assert.ok(listed(plan({ battery: ", cranking: 500 A" })).includes("fault-by-cranking"));
  assert.ok(listed(plan({})).includes("joint-resistance"));
  for (const a of compile(plan({})).design.assumptions) assert.ok(a.says !== "" && a.about.length > 0, a.id);
});
