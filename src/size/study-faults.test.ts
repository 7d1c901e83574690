import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { deviceResistance } from "../device/index.ts";
import type { EndFault } from "./fault-study.ts";
import { studyFaults } from "./study-faults.ts";

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, "..", "..", "examples", `${name}.yaml`), "utf8");
const sloop = compile(example("sloop"));
const study = studyFaults(sloop.settled);

const at = (conductor: string, end: "from" | "to", of = study): EndFault => {
  const found = of.circuits
    .flatMap((c) => c?.ends ?? [])
    .find((e) => e.conductor === conductor && e.end === end && e.to === "return");
  assert.ok(found, `${conductor} at ${end}`);
  return found;
};

/** IEC 60228 table 3, class 5, tinned: Ω/km at 20 °C. */
const TINNED: Readonly<Record<string, number>> = {
  "1 mm²": 20.0,
  "1.5 mm²": 13.7,
  "2.5 mm²": 8.21,
  "4 mm²": 5.09,
  "6 mm²": 3.39,
  "10 mm²": 1.95,
  "16 mm²": 1.24,
  "25 mm²": 0.795,
  "35 mm²": 0.565,
  "50 mm²": 0.393,
  "70 mm²": 0.277,
  "95 mm²": 0.21,
  "120 mm²": 0.164,
};
/** One conductor of a circuit at 20 °C, Ω. */
const cold = (circuit: string, metres: number): number => {
  const label = sloop.design.circuits.find((c) => c.id === circuit)?.size?.label ?? "";
  const perKilometre = TINNED[label];
  assert.ok(perKilometre !== undefined, `${circuit} has ${label}`);
  return (perKilometre / 1000) * metres;
};
/** At the 90 °C that its insulation bears, with a joint of 0.1 mΩ at each end. */
const hot = (circuit: string, metres: number): number => cold(circuit, metres) * (1 + 0.00393 * 70) + 2 * 0.0001;
const device = (circuit: string): { cold: number; hot: number } => {
  const found = study.devices.find((d) => d.circuit === circuit);
  assert.ok(found?.family != null && found.rating !== null, circuit);
  const own = deviceResistance(found.family, found.rating);
  // Set into the wire it has a joint on each side; in the way of a panel none.
  return { cold: own.cold ?? 0, hot: own.hot + (found.way === undefined ? 0.0002 : 0) };
};
const near = (value: number | undefined, hand: number): void => {
  assert.ok(value !== undefined && Math.abs(value / hand - 1) <= 0.02, `${String(value)} is not ${hand} within 2 %`);
};

// By hand, at best: 3 kA declared for each battery; 3.5981 V a cell when full (LFP curve, charge 1).
const FULL = 4 * 3.5981;
const inside = FULL / 3000;
const oneLead = inside + cold("W01", 0.9) + device("W01").cold + cold("W01", 0.9);
const toBar = oneLead / 2 + 0.0002 + cold("W33", 0.3);
/** DC-DC charger, charger and solar controller each push 1.2 × 30 A on the bar. */
const CHARGERS = 3 * 1.2 * 30;
const barVolts = FULL + CHARGERS * toBar;
// By hand, at worst: one battery alone at 20 % charge, 3.2413 V a cell, three times the resistance of 12.8 V ÷ 3 kA.
const LOW = 4 * 3.2413;
const aloneToBar = (3 * 12.8) / 3000 + 2 * hot("W01", 0.9) + device("W01").hot + 0.0002 + hot("W33", 0.3);

test("by hand, 1: a short between the bars", () => {
  near(at("W33+", "to").greatest?.amps.high, FULL / toBar + CHARGERS);
  near(at("W33+", "to").least[0]?.amps.low, LOW / aloneToBar);
});

test("by hand, 2: at the panel", () => {
  near(at("W04+", "to").greatest?.amps.high, barVolts / (toBar + 2 * cold("W04", 1.4) + device("W04").cold));
  near(at("W04+", "to").least[0]?.amps.low, LOW / (aloneToBar + 2 * hot("W04", 1.4) + device("W04").hot));
});

test("by hand, 3: at the fridge", () => {
  const feeder = { cold: 2 * cold("W04", 1.4) + device("W04").cold, hot: 2 * hot("W04", 1.4) + device("W04").hot };
  const branch = { cold: 2 * cold("W13", 5.2) + device("W13").cold, hot: 2 * hot("W13", 5.2) + device("W13").hot };
  near(at("W13+", "to").greatest?.amps.high, barVolts / (toBar + feeder.cold + branch.cold));
  near(at("W13+", "to").least[0]?.amps.low, LOW / (aloneToBar + feeder.hot + branch.hot));
});

