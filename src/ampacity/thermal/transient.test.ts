import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { amps, celsius, metres, ohmsPerMetre, seconds, squareMillimetres } from "../../quantity/index.ts";
import { resistanceRise } from "../../wire/index.ts";
import { adiabaticTemperature } from "./adiabatic.ts";
import { cycleTemperature, rmsAmps, SHORT_STEP } from "./duty-cycle.ts";
import type { ThermalConductor } from "./free-air.ts";
import { heatCapacity, timeConstant } from "./heat-capacity.ts";
import { ampacityLying, temperatureLying, type HeatWay } from "./lying.ts";
import { pulseAmps, temperatureAfter } from "./pulse.ts";
import type { DutyStep } from "./step-course.ts";

/** Copper: diameters in mm, Ω/km at 20 °C. */
const copper = (ohmPerKm: number, dc: number, wall: number): ThermalConductor => ({
  metal: "copper",
  at20: ohmsPerMetre(ohmPerKm / 1000),
  conductorDiameter: metres(dc / 1000),
  outsideDiameter: metres((dc + 2 * wall) / 1000),
  resistivity: 3.5,
});
const wires = {
  "16": copper(13.45, 1.5, 0.76),
  "12": copper(5.345, 2.32, 0.76),
  "6": copper(1.3246, 4.67, 1.14),
  "2/0": copper(0.2609, 10.62, 1.4),
  "4/0": copper(0.164, 13.41, 1.4),
};
const air = { ambientC: celsius(30) };
const free: HeatWay = { way: "free air" };
const trefoil: HeatWay = { way: "touching", arrangement: "three touching in trefoil" };
const limit = celsius(105);

