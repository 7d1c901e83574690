import fc from "fast-check";
import assert from "node:assert/strict";
import { test } from "vitest";
import { deviceFamily, type DeviceFamilyId } from "../../device/index.ts";
import { resistancePerMetre20 } from "../../wire/index.ts";
import { metricSize } from "../../wire/wire-size.ts";
import { areaByEarthLoop } from "./area-by-earth-loop.ts";
import { currentToOpen } from "./current-to-open.ts";
import { disconnectionLimit } from "./disconnection-time.ts";
import { electrodeConductorAC, electrodeConductorDC } from "./earth-electrode-size.ts";
import { earthFaultLoop, greatestElectrode, greatestLoop } from "./fault-loop.ts";
import { declaredLoop, generatorSource, inverterSource, networkSource } from "./fault-source.ts";
import { loopImpedance, type ImpedanceRange } from "./impedance.ts";
import { judgeDisconnection, type DisconnectionQuestion } from "./judge-disconnection.ts";
import { leakageSum } from "./leakage.ts";
import { besideLive, boatGround, byHeat, equipmentGround, layingApart, protectiveK } from "./protective-size.ts";
import { residualChain, residualTime } from "./residual-time.ts";
import { shoreInterrupt } from "./shore-interrupt.ts";

const zsOf = (family: DeviceFamilyId, rating: number, seconds: number): number =>
  greatestLoop({ volts: 230, openingAmps: currentToOpen(family, rating, seconds)?.amps ?? NaN, voltsShare: 0.95 });

test("greatest loop impedances of miniature breakers are those of BS 7671:2018 Table 41.3, at 0.4 s and at 5 s", () => {
  // Table 41.3 (a) to (c), 230 V, Cmin 0.95; printed with two or three digits, so half of the last one is rounding.
  const printed: readonly [DeviceFamilyId, Readonly<Record<number, number>>][] = [
    [
      "mcb_B",
      {
        6: 7.28,
        10: 4.37,
        16: 2.73,
        20: 2.19,
        25: 1.75,
        32: 1.37,
        40: 1.09,
        50: 0.87,
        63: 0.69,
        80: 0.55,
        100: 0.44,
        125: 0.35,
      },
    ],
    [
      "mcb_C",
      {
        6: 3.64,
        10: 2.19,
        16: 1.37,
        20: 1.09,
        25: 0.87,
        32: 0.68,
        40: 0.55,
        50: 0.44,
        63: 0.35,
        80: 0.27,
        100: 0.22,
        125: 0.17,
      },
    ],
    ["mcb_D", { 6: 1.82, 10: 1.09, 16: 0.68, 20: 0.55, 25: 0.44, 32: 0.34 }],
  ];
  for (const [family, row] of printed) {
    for (const [rating, ohms] of Object.entries(row)) {
      for (const seconds of [0.4, 5])
        assert.ok(Math.abs(zsOf(family, Number(rating), seconds) - ohms) <= 0.00501, `${family} ${rating}: ${ohms}`);
    }
  }
});

test("fuses are never given more loop than BS 7671:2018 Tables 41.2 and 41.4 print, and at 5 s little less", () => {
  // BS 88-2 gG, from memory. The tables read a curve, the gates of IEC 60269-1 bound every make: they are stricter, at 5 s by up to a fifth.
  const at400ms: Readonly<Record<number, number>> = { 6: 7.8, 10: 4.65, 16: 2.43, 20: 1.68, 25: 1.29, 32: 0.99 };
  const at5s: Readonly<Record<number, number>> = {
    16: 3.97,
    20: 2.76,
    25: 2.19,
    32: 1.75,
    40: 1.28,
    50: 0.99,
    63: 0.78,
    80: 0.55,
    100: 0.42,
  };
  for (const [rating, ohms] of Object.entries(at400ms)) assert.ok(zsOf("iec_gG", Number(rating), 0.4) <= ohms, rating);
  for (const [rating, ohms] of Object.entries(at5s)) {
    const own = zsOf("iec_gG", Number(rating), 5);
    assert.ok(own <= ohms && own >= 0.8 * ohms, `${rating}: ${own} beside ${ohms}`);
  }
});

test("a tighter time never allows more loop", () => {
  for (const family of ["mcb_B", "mcb_C", "mcb_D", "iec_gG"] as const) {
    for (const rating of deviceFamily(family).standardRatings)
      assert.ok(
        (currentToOpen(family, rating, 0.4)?.amps ?? Infinity) >= (currentToOpen(family, rating, 5)?.amps ?? 0),
      );
  }
});