test("by hand, 4: at the windlass, and just behind its fuse", () => {
  near(at("W12+", "to").greatest?.amps.high, barVolts / (toBar + 2 * cold("W12", 8.6) + device("W12").cold));
  near(at("W12+", "to").least[0]?.amps.low, LOW / (aloneToBar + 2 * hot("W12", 8.6) + device("W12").hot));
});

test("by hand, 5: at the input of the DC-DC charger, fed by the start battery and the alternator", () => {
  // Full, 12.65 V; 4.2 A warm for each of its 720 cold-cranking amperes; the alternator pushes 1.2 × 80 A on it.
  const start = 12.65 / (4.2 * 720);
  // Back along W07 itself, and beside it along W34 and the minus of the charger's output.
  const beside = cold("W34", 2.3) + cold("W05", 1.6);
  const own = cold("W07", 1.4);
  const back = (own * beside) / (own + beside);
  near(at("W07+", "to").greatest?.amps.high, (12.65 + 96 * start) / (start + device("W07").cold + own + back));
  // 5.4 V ÷ 720 A when cold, half as much again when old; 12.026 V at 20 %.
  const besideHot = hot("W34", 2.3) + hot("W05", 1.6);
  const ownHot = hot("W07", 1.4);
  const backHot = (ownHot * besideHot) / (ownHot + besideHot);
  near(at("W07+", "to").least[0]?.amps.low, 12.026 / ((1.5 * 5.4) / 720 + device("W07").hot + ownHot + backHot));
});

test("a fault at the windlass is seen by its own fuse and by that of each battery, from the battery's side", () => {
  const sees = at("W12+", "to").greatest?.course.sees ?? [];
  const said = sees.map((s) => [study.devices[s.device]?.circuit, s.from]);
  assert.deepEqual(
    said.filter(([c]) => c === "W01" || c === "W02" || c === "W12").sort(),
    [
      ["W01", "B1:+"],
      ["W02", "B2:+"],
      ["W12", "BP:pole"],
    ].sort(),
  );
});

test("more charge, more sources and shorter wires never give less: the greatest is no less than the least, anywhere", () => {
  for (const name of ["sloop", "sloop-us", "sloop-audit", "van", "hut"]) {
    const compiled = compile(example(name));
    const faults = studyFaults(compiled.settled);
    for (const end of faults.circuits.flatMap((c) => c?.ends ?? [])) {
      for (const least of end.least) {
        assert.ok(
          (end.greatest?.amps.high ?? 0) * (1 + 1e-9) >= least.amps.low,
          `${name}: ${end.conductor} at ${end.end}`,
        );
        assert.ok(least.amps.high >= least.amps.low * (1 - 1e-9));
      }
    }
    for (const t of faults.terminals.flatMap((x) => x ?? []))
      for (const s of t.states)
        assert.ok(s.greatest <= t.greatest * (1 + 1e-9) + 1e-6, `${name}: ${t.terminal} in ${s.state}`);
  }
});

test("a study is plain data, and the same when asked for again", () => {
  assert.deepEqual(JSON.parse(JSON.stringify(study)), study);
  assert.equal(studyFaults(sloop.settled), study);
});

const boat = (parts: string, circuits: string, more = ""): ReturnType<typeof studyFaults> =>
  studyFaults(
    compile(`wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah, short-circuit: 2 kA }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
${parts}
circuits:
${circuits}
${more}`).settled,
  );

test("a second battery that feeds a cable at its other end is named when nothing stands there", () => {
  const faults = boat(
    "  B2: { like: B1 }\n  L: { kind: load, running: 5 A }\n",
    "  W1: { path: B1 → BP, length: 1 m, fuse: 30 A blade, wire: 10 mm² }\n" +
      "  W2: { path: B2 → BP, length: 1 m, fuse: none, wire: 10 mm² }\n" +
      "  W3: { path: BP → L, length: 3 m, wire: 2.5 mm² }\n",
  );
  const end = at("W2+", "from", faults);
  const bySource = new Map(end.least.map((l) => [l.sources.join(), l.course.outcome]));
  assert.equal(bySource.get("B2"), "not seen");
  assert.ok(faults.open.some((o) => o.at === "W2+ at from" && o.sources.includes("B2") && o.outcome === "not seen"));
});