const anyWire = fc.constantFrom(...Object.values(wires));
const anyWay = fc.constantFrom<HeatWay>(free, trefoil, { way: "bundle", count: 6 });
const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** The balance of heat C·dT/dt = I²·R(T) − q(T) step by step (Runge–Kutta, fourth order), with the true loss at every temperature. */
function integrate(wire: ThermalConductor, lies: HeatWay) {
  const capacity = heatCapacity(wire);
  const tau = timeConstant(wire, lies, air, limit);
  // Loss for each whole kelvin of rise, straight between: smooth to 1e-4.
  const loss = Array.from({ length: 231 }, (_, rise) => {
    const at = celsius(30 + rise);
    return ampacityLying(wire, lies, at, air) ** 2 * wire.at20 * resistanceRise("copper", at);
  });
  const lost = (c: number): number => {
    const rise = Math.min(229.999, Math.max(0, c - 30));
    const [low = 0, high = 0] = loss.slice(Math.floor(rise), Math.floor(rise) + 2);
    return low + (high - low) * (rise % 1);
  };
  const slope = (c: number, a: number): number =>
    (a ** 2 * wire.at20 * resistanceRise("copper", c) - lost(c)) / capacity;
  return (from: number, step: DutyStep): number => {
    const n = Math.max(20, Math.ceil((step.seconds / tau) * 100));
    const h = step.seconds / n;
    let c = from;
    for (let i = 0; i < n; i++) {
      const k1 = slope(c, step.amps);
      const k2 = slope(c + (h / 2) * k1, step.amps);
      const k3 = slope(c + (h / 2) * k2, step.amps);
      const k4 = slope(c + h * k3, step.amps);
      c += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    return c;
  };
}

describe("time constants", () => {
  test("are those of boat conductors at 105 °C in air of 30 °C", () => {
    // Published nowhere: computed by other code from the same balance, with insulation of 1.7 to 2.4 J/(cm³·K) and walls of boat cable.
    const ranges: Record<keyof typeof wires, readonly [number, number]> = {
      "16": [50, 70],
      "12": [80, 100],
      "6": [200, 250],
      "2/0": [450, 580],
      "4/0": [580, 750],
    };
    for (const [size, [least, most]] of Object.entries(ranges)) {
      const tau = timeConstant(wires[size as keyof typeof wires], free, air, limit); // the keys are those of `wires`
      assert.ok(tau > least && tau < most, `${size}: ${tau} s`);
    }
  });

  test("are two to four times longer in a bundle", () => {
    const alone = timeConstant(wires["12"], free, air, limit);
    for (const count of [6, 12, 24]) {
      const ratio = timeConstant(wires["12"], { way: "bundle", count }, air, limit) / alone;
      // Six loaded wires carry 0.56 of a lone one's current: (1/0.56)² = 3.2; more are slower still.
      assert.ok(ratio > 2 && (count > 12 || ratio < 6), `${count}: ${ratio}`);
    }
  });

  test("current makes a wire slower by a quarter to a third, for its resistance rises", () => {
    for (const wire of Object.values(wires)) {
      const full = ampacityLying(wire, free, limit, air);
      const ratio = timeConstant(wire, free, air, limit, full) / timeConstant(wire, free, air, limit);
      assert.ok(ratio > 1.25 && ratio < 1.35, String(ratio));
    }
  });
});

describe("one pulse", () => {
  test("ends where the balance of heat integrated step by step ends", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(0.3, 6), share(0.02, 5), share(0, 1), (wire, lies, load, time, warm) => {
        const tau = timeConstant(wire, lies, air, limit);
        const full = ampacityLying(wire, lies, limit, air);
        const pulse = { amps: amps(load * full), seconds: seconds(time * tau) };
        const fromC = temperatureLying(wire, lies, amps(warm * Math.min(1, load) * full), air);
        const true_ = integrate(wire, lies)(fromC, pulse);
        fc.pre(true_ <= 105 + 1e-9 && true_ > 31);
        const end = temperatureAfter(wire, lies, air, pulse, fromC);
        // The loss of each kelvin grows with about the fifth root of the rise and is read at the mean, 0.72 of the end after three time constants: too little by
        // up to 6 %, so that the end comes out no cooler (but for rounding) and at most that much hotter.
        const over = (end - true_) / (true_ - 30);
        assert.ok(over > -0.005 && over < 0.065, `${end} for ${true_}`);
      }),
      { numRuns: 25 },
    );
  });

  test("beyond the rating never comes out cooler than it is", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(1, 4), share(0.02, 5), (wire, lies, load, time) => {
        const tau = timeConstant(wire, lies, air, limit);
        const full = ampacityLying(wire, lies, limit, air);
        const pulse = { amps: amps(load * full), seconds: seconds(time * tau) };
        const true_ = integrate(wire, lies)(30, pulse);
        fc.pre(true_ < 240);
        const end = temperatureAfter(wire, lies, air, pulse);
        assert.ok(end - true_ > -0.015 * (true_ - 30), `${end} for ${true_}`); // of short ones, whose loss all but vanishes: rounding of the tabled loss
        // On the hot side the resistance that runs ahead of the loss adds up to a tenth.
        assert.ok(end - true_ < 0.12 * (true_ - 30), `${end} for ${true_}`);
      }),
      { numRuns: 25 },
    );
  });

  test("comes to rest at the steady temperature, and starts without loss", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(0.1, 1), (wire, lies, load) => {
        const current = amps(load * ampacityLying(wire, lies, limit, air));
        const settled = temperatureLying(wire, lies, current, air);
        const tau = timeConstant(wire, lies, air, limit);
        const end = temperatureAfter(wire, lies, air, { amps: current, seconds: seconds(1e5 * tau) });
        // The mean of 1e5 time constants is a hundred-thousandth below the end.
        assert.ok(Math.abs(end - settled) < 1e-4 * (settled - 30) + 1e-6, `${end} for ${settled}`);
        const blink = seconds(1e-4 * tau);
        const rise = temperatureAfter(wire, lies, air, { amps: current, seconds: blink }) - 30;
        const made = (current ** 2 * wire.at20 * resistanceRise("copper", 30) * blink) / heatCapacity(wire);
        assert.ok(Math.abs(rise / made - 1) < 1e-3, `${rise} for ${made}`);
      }),
      { numRuns: 20 },
    );
  });

  test("is hotter the longer and the stronger it is and the warmer it begins, and less than without loss", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(0.2, 3), share(0.05, 2), (wire, lies, load, time) => {
        const full = ampacityLying(wire, lies, limit, air);
        const tau = timeConstant(wire, lies, air, limit);
        const end = (a: number, t: number, from = 30) =>
          temperatureAfter(wire, lies, air, { amps: amps(a * full), seconds: seconds(t * tau) }, celsius(from));
        const here = end(load, time);
        fc.pre(here < 249);
        assert.ok(end(load * 1.05, time) > here);
        if (load < 1) assert.ok(end(load, time * 1.05) > here);
        assert.ok(end(load, time, 35) > here);
        const area = squareMillimetres(0.017241 / wire.at20);
        const i2t = (load * full) ** 2 * time * tau;
        assert.ok(here < adiabaticTemperature({ metal: "copper", area, initialC: celsius(30), i2t }));
      }),
      { numRuns: 20 },
    );
  });

  test("pulse currents are the inverse, and 1/√(1 − e^(−t/τ)) of the steady one but for the rise of resistance", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(0.02, 3), share(0, 0.9), (wire, lies, time, warm) => {
        const full = ampacityLying(wire, lies, limit, air);
        const tau = timeConstant(wire, lies, air, limit);
        const fromC = celsius(30 + warm * 75);
        const t = seconds(time * tau);
        const found = pulseAmps(wire, lies, air, t, limit, fromC);
        const back = temperatureAfter(wire, lies, air, { amps: found, seconds: t }, fromC);
        assert.ok(Math.abs(back - 105) < 1e-3, String(back));
        assert.ok(found >= full);
        if (warm > 0.01) return;
        const plain = full / Math.sqrt(1 - Math.exp(-time));
        // Cold copper has 0.77 of its resistance at 105 °C: at most √(1/0.77) = 1.14 times the plain form; the mean loss takes off or adds some per cent.
        assert.ok(found / plain > 0.93 && found / plain < 1.16, String(found / plain));
      }),
      { numRuns: 20 },
    );
    assert.equal(pulseAmps(wires["12"], free, air, seconds(10), celsius(30)), 0);
    assert.equal(temperatureAfter(wires["12"], free, air, { amps: amps(5000), seconds: seconds(100) }), 250);
  });
});