test("R1 + R2 of cables are those of the tables for BS 7671, mΩ/m at 20 °C", () => {
  // On-Site Guide Table I1, plain copper of class 1 or 2.
  const printed: readonly [line: number, earth: number, milliohms: number][] = [
    [1, 1, 36.2],
    [1.5, 1, 30.2],
    [1.5, 1.5, 24.2],
    [2.5, 1.5, 19.51],
    [2.5, 2.5, 14.82],
    [4, 1.5, 16.71],
    [6, 2.5, 10.49],
    [10, 4, 6.44],
    [16, 6, 4.23],
  ];
  const perMetre = (areaMm2: number): number =>
    resistancePerMetre20({ size: metricSize(areaMm2), metal: "copper", plating: "plain", strands: "class 2" })
      .ohmsPerMetre * 1000;
  const cold = (areaMm2: number): number =>
    loopImpedance({
      metal: "copper",
      ohmsPerMetre20: perMetre(areaMm2) / 1000,
      metres: { low: 1, high: 1 },
      parallel: 1,
      hotC: 70,
      hertz: 50,
    }).cold.r * 1000;
  // Both sums are rounded to a hundredth, those of whole tenths to a tenth.
  for (const [line, earth, milliohms] of printed)
    assert.ok(Math.abs(cold(line) + cold(earth) - milliohms) <= 0.0051, `${line}/${earth}: ${milliohms}`);
});

test("a loaded conductor of 70 °C has 1.20 times its resistance, as BS 7671 appendix 3 and the guides multiply", () => {
  const { cold, hot } = loopImpedance({
    metal: "copper",
    ohmsPerMetre20: 0.01,
    metres: { low: 10, high: 10 },
    parallel: 1,
    hotC: 70,
    hertz: 50,
  });
  assert.ok(Math.abs(hot.r / cold.r - 1.2) < 0.004, "1 + 50 · 0.00393 = 1.197; the guides round to 1.20");
});

test("times of IEC 60364-4-41 Table 41.1", () => {
  const at = (earthing: "TN" | "TT", circuit: "final" | "distribution", volts: number) =>
    disconnectionLimit({ earthing, circuit, current: "AC", volts })?.seconds ?? null;
  assert.deepEqual([at("TN", "final", 120), at("TN", "final", 230), at("TN", "final", 277)], [0.8, 0.4, 0.2]);
  assert.deepEqual([at("TT", "final", 120), at("TT", "final", 230), at("TT", "final", 277)], [0.3, 0.2, 0.07]);
  assert.deepEqual([at("TN", "distribution", 230), at("TT", "distribution", 230), at("TN", "final", 50)], [5, 1, null]);
});

test("equipment grounding conductors by NEC Table 250.122, and 250.122(B)", () => {
  const behind = (rating: number) =>
    equipmentGround({ rating, metal: "copper", liveMm2: 200, leastLiveMm2: null })?.size?.label;
  assert.deepEqual([15, 20, 30, 60, 100, 200, 400].map(behind), [
    "14 AWG",
    "12 AWG",
    "10 AWG",
    "10 AWG",
    "8 AWG",
    "6 AWG",
    "3 AWG",
  ]);
  assert.equal(equipmentGround({ rating: 1300, metal: "copper", liveMm2: 200, leastLiveMm2: null }), null);
  // A 40 A circuit of 8 AWG laid in 6 AWG: 10 AWG grows by 26240/16510 circular mils to 16 500, which is 8 AWG.
  const grown = equipmentGround({ rating: 40, metal: "copper", liveMm2: 13.3, leastLiveMm2: 8.367 });
  assert.ok(Math.abs((grown?.areaMm2 ?? 0) / 0.5067e-3 - 16500) < 20, String(grown?.areaMm2));
  // 250.122(A): never thicker than the live conductors.
  assert.equal(equipmentGround({ rating: 60, metal: "copper", liveMm2: 3.31, leastLiveMm2: null })?.areaMm2, 3.31);
});

test("protective conductors by IEC 60364-5-54 Table 54.2, and apart from the cable", () => {
  assert.deepEqual(
    [1.5, 16, 25, 35, 50, 95].map((live) => besideLive(live).areaMm2),
    [1.5, 16, 16, 16, 25, 47.5],
  );
  assert.deepEqual([layingApart(true).areaMm2, layingApart(false).areaMm2], [2.5, 4]);
  assert.equal(boatGround(30, 5.26).areaMm2, 5.26);
});

test("k of protective conductors is that of BS 7671 Tables 54.2 and 54.3, and the published examples come out", () => {
  assert.deepEqual(
    [
      protectiveK("copper", "70 °C thermoplastic", "in cable"),
      protectiveK("copper", "70 °C thermoplastic", "apart"),
      protectiveK("copper", "90 °C thermosetting", "apart"),
    ].map((k) => k?.value),
    [115, 143, 176],
  );
  // Worked example in guides to 543.1.3: 230 V, Zs 1.15 Ω, 200 A for 0.1 s, k 115: 0.55 mm².
  assert.ok(Math.abs(byHeat({ i2t: 200 ** 2 * 0.1, k: 115, trust: "read" }).areaMm2 - 0.55) < 0.005);
  // The same for 500 A and 0.4 s with k 143: 2.21 mm², and with k 176: 1.80 mm².
  assert.ok(Math.abs(byHeat({ i2t: 500 ** 2 * 0.4, k: 143, trust: "read" }).areaMm2 - 2.21) < 0.005);
  assert.ok(Math.abs(byHeat({ i2t: 500 ** 2 * 0.4, k: 176, trust: "read" }).areaMm2 - 1.8) < 0.005);
});