test("a wire of which nobody knows anything leaves the least current untold, and that of others as it is", () => {
  const faults = boat(
    "  L: { kind: load, running: 5 A }\n  M: { kind: load, running: 5 A }\n",
    "  W1: { path: B1 → BP, length: 1 m }\n" +
      "  W3: { path: BP → L, length: 3 m, wire: unknown }\n" +
      "  W4: { path: BP → M, length: 3 m }\n",
  );
  assert.equal(at("W3+", "to", faults).cannotTell, "the wire or the length of W3+ is not known");
  assert.deepEqual(at("W3+", "to", faults).least, []);
  assert.equal(at("W4+", "to", faults).cannotTell, null);
  assert.equal(at("W4+", "to", faults).least.length, 1);
});

test("where nobody knows whether a fuse stands there, a fault is not told to be unseen", () => {
  const faults = boat(
    "  L: { kind: load, running: 5 A }\n",
    "  W1: { path: B1 → BP, length: 1 m, wire: 10 mm², fuse: unknown }\n" +
      "  W3: { path: BP → L, length: 3 m, wire: 2.5 mm², fuse: none }\n",
  );
  assert.equal(at("W3+", "to", faults).least[0]?.course.outcome, "not proven");
});

test("where returns go through a structure, a wire that chafes on it is studied too", () => {
  const faults = studyFaults(
    compile(`wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: chassis } }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah, short-circuit: 2 kA }
  BP: { kind: bus bar }
  chassis: { kind: structure, joints: [front, rear] }
  L: { kind: load, running: 5 A }
circuits:
  W0: { path: B1:− → chassis:front, length: 0.5 m }
  W1: { path: B1 → BP, length: 1 m }
  W3: { path: BP → L, length: 3 m, return: chassis:rear }
`).settled,
  );
  const toBody = faults.circuits.flatMap((c) => c?.ends ?? []).filter((e) => e.to === "structure");
  assert.ok(toBody.some((e) => e.conductor === "W3+" && (e.greatest?.amps.high ?? 0) > 100));
});

test("batteries in series are one source, and their currents do not add", () => {
  const faults = studyFaults(
    compile(`wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 24 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah, short-circuit: 2 kA }
  B2: { like: B1 }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  L: { kind: load, running: 5 A }
circuits:
  W0: { path: B1:− → BN, length: 0.3 m, wire: 70 mm² }
  W1: { path: B2:− → B1:+, length: 0.3 m, wire: 70 mm² }
  W2: { path: B2:+ → BP, length: 0.3 m, wire: 70 mm² }
  W3: { path: BP → L, length: 3 m }
`).settled,
  );
  const end = at("W3+", "from", faults);
  assert.deepEqual(end.least[0]?.sources.slice().sort(), ["B1", "B2"]);
  assert.ok((end.greatest?.amps.high ?? Infinity) < 2000);
});

test("the device of a panel way has its line side at the bar, whichever way round the path of its circuit is written", () => {
  const written = (path: string, wire: string): number | undefined => {
    const faults = boat(
      "  PNL: { kind: panel, ways: 2, branch protection: breaker }\n  L: { kind: light, running: 5 A }\n",
      "  W1: { path: B1 → BP, length: 1 m, wire: 10 mm², fuse: 60 A class T at B1 }\n" +
        "  W4: { path: BP → PNL, length: 1 m, wire: 10 mm² }\n" +
        `  W10: { path: ${path}, length: 4 m, ${wire}, breaker: 10 A at PNL }\n`,
    );
    const device = faults.devices.findIndex((d) => d.circuit === "W10");
    assert.equal(faults.devices[device]?.way, "1");
    return faults.deviceFaults[device]?.prospective;
  };
  const thin = written("L → PNL:1", "wire: 1.5 mm²");
  near(thin, written("PNL:1 → L", "wire: 1.5 mm²") ?? 0);
  // At the bar: the wire behind it adds nothing.
  near(thin, written("L → PNL:1", "wire: 6 mm²") ?? 0);
});

test("a short near the source in one of two conductors in parallel is borne by that one alone, one at its far end by both", () => {
  const made = (wire: string) => {
    const faults = boat(
      "  L: { kind: load, running: 5 A }\n",
      `  W1: { path: B1 → BP, length: 1 m, ${wire}, fuse: 30 A blade at B1 }\n` +
        "  W3: { path: BP → L, length: 3 m, wire: 2.5 mm² }\n",
    );
    const found = faults.circuits.flatMap((c) => c?.conductors ?? []).find((c) => c.conductor === "W1+");
    assert.ok(found?.withstand.limit != null && found.withstand.leg !== null && found.withstand.i2t !== null);
    return { ...found.withstand, limit: found.withstand.limit, leg: found.withstand.leg, i2t: found.withstand.i2t };
  };
  const [one, two] = [made("wire: 10 mm²"), made("wire: 2 × 10 mm²")];
  assert.equal(one.leg, one.limit);
  assert.equal(two.limit, 4 * two.leg);
  assert.equal(two.leg, one.leg);
  assert.equal(two.isInLeg, true);
  // At the near end nothing of the wire is on the way yet: the same current, now through one leg of the same area.
  assert.ok(Math.abs((two.share ?? 0) / (one.share ?? 1) - 1) < 0.05, `${String(two.share)} ${String(one.share)}`);
  assert.ok(Math.abs((two.share ?? 0) * two.leg - two.i2t.high) < 1e-6 * two.i2t.high);
});

