import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../src/compile.ts";
import { deviceFamily } from "../../src/device/index.ts";
import { chanceOf } from "../fixtures/mutate.ts";

/*
 * Loads of all sizes on a panel, some of whose makers state the largest device that they allow. What is chosen passes the must on that wherever a breaker or fuse on sale
 * can do it, and a limit that is not stated, or not met, changes nothing.
 */

const RULE = "protection/device-above-appliance-limit";

interface Load {
  readonly amps: number;
  readonly starts: boolean;
  readonly limit: number | null;
}

function panel(seed: number): { readonly kind: "breaker" | "fuse"; readonly loads: readonly Load[] } {
  const below = chanceOf(seed);
  const loads = Array.from({ length: 2 + below(6) }, (): Load => {
    const amps = (1 + below(400)) / 20;
    const limit = below(3) === 0 ? null : Math.round(amps * (0.5 + below(20) / 10) * 2) / 2;
    return { amps, starts: below(3) === 0, limit: limit === 0 ? null : limit };
  });
  return { kind: below(2) === 0 ? "breaker" : "fuse", loads };
}

const textOf = ({ kind, loads }: ReturnType<typeof panel>): string => `wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 300 Ah, short-circuit: 3 kA }
  BN: { kind: bus bar }
  PNL: { kind: panel, ways: ${loads.length}, device: ${kind}, negative bar: yes }
${loads.map(({ amps, starts, limit }, i) => `  L${i}: { kind: load, running: ${amps} A${starts ? `, starting: ${4 * amps} A, start time: 1 s` : ""}${limit === null ? "" : `, largest fuse: ${limit} A`} }\n`).join("")}circuits:
  W0: { path: B1 → PNL, length: 1 m }
  N0: { path: B1:− → BN, length: 1 m }
${loads.map((_, i) => `  C${i}: { path: PNL:${i + 1} → L${i}, length: 3 m }\n`).join("")}`;

test("a design passes the limits of makers wherever something on sale can, and else is what it would be without them", () => {
  let capped = 0;
  let hopeless = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const plan = panel(seed);
    const text = textOf(plan);
    const { settled, judgement, design } = compile(text);
    const free = compile(textOf({ ...plan, loads: plan.loads.map((l) => ({ ...l, limit: null })) }));
    assert.ok(design.settled, text);
    plan.loads.forEach(({ amps, limit }, i) => {
      const rating = (d: typeof design) => d.circuits.find((c) => c.id === `C${i}`)?.devices[0]?.ratingA ?? 0;
      const [now, without] = [rating(design), rating(free.design)];
      // By the tables alone: the largest on sale that the maker allows.
      const onSale = deviceFamily(plan.kind === "breaker" ? "thermal_breaker" : "blade_type_C").standardRatings;
      const largest = onSale.findLast((r) => r <= (limit ?? 0) && r >= amps);
      const failed = judgement.findings.some((f) => f.rule === RULE && f.about === `parts.L${i}`);
      const wanted = limit === null || without <= limit || without === 0 ? without : (largest ?? without);
      assert.equal(now, wanted, `L${i}\n${text}`);
      // Where nothing on sale bears the start no device is there at all.
      assert.equal(failed, limit !== null && (now === 0 || now > limit), `L${i}\n${text}`);
      const circuit = settled.model.circuits.findIndex((c) => c.circuit.id === `C${i}`);
      const heldTo = settled.devices.circuits[circuit]?.devices[0]?.heldTo;
      assert.equal(heldTo?.amps, now < without ? limit : undefined, `L${i}\n${text}`);
      if (now < without) capped++;
      if (failed) hopeless++;
    });
  }
  assert.ok(capped > 40 && hopeless > 40, `${capped} held down, ${hopeless} hopeless`);
});