test("conductors to electrodes by NEC 250.66 and 250.166", () => {
  const size = (supply: number) => electrodeConductorAC(supply, "copper").size.label;
  // 2 AWG, 1/0, 3/0, 350 kcmil and more than 1100 kcmil of supply.
  assert.deepEqual([33.6, 53.5, 85, 177, 600].map(size), ["8 AWG", "6 AWG", "4 AWG", "2 AWG", "3/0 AWG"]);
  assert.ok(electrodeConductorDC(200, "concrete-encased").areaMm2 < 21.2);
});

test("an electrode behind 30 mA may have 1667 Ω, behind 100 mA 500 Ω (BS 7671 Table 41.5)", () => {
  assert.equal(Math.round(greatestElectrode(0.03)), 1667);
  assert.equal(Math.round(greatestElectrode(0.1)), 500);
  assert.equal(Math.round(greatestElectrode(0.3)), 167);
});

test("residual devices: times of IEC 61008-1, the law of UL 943, three to one and delayed", () => {
  const general = { amps: 0.03, seconds: null, isDelayed: false };
  assert.deepEqual(
    [0.03, 0.06, 0.15].map((a) => residualTime(general, a)?.seconds),
    [0.3, 0.15, 0.04],
  );
  assert.equal(residualTime({ ...general, isDelayed: null }, 0.03)?.seconds, 0.5, "not said: as a delayed one");
  // UL 943 class A: 5.59 s at 6 mA.
  assert.ok(
    Math.abs((residualTime({ amps: 0.005, seconds: null, isDelayed: false }, 0.006)?.seconds ?? 0) - 5.59) < 0.01,
  );
  assert.equal(residualTime({ ...general, seconds: 0.1 }, 0.03)?.seconds, 0.1, "whole-boat device, 30 mA in 100 ms");
  const up = { amps: 0.1, seconds: null, isDelayed: true };
  assert.equal(residualChain(up, general).isSelective, true);
  assert.equal(residualChain({ ...up, isDelayed: false }, general).isSelective, false);
  assert.equal(residualChain({ ...up, isDelayed: null }, general).isSelective, null);
  assert.equal(residualChain({ ...up, amps: null }, general).isSelective, null);
  assert.equal(residualChain({ ...up, amps: 0.06 }, general).isSelective, false);
});

test("leakage: 9 mA behind 30 mA is the most (BS 7671 531.3.2)", () => {
  assert.equal(leakageSum(0.03, [{ low: 0.004, high: 0.009 }]).outcome, "bears it");
  assert.equal(leakageSum(0.03, [{ low: 0.004, high: 0.0091 }]).outcome, "cannot tell");
  assert.equal(leakageSum(0.03, [{ low: 0.0091, high: 0.0095 }]).outcome, "too much");
});

test("American boats at 120 V, 30 and 50 A: 3 kA (ABYC E-11 Table IV-B)", () => {
  assert.deepEqual(
    [30, 50].map((a) => shoreInterrupt("120", a, "main")?.amps),
    [3000, 3000],
  );
  assert.equal(shoreInterrupt("120", 60, "main"), null);
});

const none: ImpedanceRange = { cold: { r: 0, x: 0 }, hot: { r: 0, x: 0 } };
const ask = (more: Partial<DisconnectionQuestion>): DisconnectionQuestion => ({
  amps: { least: 100, greatest: 200 },
  isLeastKnown: true,
  isMetallic: true,
  sourceSeconds: null,
  limit: 0.4,
  devices: [],
  residual: [],
  ...more,
});

test("an inverter's limit opens no breaker behind it, whatever the wire", () => {
  const source = inverterSource({
    volts: 230,
    ratedAmps: { low: 13, high: 13 },
    surgeAmps: { low: 26, high: 26 },
    surgeSeconds: 5,
    declaredAmps: null,
  });
  const loop = earthFaultLoop(
    {
      source,
      line: none,
      protective: { cold: { r: 0.1, x: 0 }, hot: { r: 0.12, x: 0 } },
      neutral: none,
      electrodes: null,
    },
    0.95,
  );
  assert.equal(loop.limitedBy, "inverter");
  assert.equal(loop.amps.least, 26);
  assert.ok(Math.abs(loop.touchVolts - 26 * 0.12) < 1e-9, "and the case stands at 3 V meanwhile");
  const devices = [{ families: ["mcb_B"] as const, rating: 16 }];
  assert.equal(judgeDisconnection(ask({ amps: loop.amps, devices, sourceSeconds: 5 })).outcome, "too late");
  const residual = [{ amps: 0.03, seconds: null, isDelayed: false }];
  const saved = judgeDisconnection(ask({ amps: loop.amps, devices, residual, sourceSeconds: 5 }));
  assert.deepEqual([saved.outcome, saved.by, saved.seconds], ["in time", "residual device", 0.04]);
});