describe("a cycle", () => {
  test("peaks where the balance of heat integrated round by round peaks", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(0.5, 4), share(0.05, 2), share(0.3, 10), (wire, lies, load, on, off) => {
        const tau = timeConstant(wire, lies, air, limit);
        const full = ampacityLying(wire, lies, limit, air);
        const cycle: readonly [DutyStep, DutyStep] = [
          { amps: amps(load * full), seconds: seconds(on * tau) },
          { amps: amps(0), seconds: seconds(on * off * tau) },
        ];
        const go = integrate(wire, lies);
        let [peak, least] = [30, 30];
        // Twelve time constants, and six rounds at least, are more than it takes to come to go round.
        for (let k = 0; k < Math.max(6, 12 / (on * (1 + off))) && peak < 200; k++) {
          peak = go(least, cycle[0]);
          least = go(peak, cycle[1]);
        }
        fc.pre(peak <= 105 && peak > 31);
        const found = cycleTemperature(wire, lies, air, cycle);
        // For the same reason as in a pulse, a little less as the pauses even it out.
        const over = (found.peakC - peak) / (peak - 30);
        assert.ok(over > -0.015 && over < 0.065, `${found.peakC} for ${peak}`);
        assert.ok(Math.abs(found.leastC - least) < 0.025 * (peak - 30), `${found.leastC} for ${least}`);
      }),
      { numRuns: 25 },
    );
  });

  test("of steps below a fifth of the time constant is the root of the mean square", () => {
    fc.assert(
      fc.property(anyWire, share(0.5, 3), share(0.01, SHORT_STEP), share(0.5, 4), (wire, load, on, off) => {
        const tau = timeConstant(wire, free, air, limit);
        const current = amps(load * ampacityLying(wire, free, limit, air));
        const cycle = [
          { amps: current, seconds: seconds(on * tau) },
          { amps: amps(0), seconds: seconds(Math.min(SHORT_STEP, on * off) * tau) },
        ];
        const settled = temperatureLying(wire, free, rmsAmps(cycle), air);
        fc.pre(settled < 105);
        const { peakC, leastC } = cycleTemperature(wire, free, air, cycle);
        // Between the least and the peak, but for the loss that is read step by step: 1 % of the rise.
        assert.ok(leastC < settled + 0.01 * (settled - 30) && settled < peakC + 0.01 * (settled - 30));
        // And the peak is no more than a fifth above, which is what such a step can add at most: I²/Irms² · on.
        assert.ok(peakC - 30 < (settled - 30) * 1.25, `${peakC} for ${settled}`);
      }),
      { numRuns: 20 },
    );
  });

  test("without a pause is the steady current, of any number of steps; what runs away has no peak", () => {
    const current = amps(30);
    const settled = temperatureLying(wires["12"], free, current, air);
    for (const lengths of [[10], [10, 500], [3, 3, 3, 3]]) {
      const steps = lengths.map((s) => ({ amps: current, seconds: seconds(s) }));
      const { peakC, leastC } = cycleTemperature(wires["12"], free, air, steps);
      assert.ok(Math.abs(peakC - settled) < 1e-6 && Math.abs(leastC - settled) < 1e-6);
    }
    assert.equal(cycleTemperature(wires["12"], free, air, [{ amps: amps(4000), seconds: seconds(9) }]).peakC, 250);
  });

  test("a wire that is on for a minute for each millimetre of its diameter and off five times longer is of no count in a bundle", () => {
    // 33 CFR 183.425 note and E-11 let such a wire be left out of the count: 2.3 min for 12 AWG. At the full current of a lone wire its heat, as a mean, is a sixth.
    const full = ampacityLying(wires["12"], free, limit, air);
    const on = 60 * 2.32;
    const cycle = [
      { amps: full, seconds: seconds(on) },
      { amps: amps(0), seconds: seconds(5 * on) },
    ];
    assert.ok(Math.abs(rmsAmps(cycle) / full - Math.sqrt(1 / 6)) < 1e-12);
    const { peakC } = cycleTemperature(wires["12"], free, air, cycle);
    // It is all but settled at the end of a pull (1.1 time constants with current), and never above what it may have alone.
    assert.ok(peakC > 70 && peakC < 105, String(peakC));
  });
});
