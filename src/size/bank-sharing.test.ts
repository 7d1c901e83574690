import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { bankSharing } from "./bank-sharing.ts";

const four = (leads: string) =>
  bankSharing(
    compile(`wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: N1 } }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah, resistance: 1 mΩ }
  B2: { like: B1 }
  B3: { like: B1 }
  B4: { like: B1 }
  N1: { kind: bus bar }
  BP: { kind: bus bar }
  L: { kind: load, running: 100 A }
circuits:
${leads}
  W9: { path: BP → L, length: 1 m }
states:
  on: { on: [L] }
`).settled,
  );

test("the two equal batteries of the sloop share alike, at load and in a fault; their start battery is no unit of theirs", () => {
  const path = join(import.meta.dirname, "..", "..", "examples", "sloop.yaml");
  const [bank, ...rest] = bankSharing(compile(readFileSync(path, "utf8")).settled);
  assert.deepEqual(rest, []);
  assert.deepEqual(bank?.units, ["B1", "B2"]);
  for (const { units } of bank?.atLoad ?? [])
    for (const { share } of units) assert.ok(share === null || Math.abs(share - 0.5) < 1e-6);
  for (const { share } of bank?.atFault?.units ?? []) assert.ok(share !== null && Math.abs(share - 0.5) < 1e-6);
  assert.deepEqual(JSON.parse(JSON.stringify(bank)), bank);
});

test("four units in a row, both leads at one end: the first gives most, at load as in a fault", () => {
  const link = "length: 0.3 m, wire: 35 mm², fuse: none";
  const row = ["+", "−"]
    .flatMap((pole) =>
      [1, 2, 3].map((k) => `  L${pole === "+" ? "P" : "N"}${k}: { path: B${k}:${pole} → B${k + 1}:${pole}, ${link} }`),
    )
    .join("\n");
  const [bank] = four(
    `${row}\n  WP: { path: B1:+ → BP, length: 0.5 m, wire: 70 mm² }\n  WN: { path: B1:− → N1, length: 0.5 m, wire: 70 mm² }`,
  );
  const load = bank?.atLoad[0]?.units.map((u) => u.share ?? 0) ?? [];
  const fault = bank?.atFault?.units.map((u) => u.share ?? 0) ?? [];
  for (const shares of [load, fault]) {
    assert.ok(Math.abs(shares.reduce((a, b) => a + b, 0) - 1) < 1e-9);
    assert.deepEqual(
      shares,
      [...shares].sort((a, b) => b - a),
    );
  }
});
