import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { kcmilSize, metalSize, resistancePerMetre20, sizeOfPrint } from "./index.ts";
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
