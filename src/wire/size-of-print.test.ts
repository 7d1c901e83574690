import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import {
  conductorDiameter,
  insulatedDiameter,
  kcmilSize,
  metalSize,
  resistancePerMetre20,
  sizeOfPrint,
} from "./index.ts";
import type { PrintedSize } from "./make/wire-make.ts";

const printed = (system: PrintedSize["system"], name: string, areaMm2: number, basis: PrintedSize["basis"]) =>
  sizeOfPrint({ system, name, label: `${name} ${system}`, areaMm2, basis });

test("sizes of the four systems stand as they are, others are areas of metal or the gauge behind a label", () => {
  assert.equal(printed("AWG", "2/0", 67.43, "metal")?.label, "2/0 AWG");
  assert.equal(printed("kcmil", "250", 126.7, "metal")?.label, "250 kcmil");
  assert.equal(printed("mm²", "2.5", 2.5, "label")?.label, "2.5 mm²");
  assert.equal(printed("SAE", "12", 2.956, "metal")?.label, "12 SAE");
  // SAE J1128: 13 mm² stands on cable of gauge 6
  assert.equal(printed("SAE metric label", "13", 13, "label")?.label, "6 SAE");
  assert.equal(printed("JIS", "5.5", 5.5, "label")?.system, "mm²");
  assert.equal(printed("SWG", "14", 3.243, "metal")?.areaMm2, 3.243);
  assert.equal(printed("AWG", "77", 1, "metal"), null);
  assert.equal(printed("strands", "1/0.01", 0, "metal"), null);
});

test("the resistance of an area of metal is that of the same area in circular mils", () => {
  const make = { metal: "copper", plating: "tinned", strands: "type 3" } as const;
  fc.assert(
    fc.property(fc.double({ min: 0.3, max: 200, noNaN: true }), (area) => {
      const counted = resistancePerMetre20({ ...make, size: metalSize(area, "counted strands") }).ohmsPerMetre;
      const { areaMm2 } = kcmilSize(area / 0.506707479); // one kcmil is π/4 · 25.4²/1000 mm²
      const same = resistancePerMetre20({ ...make, size: { ...kcmilSize(1), name: "none", areaMm2 } }).ohmsPerMetre;
      assert.ok(Math.abs(counted / same - 1) < 1e-6, `${area}`); // nine digits of the factor
    }),
  );
});

test("a few thousand circular mils are not the gauge of the same number", () => {
  const make = { metal: "copper", plating: "plain", strands: "class B" } as const;
  for (const kcmil of [1, 2, 3, 4, 6, 8, 10, 12, 14, 16, 18, 20]) {
    const size = kcmilSize(kcmil);
    // 10.371 Ω·cmil/ft is annealed copper of 100 % IACS at 20 °C; 2 % of lay on top, ASTM B8
    const expected = (10.371 * 1.02) / (kcmil * 1000 * 0.3048);
    const { ohmsPerMetre } = resistancePerMetre20({ ...make, size });
    assert.ok(Math.abs(ohmsPerMetre / expected - 1) < 1e-3, `${kcmil}: ${ohmsPerMetre}`); // digits of 10.371
    const solid = conductorDiameter({ ...make, size, strands: "class 1" }).value;
    assert.ok(Math.abs(solid / (Math.sqrt(kcmil * 1000) * 25.4e-6) - 1) < 1e-9); // a circular mil is the square of a mil
    assert.ok(conductorDiameter({ ...make, size }).value < solid * 1.2); // fine strands, the loosest, are 1.17 times as thick
    assert.equal(insulatedDiameter(size, "THHN/THWN/THWN-2"), null);
  }
});
