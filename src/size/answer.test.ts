import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { compile } from "../compile.ts";
import { answerQuestion, type Answer } from "./answer.ts";
import { readQuestion } from "./question.ts";
import type { QuestionText } from "./question-text.ts";

const ask = (text: QuestionText): Answer => {
  const read = readQuestion(text);
  assert.ok(read.ok, read.ok ? "" : JSON.stringify(read.problems));
  return answerQuestion(read.question, compile);
};

/** The method by hand: resistance of the run out and back at the heat of the current, joints, fuse. */
function dropByHand(x: {
  ohmsPerMetre20: number;
  oneWayM: number;
  amps: number;
  iz: number;
  ratedC: number;
  fuseOhms: number;
}): number {
  const metalC = 30 + (x.ratedC - 30) * (x.amps / x.iz) ** 2;
  const wire = 2 * x.oneWayM * x.ohmsPerMetre20 * (1 + 0.00393 * (metalC - 20)); // α20 of copper: IEC 60028
  const joints = 6 * 0.0001; // four ends of wire and two sides of the fuse: docs/method.md section 1
  return x.amps * (wire + joints + x.fuseOhms);
}

test("a fridge in metric wire comes out as by hand", () => {
  const a = ask({ load: "4.3 A", run: "5.2 m", drop: "3 %" });
  const common = { oneWayM: 5.2, amps: 4.3, ratedC: 90, fuseOhms: 0.116 / 7.5 }; // 116 mV at 7.5 A: reference/device/drops.csv
  // 5.09 and 8.21 Ω/km: IEC 60228 Table 3, class 5, tinned. 40 and 30 A: ISO 13297 Table A.1, 85–90 °C (memory).
  const chosen = dropByHand({ ...common, ohmsPerMetre20: 5.09e-3, iz: 40 });
  const thinner = dropByHand({ ...common, ohmsPerMetre20: 8.21e-3, iz: 30 });
  assert.ok(chosen < 0.36 && thinner > 0.36, "by hand, 4 mm² is the thinnest that loses no more than 3 % of 12 V");
  assert.equal(a.size?.label, "4 mm²");
  assert.equal(a.deciding, "drop");
  // 1e-6: the same arithmetic by another way; only the millionth of an ohm in the source is left.
  assert.ok(Math.abs((a.drop.volts ?? 0) - chosen) < 1e-6, `${a.drop.volts ?? 0} against ${chosen}`);
  assert.ok(Math.abs((a.drop.percent ?? 0) - (100 * chosen) / 12) < 1e-5);
  assert.equal(a.drop.limitPercent, 3);
  assert.equal(a.ampacity, 40);
  assert.deepEqual(a.run, { oneWayM: 5.2, loopM: 10.4, asked: "one way" });
  // 4.3 ÷ 0.8 = 5.375 A, the next rating of blade fuses is 7.5 A; ISO: no more than the 40 A of the wire.
  assert.deepEqual(a.device, {
    family: "blade_type_C",
    familyName: "blade fuse",
    least: 4.3 / 0.8,
    most: 40,
    chosen: 7.5,
  });
  assert.equal(a.nextDown?.size.label, "2.5 mm²");
  assert.deepEqual(a.nextDown.fails, [
    {
      id: "drop",
      says: `it would lose ${thinner.toFixed(2)} V, ${((100 * thinner) / 12).toFixed(1)} %; the limit is 3 %`,
    },
  ]);
});

test("lights in American wire come out as by hand", () => {
  const a = ask({ load: "5 A", loop: "20 m", drop: "6 %", rules: "us-small-craft", insulation: "105 °C" });
  // 2.05 Ω/kft at 75 °C: NEC Chapter 9 Table 8, 12 AWG stranded coated; its own α75 0.00323 brings it to 20 °C.
  const at20 = (2.05 / 304.8) * (1 + 0.00323 * (20 - 75));
  // 45 A: 33 CFR 183.425 Table 5, 12 AWG, 105 °C; 0.7: ABYC E-11, two or three conductors together.
  const byHand = dropByHand({
    ohmsPerMetre20: at20,
    oneWayM: 10,
    amps: 5,
    iz: 0.7 * 45,
    ratedC: 105,
    fuseOhms: 0.116 / 7.5,
  });
  // 14 AWG: 3.26 Ω/kft, 35 A in the same tables.
  const at20Thinner = (3.26 / 304.8) * (1 + 0.00323 * (20 - 75));
  const thinner = dropByHand({
    ohmsPerMetre20: at20Thinner,
    oneWayM: 10,
    amps: 5,
    iz: 0.7 * 35,
    ratedC: 105,
    fuseOhms: 0.116 / 7.5,
  });
  assert.ok(byHand < 0.72 && thinner > 0.72, "by hand, 12 AWG is the thinnest that loses no more than 6 % of 12 V");
  assert.equal(a.size?.label, "12 AWG");
  assert.ok(Math.abs((a.drop.volts ?? 0) - byHand) < 1e-6, `${a.drop.volts ?? 0} against ${byHand}`);
  assert.equal(a.run.asked, "there and back");
});