test("what nobody says is never taken for safe", () => {
  const c16 = { families: ["mcb_C"] as const, rating: 16 };
  assert.equal(
    judgeDisconnection(ask({ isLeastKnown: false, devices: [c16], amps: { least: 0, greatest: 500 } })).missing,
    "loop",
  );
  assert.equal(
    judgeDisconnection(ask({ isLeastKnown: false, devices: [c16], amps: { least: 0, greatest: 100 } })).outcome,
    "too late",
  );
  assert.equal(
    judgeDisconnection(ask({ devices: [{ families: ["mcb_B", "mcb_C", "mcb_D"], rating: 16 }] })).missing,
    "curve",
  );
  assert.equal(
    judgeDisconnection(
      ask({ devices: [{ families: ["mcb_B", "mcb_C", "mcb_D"], rating: 16 }], amps: { least: 321, greatest: 400 } }),
    ).outcome,
    "in time",
  );
  assert.equal(
    judgeDisconnection(
      ask({ devices: [{ families: ["branch_breaker"], rating: 20 }], amps: { least: 900, greatest: 900 } }),
    ).missing,
    "curve",
  );
  assert.equal(judgeDisconnection(ask({ devices: [{ families: ["mcb_B"], rating: null }] })).missing, "device");
  assert.equal(
    judgeDisconnection(ask({ residual: [{ amps: null, seconds: null, isDelayed: false }] })).missing,
    "residual device",
  );
  // Soil in the loop, and nobody says how much.
  const guard = [{ amps: 0.03, seconds: null, isDelayed: false }];
  const unknown = { isLeastKnown: false, amps: { least: 0, greatest: 500 }, residual: guard };
  assert.equal(judgeDisconnection(ask(unknown)).outcome, "in time");
  assert.equal(judgeDisconnection(ask({ ...unknown, isMetallic: false })).missing, "loop");
});

test("sources: declared, not declared, a generator of unknown make", () => {
  assert.equal(declaredLoop("TN-C-S").value, 0.35);
  assert.equal(
    networkSource(230, null, { low: 0, high: 6000 }).inside.greatest,
    null,
    "a greatest current bounds nothing below",
  );
  const generator = generatorSource({
    volts: 120,
    ratedAmps: { low: 50, high: 50 },
    surgeAmps: null,
    surgeSeconds: null,
    declaredAmps: null,
  });
  assert.ok(generator.limit?.amps.high === 350 && Math.abs(generator.limit.amps.low - 55) < 1e-9);
});

const ohms = fc.double({ min: 0.001, max: 5, noNaN: true });

test("a longer loop never drives more, and never opens sooner", () => {
  fc.assert(
    fc.property(ohms, ohms, ohms, (ze, line, more) => {
      const at = (r: number) =>
        earthFaultLoop(
          {
            source: networkSource(230, { low: ze, high: ze }, null),
            line: { cold: { r, x: 0 }, hot: { r: 1.2 * r, x: 0 } },
            protective: none,
            neutral: none,
            electrodes: null,
          },
          0.95,
        );
      const [near, far] = [at(line), at(line + more)];
      assert.ok(far.amps.least <= near.amps.least && far.amps.greatest <= near.amps.greatest);
      assert.ok(near.amps.least <= near.amps.greatest);
      const judge = (least: number) =>
        judgeDisconnection(ask({ amps: { least, greatest: least }, devices: [{ families: ["mcb_B"], rating: 16 }] }));
      assert.ok((judge(far.amps.least).seconds ?? Infinity) >= (judge(near.amps.least).seconds ?? Infinity));
      const ladder = [1, 2, 3, 4].map((k) => ({ areaMm2: k, own: { r: (line + more) / k, x: 0 } }));
      const need = { volts: 230, voltsShare: 0.95, openingAmps: 80, sourceAmps: null };
      const first = areaByEarthLoop({ ...need, before: { r: ze, x: 0 } }, ladder) ?? -1;
      const later = areaByEarthLoop({ ...need, before: { r: ze + more, x: 0 } }, ladder) ?? -1;
      assert.ok(later >= first);
      assert.equal(first < 4, ze + (line + more) / 4 <= (230 * 0.95) / 80 + 1e-12);
    }),
  );
});
