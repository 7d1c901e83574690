import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile, type Compiled } from "../../src/compile.ts";
import { explainWhy, type Explanation, type WorkedStep } from "../../src/why/index.ts";

/**
 * Explanations beside sums done by hand from published tables. Every literal below was taken from the source named beside it, none from the program.
 */

const read = (name: string): Compiled =>
  compile(readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8"));
const sloop = read("sloop");
const us = read("sloop-us");

function explained(built: Compiled, asked: string): Explanation {
  const found = explainWhy(built, asked);
  assert.ok(found.ok, asked);
  return found.explanation;
}
const steps = ({ sections }: Explanation): readonly WorkedStep[] => sections.flatMap((s) => s.steps);
function near(given: unknown, wanted: number, share: number, what: string): void {
  assert.ok(
    typeof given === "number" && Math.abs(given - wanted) <= share * Math.abs(wanted),
    `${what}: explained ${String(given)}, by hand ${wanted}`,
  );
}
const figure = (e: Explanation, name: string): unknown => e.figures.find((f) => f.name === name)?.value;

// The sums by hand carry five figures.
const HAND = 2e-5;

test("masthead light: what 20.5 m of 1 mm² lose at 0.3 A", () => {
  const light = explained(sloop, "masthead light.drop");
  // IEC 60228:2004 Table 3, class 5, metal-coated, 1 mm²: 20.0 Ω/km at 20 °C. Air 30 °C, 0.3 A of 18 A (90 °C insulation): 30 + 60 · (0.3/18)²
  const warm = 30 + 60 * (0.3 / 18) ** 2;
  // IEC 60287-1-1 Table 1: α20 = 0.00393
  const oneWay = 0.02 * 20.5 * (1 + 0.00393 * (warm - 20));
  assert.equal(oneWay.toFixed(4), "0.4261");
  const wire = light.sections.flatMap((s) => s.way).filter((e) => e.element.startsWith("W14") && e.what === "wire");
  assert.deepEqual(
    wire.map((e) => e.pole),
    ["out", "back"],
  );
  for (const { volts, amps, ohms } of wire) {
    near(amps, 0.3, HAND, "amps");
    near(ohms, oneWay, HAND, "ohms");
    near(volts, 0.12784, 1e-4, "volts");
  }
  // ISO 10133:2012 4.8: 3 % for navigation lights
  near(figure(light, "dropLimitShare"), 0.03, HAND, "limit");
});

test("DC-DC charger through an engine space of 60 °C: what 10 AWG may carry", () => {
  const wire = explained(us, "W05.ampacity");
  // 33 CFR 183.425 Table 5, 10 AWG, 105 °C: 60 A. Air 140 °F = 60 °C against the table's 30 °C: √((105 − 60) / (105 − 30)) = √0.6
  // ABYC E-11 Table VI, 2 and 3 conductors together: 0.70
  near(figure(wire, "ampacityA"), 60 * Math.sqrt(0.6) * 0.7, HAND, "Iz");
  near(figure(wire, "ampacityA"), 32.533, HAND, "Iz in figures");
  const cell = steps(wire).find((s) => s.table !== null);
  assert.equal(cell?.value, 60);
  assert.equal(cell.trust, "read");
  // Outside of it the same wire at 30 °C: 60 · 0.70
  assert.ok(steps(wire).some((s) => s.name.startsWith("corrected") && Math.abs(Number(s.value) - 42) < 1e-9));
});

test("the same wire, warm: what its two stretches measure", () => {
  const wire = explained(us, "W05.temperature");
  // NEC Chapter 9 Table 8, 10 AWG stranded, coated: 1.29 Ω/kft at 75 °C; note 2: α75 = 0.00323. To 20 °C and metres: 1.29 · (1 − 0.00323 · 55) / 304.8
  const per = 0.0034804;
  // At 30 A: 60 + 45 · (30/32.533)² = 98.27 °C over 1 ft 8 in = 0.508 m; 30 + 75 · (30/42)² = 68.27 °C over the rest of 5 ft 3 in, 1.0922 m
  near(figure(wire, "conductorC"), 98.265, 1e-4, "hottest");
  const byHand = per * 0.508 * (1 + 0.00393 * 78.265) + per * 1.0922 * (1 + 0.00393 * 48.265);
  near(figure(wire, "runOhms"), byHand, 1e-4, "run");
  near(figure(wire, "runOhms"), 0.0068342, 1e-4, "run in figures");
});

test("windlass: what two batteries leave it to start with", () => {
  const windlass = explained(sloop, "windlass");
  // The worst is while the anchor is hauled: fridge 4.3 A, VHF 0.4 A · 12 V at the 12.54 V it has there, inverter idling with 8 W at 12.59 V,
  // bilge pump 4.5 A, battery monitor 0.05 A ahead of the switch; then 150 A. Two equal batteries on equal leads share alike.
  const panel = 4.3 + (0.4 * 12) / 12.54;
  const behindSwitch = 150 + 4.5 + panel + 8 / 12.59;
  const each = (behindSwitch + 0.05) / 2;
  // Open measurements of LFP cells at 20 % charge, 4 cells of 3.2413 V. Inside: nominal 12.8 V over 3.0 kA declared
  const terminal = 4 * 3.2413 - each * (12.8 / 3000);
  // IEC 60228 Table 3, class 5 metal-coated: 35 mm² 0.565 Ω/km. Each as warm as its greatest steady current makes it:
  // W01 58.05 A, W33 116.05 A, W12 85 A, each of 185 A (ampacities of the set's table, from memory)
  const wire = (perKm: number, metres: number, amps: number, iz: number): number =>
    (perKm / 1000) * metres * (1 + 0.00393 * (10 + 60 * (amps / iz) ** 2));
  const w01 = wire(0.565, 0.9, 58.05, 185);
  const w33 = wire(0.565, 0.3, 116.05, 185);
  const w12 = wire(0.565, 8.6, 85, 185);
  const joint = 0.0001;
  // A class T fuse drops 0.08 V at its rating of 80 A, a battery-post fuse 0.1 V at 150 A (common practice); a switch contact 0.2 mΩ
  const lead = each * (w01 + 4 * joint + 0.08 / 80) + each * (w01 + 2 * joint);
  const common = behindSwitch * 0.0002 + behindSwitch * (w33 + 2 * joint);
  const own = 150 * (w12 + 4 * joint + 0.1 / 150) + 150 * (w12 + 2 * joint);
  const left = terminal - lead - common - own;
  // Volts of the two loads of constant power are known to four figures: 0.1 mA of 160 A.
  near(figure(windlass, "startVolts"), left, 1e-5, "left");
  near(figure(windlass, "startVolts"), 10.538, 1e-4, "left in figures");
});

test("windlass: why its fuse is 150 A", () => {
  const fuse = explained(sloop, "W12 fuse");
  // NEC 210.20: 85 A / 0.8 = 106.25 A. A short at the bar draws more than the 2 kA that a strip fuse breaks; a battery-post fuse breaks 5 kA above 14 V, and of it no
  // opening times are published: it is held to carry no more than its rating, so that the start of 150 A decides. Ratings go … 125, 150, 175 …
  near(figure(fuse, "leastA"), 150, HAND, "least");
  assert.equal(figure(fuse, "ratingA"), 150);
});