test("the source holds its volts, whatever is drawn", () => {
  const a = ask({ load: "85 A", start: "150 A", startsAbove: "9 V", run: "8.6 m", sourceVolts: "12.2 V" });
  assert.ok(a.loadVolts !== null && a.drop.volts !== null && a.startVolts !== null);
  // A millionth of an ohm at 85 A.
  assert.ok(Math.abs(12.2 - a.loadVolts - a.drop.volts) < 1e-4, `${a.loadVolts} + ${a.drop.volts}`);
  assert.ok(a.startVolts >= 9 && a.startVolts < a.loadVolts);
});

test("what nothing on sale can do is said", () => {
  const a = ask({ load: "500 A", run: "30 m" });
  assert.equal(a.outcome, "nothing is enough");
  assert.equal(a.size, null);
  assert.ok(a.constraints.some((c) => c.id === "drop" && c.outcome === "not met" && c.alone === null));
});

test("a load that no device carries is told, and sized all the same", () => {
  const a = ask({ load: "2000 A", run: "0.1 m" });
  assert.equal(a.device, null);
  assert.ok(a.notes.some((note) => note.includes("no device on sale")));
});

test("volts beyond what the rules are made for are said", () => {
  const says = (volts: string): boolean =>
    ask({ load: "4 A", run: "5 m", volts }).notes.some((n) => n.includes("50 V"));
  assert.deepEqual([says("48 V"), says("230 V")], [false, true]);
});

test("every default is listed with the field that says otherwise, and none that was given", () => {
  const pins = (text: QuestionText): string[] => ask(text).assumptions.map((a) => a.pin);
  const bare: QuestionText = { load: "4 A", start: "8 A", run: "5 m" };
  const given: QuestionText = {
    ...bare,
    startTime: "0.2 s",
    volts: "12 V",
    sourceVolts: "12 V",
    drop: "3 %",
    rules: "iso-small-craft",
    stock: "mm²",
    bundle: "2",
    metal: "copper",
    strands: "class 5",
    insulation: "90 °C",
    ambient: "30 °C",
  };
  assert.deepEqual(pins(given), []);
  const defaults = pins(bare);
  for (const field of Object.keys(given).filter((f) => !(f in bare))) assert.ok(defaults.includes(field), field);
});

const area = (text: QuestionText): number => ask(text).size?.areaMm2 ?? Infinity;
const load = fc.integer({ min: 1, max: 900 }).map((tenths) => tenths / 10);
const metres = fc.integer({ min: 2, max: 250 }).map((tenths) => tenths / 10);
const rules = fc.constantFrom("iso-small-craft", "us-small-craft");

test("a harder question never gets a thinner wire", () => {
  fc.assert(
    fc.property(load, metres, rules, fc.integer({ min: 0, max: 5 }), (amps, m, set, which) => {
      const easy: QuestionText = { load: `${amps} A`, run: `${m} m`, drop: "5 %", rules: set, ambient: "30 °C" };
      const harder: QuestionText[] = [
        { ...easy, run: `${m + 3} m` },
        { ...easy, drop: "3 %" },
        { ...easy, ambient: "50 °C" },
        { ...easy, engineSpace: true },
        { ...easy, bundle: "7" },
        { ...easy, leastVolts: "11.7 V" },
      ];
      const hard = harder[which];
      assert.ok(hard !== undefined);
      assert.ok(area(hard) >= area(easy), JSON.stringify(hard));
    }),
    { numRuns: 60 },
  );
});

test("the next size down fails what decided, or there is none", () => {
  fc.assert(
    fc.property(load, metres, rules, (amps, m, set) => {
      const a = ask({ load: `${amps} A`, run: `${m} m`, rules: set });
      if (a.size === null) return;
      assert.ok(a.deciding !== null);
      const decider = a.constraints.find((c) => c.id === a.deciding);
      assert.equal(decider?.alone?.label, a.size.label);
      if (a.nextDown === null) return;
      assert.ok(a.nextDown.size.areaMm2 < a.size.areaMm2);
      assert.ok(
        a.nextDown.fails.some((f) => f.id === a.deciding),
        JSON.stringify(a.nextDown),
      );
    }),
    { numRuns: 60 },
  );
});