test("a device on the way from solar modules breaks at their volts in the cold, not at those of the battery", () => {
  const strip = (voc: string, more = "", climate = "") => {
    const faults = boat(
      `  PV: { kind: solar module, rated: 200 W, Voc: ${voc}, Isc: 10 A, Vmp: 38 V${more} }\n` +
        "  MPPT: { kind: solar controller, output: 20 A }\n  PB: { kind: bus bar }\n",
      "  W1: { path: B1 → BP, length: 1 m, wire: 10 mm² }\n" +
        "  W2: { path: PV → PB, length: 3 m, wire: 6 mm² }\n" +
        "  W3: { path: PB → MPPT:in, length: 3 m, wire: 6 mm², fuse: 15 A blade at PB }\n" +
        "  W4: { path: MPPT:out → BP, length: 1 m, wire: 6 mm² }\n",
      climate,
    );
    return faults.devices.find((d) => d.circuit === "W3");
  };
  // 46 V and −0.3 % for each of 45 K below 25 °C: 46 × 1.135.
  const cold = strip("46 V", ", Voc per kelvin: -0.3 %/K", "climate: { lowest: -20 °C }\n");
  near(cold?.volts, 52.21);
  assert.equal(cold?.interrupt?.state, "too many volts");
  // Nothing is said of the cold: it may be 1.25 times as many. A blade fuse is made for 32 V.
  near(strip("46 V")?.volts, 57.5);
  assert.equal(strip("46 V")?.interrupt?.state, "too many volts");
  assert.equal(strip("30 V")?.interrupt?.state, "not known");
  assert.equal(strip("22 V")?.interrupt?.state, "rated");
});

test("one that pushes back does so by its power: with more amps into fewer volts, with fewer into more", () => {
  const pushes = (system: number, nominal: number, output: string) => {
    const faults = studyFaults(
      compile(`wireworthy: 1
rules: { DC: iso-small-craft }
systems:
  IN: { kind: DC, nominal: ${String(system)} V, return: BN }
  OUT: { kind: DC, nominal: ${String(nominal)} V, return: BM }
parts:
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  BQ: { kind: bus bar }
  BM: { kind: bus bar }
  DD: { kind: DC-DC charger, nominal: ${String(nominal)} V, ${output}, efficiency: 90 %, both ways: yes, isolated: yes }
circuits:
  W1: { path: BP → DD:in, length: 1 m, system: IN, wire: 16 mm² }
  W2: { path: DD:out → BQ, length: 1 m, system: OUT, wire: 16 mm² }
`).settled,
    );
    return faults.limited.find((l) => l.kind === "input");
  };
  // 57.6 V × 20 A ÷ 0.9 ÷ 14.4 V = 88.9 A, and up to 1.2 times as many; 14.4 V × 40 A ÷ 0.9 ÷ 28.8 V = 22.2 A.
  const up = pushes(12, 48, "output: 20 A");
  near(up?.volts, 14.4);
  near(up?.amps.high, (1.2 * 57.6 * 20) / 0.9 / 14.4);
  const down = pushes(24, 12, "output: 40 A");
  near(down?.volts, 28.8);
  near(down?.amps.high, (1.2 * 14.4 * 40) / 0.9 / 28.8);
  // What its maker states goes before.
  near(pushes(24, 12, "output: 40 A, input: 25 A")?.amps.high, 1.2 * 25);
});

test("what a build is too large for is told", () => {
  const many = Array.from({ length: 7 }, (_, i) => i + 1);
  const text = `wireworthy: 1\nrules: { DC: iso-small-craft }\nsystems: { DC: { kind: DC, nominal: 12 V, return: BN } }\nparts:\n  BP: { kind: bus bar }\n  BN: { kind: bus bar }\n${many.map((i) => `  B${i}: { kind: battery, chemistry: AGM, capacity: 100 Ah }\n`).join("")}circuits:\n${many.map((i) => `  W${i}: { path: B${i} → BP, length: 1 m }\n`).join("")}`;
  assert.ok(studyFaults(compile(text).settled).notStudied.some((says) => /^of 7 batteries only the 6/.test(says)));
});
