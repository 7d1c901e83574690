import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../src/compile.ts";
import { STEADY_SHARE } from "../../src/protect/index.ts";
import { ampacityAt } from "../../src/size/ladder.ts";
import { mustBreak } from "../../src/size/must-break.ts";
import { placeDevices, type Devices } from "../../src/size/place-devices.ts";
import { chanceOf } from "../fixtures/mutate.ts";

/*
 * Meshes of bars, where sizes, currents and devices hang on each other most. A design that says it is settled is at rest: asked once more, nothing goes elsewhere;
 * every device carries its current; and no end of the rounds is called rest.
 */

function mesh(seed: number): string {
  const below = chanceOf(seed);
  const between = (low: number, high: number): string =>
    (low + ((high - low) * below(1_000_000)) / 1_000_000).toFixed(1);
  const bars = 3 + below(4);
  const batteries = 1 + below(2);
  const parts: string[] = [];
  const circuits: string[] = [];
  for (let b = 1; b <= batteries; b++) {
    parts.push(`  B${b}: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 1.5 kA }\n`);
    circuits.push(`  S${b}: { path: B${b} → P${b - 1}, length: ${between(0.5, 2.5)} m }\n`);
  }
  for (let i = 0; i < bars; i++) {
    parts.push(`  P${i}: { kind: bus bar }\n  L${i}: { kind: load, running: ${between(1, 21)} A }\n`);
    circuits.push(`  D${i}: { path: P${i} → L${i}, length: ${between(1, 7)} m }\n`);
    for (let j = i + 1; j < bars; j++) {
      if (j !== i + 1 && below(10) >= 3) continue;
      circuits.push(`  M${i}_${j}: { path: P${i} → P${j}, length: ${between(0.5, 4.5)} m }\n`);
    }
  }
  return [
    "wireworthy: 1\nrules: { DC: iso-small-craft }\nsystems: { DC: { kind: DC, nominal: 12 V, return: BN } }\n",
    "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }\n",
    `parts:\n  BN: { kind: bus bar }\n${parts.join("")}circuits:\n${circuits.join("")}`,
  ].join("");
}

const placed = ({ circuits }: Devices) =>
  circuits.map(({ devices, from, to }) => ({
    devices: devices.map((d) => `${d.end} ${d.rating ?? "?"} ${d.family ?? ""}`).sort(),
    bare: [from?.why, to?.why],
  }));

test("what is settled stays as it is when devices are placed once more", () => {
  let settledOnes = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const text = mesh(seed);
    const { design, settled } = compile(text);
    const { model, currents, devices } = settled;
    assert.ok(design.rounds <= 60, `${design.rounds} rounds`);
    assert.equal(design.settled, design.unsettled.length === 0);
    if (!design.settled) continue;
    settledOnes++;
    const least = Float64Array.from(model.circuits, ({ rungs }, i) => {
      if (rungs === null) return 0;
      const top = rungs.ladder.makes.length - 1;
      for (let r = rungs.least; r < top; r++) {
        if (ampacityAt(rungs, r) >= (currents[i]?.steady ?? 0)) return ampacityAt(rungs, r);
      }
      return ampacityAt(rungs, top);
    });
    // What was given late stays; that is why what stands is handed over.
    assert.deepEqual(placed(placeDevices(model, currents, least, devices, mustBreak(settled))), placed(devices), text);
    for (const c of design.circuits) {
      for (const d of c.devices) {
        // A millionth: currents come to rest within that.
        const carries = (d.ratingA ?? Infinity) * STEADY_SHARE >= (c.steadyA ?? 0) * (1 - 1e-6);
        assert.ok(carries || c.nothingIsEnough, `${c.id}: ${d.ratingA ?? "?"} A for ${c.steadyA ?? "?"} A\n${text}`);
      }
      const device = c.constraints.find((k) => k.id === "device");
      assert.ok(
        device?.outcome !== "not met" || c.nothingIsEnough,
        `${c.id}: its wire does not suit its devices\n${text}`,
      );
    }
  }
  assert.ok(settledOnes >= 36, `${settledOnes} of 40 settle`);
}, 240_000);
