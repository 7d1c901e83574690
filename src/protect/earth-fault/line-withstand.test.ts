import assert from "node:assert/strict";
import { test } from "vitest";
import { withstandI2t } from "../../ampacity/thermal/adiabatic.ts";
import { squareMillimetres } from "../../quantity/index.ts";
import { lineK } from "./line-withstand.ts";

test("k of conductors that carry load is that of the published table", () => {
  // BS 7671:2018 Table 43.1 (IEC 60364-4-43 Table 43A): PVC 70 °C 115 and above 300 mm² 103, PVC 90 °C 100 and 86, XLPE 143; aluminium 76, 66, 94
  const k = (...at: Parameters<typeof lineK>) => lineK(...at)?.value ?? null;
  assert.equal(k("copper", "70 °C thermoplastic", 300), 115);
  assert.equal(k("copper", "70 °C thermoplastic", 400), 103);
  assert.equal(k("copper", "90 °C thermoplastic", 2.5), 100);
  assert.equal(k("copper", "90 °C thermoplastic", 400), 86);
  assert.equal(k("copper", "90 °C thermosetting", 400), 143);
  assert.equal(k("aluminium", "70 °C thermoplastic", 16), 76);
  assert.equal(k("aluminium", "90 °C thermoplastic", 16), 66);
  assert.equal(k("aluminium", "90 °C thermosetting", 16), 94);
  assert.equal(k("aluminium", "70 °C thermoplastic", 400), null);
});

test("k²S² is what guides of low-voltage installations print, in 10⁶ A²s", () => {
  // Tables of the greatest thermal stress of cables, as guides of the trade print them (memory; each is k²S² by hand: 115² × 2.5² = 82 656)
  const printed = [
    ["copper", "70 °C thermoplastic", 1.5, 0.0297],
    ["copper", "70 °C thermoplastic", 2.5, 0.0826],
    ["copper", "70 °C thermoplastic", 6, 0.4761],
    ["copper", "90 °C thermosetting", 2.5, 0.1278],
    ["copper", "90 °C thermosetting", 10, 2.045],
    ["aluminium", "70 °C thermoplastic", 16, 1.4786],
  ] as const;
  for (const [metal, insulation, area, stress] of printed) {
    const k = lineK(metal, insulation, area)?.value ?? 0;
    // Printed to four decimals, and cut off, not rounded.
    assert.ok(Math.abs(withstandI2t({ k, area: squareMillimetres(area) }) / 1e6 - stress) < 1e-4, `${metal} ${area}`);
  }
});
