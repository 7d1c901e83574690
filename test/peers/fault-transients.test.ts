/**
 * Faults beside a general-purpose circuit simulator (ngspice, Debian's package): the current as it rises through resistance and inductance, in networks of
 * batteries with real leads. The simulator integrates over time; the study gives the steady current and the time constant.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { prepareFaults, solveFault, timeConstant, type FaultMetal } from "../../src/fault/index.ts";

interface Wire {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
  readonly metres: number;
}

interface Battery {
  readonly plus: number;
  readonly minus: number;
  readonly volts: number;
  readonly ohms: number;
}

/** Half of 1 µH for each metre of pair stands in each conductor: the high end of the study's range. */
const MICROHENRY_PER_METRE = 0.5;

/** The current of a short from node `at` to node `back`, by the simulator, after each of the given times, A. */
function simulate(
  wires: readonly Wire[],
  batteries: readonly Battery[],
  at: number,
  back: number,
  times: readonly number[],
): number[] {
  const node = (n: number): string => (n === back ? "0" : `n${n}`);
  const end = Math.max(...times);
  const deck = [
    "a fault",
    ...wires.flatMap(({ a, b, ohms, metres }, k) => [
      `R${k} ${node(a)} m${k} ${ohms}`,
      `L${k} m${k} ${node(b)} ${metres * MICROHENRY_PER_METRE}u`,
    ]),
    ...batteries.flatMap(({ plus, minus, volts, ohms }, k) => [
      `V${k} s${k} ${node(minus)} ${volts}`,
      `RB${k} s${k} ${node(plus)} ${ohms}`,
    ]),
    // The short closes when the run begins: before it, the switch is as good as open.
    `S1 ${node(at)} short ctrl 0 short_model`,
    "VF short 0 0",
    "VC ctrl 0 PULSE(0 1 0 1n 1n 1 2)",
    ".model short_model sw vt=0.5 vh=0 ron=1u roff=1meg",
    `.tran ${end / 2000} ${end} 0 ${end / 2000}`,
    ...times.map((t, k) => `.meas tran i${k} find i(VF) at=${t}`),
    ".end",
    "",
  ].join("\n");
  const folder = mkdtempSync(join(tmpdir(), "fault-"));
  try {
    writeFileSync(join(folder, "deck.cir"), deck);
    const { error, stdout } = spawnSync("ngspice", ["-b", "deck.cir"], { cwd: folder, encoding: "utf8" });
    assert.equal(error, undefined, "ngspice runs");
    return times.map((_, k) => {
      const found = new RegExp(`^i${k}\\s*=\\s*(\\S+)`, "m").exec(stdout);
      assert.ok(found, stdout);
      return Number(found[1]);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function study(nodeCount: number, wires: readonly Wire[], batteries: readonly Battery[], at: number, back: number) {
  const metal: FaultMetal = {
    nodeCount,
    edges: wires,
    at: Array.from({ length: nodeCount }, (_, n) => wires.flatMap(({ a, b }, e) => (a === n || b === n ? [e] : []))),
  };
  const laid = prepareFaults(metal, { stores: batteries, limited: [] }).lay({
    ohms: Float64Array.from(wires, (w) => w.ohms),
    storeVolts: Float64Array.from(batteries, (b) => b.volts),
    storeOhms: Float64Array.from(batteries, (b) => b.ohms),
    limitedVolts: new Float64Array(0),
    limitedAmps: new Float64Array(0),
  });
  const fault = solveFault(laid, { plus: { node: at }, minus: { node: back } });
  return {
    amps: fault.amps,
    tau: timeConstant(
      fault,
      Float64Array.from(wires, (w) => w.metres),
    ).high,
  };
}

/** One battery, a feeder and a branch, out and back: 0 plus, 1 minus, 2 and 3 panel, 4 and 5 load. */
const radial: readonly Wire[] = [
  { a: 0, b: 2, ohms: 0.002, metres: 3 },
  { a: 3, b: 1, ohms: 0.002, metres: 3 },
  { a: 2, b: 4, ohms: 0.04, metres: 6 },
  { a: 5, b: 3, ohms: 0.04, metres: 6 },
];
const one: readonly Battery[] = [{ plus: 0, minus: 1, volts: 12.8, ohms: 0.004 }];

// The simulator's own steps are held to a thousandth of a per cent; its switch takes a nanosecond and 1 µΩ.
const NEAR = 2e-3;

test("in one loop the simulator's current is I (1 − exp(−t R ÷ L)), at half, one and three time constants", () => {
  for (const [at, back] of [
    [2, 3],
    [4, 5],
  ] as const) {
    const { amps, tau } = study(6, radial, one, at, back);
    const times = [0.5, 1, 3, 12].map((k) => k * tau);
    simulate(radial, one, at, back, times).forEach((i, k) => {
      const expected = amps * (1 - Math.exp(-(times[k] ?? 0) / tau));
      assert.ok(Math.abs(i / expected - 1) < NEAR, `${i} A at ${String(times[k])} s, not ${expected}`);
    });
  }
});

test("two batteries with unlike leads: the steady current agrees, and the time constant comes close", () => {
  // 0 and 1 plus of the batteries, 2 bar, 3 minus of all at a bar; leads of 1 and 3 m.
  const wires: readonly Wire[] = [
    { a: 0, b: 2, ohms: 0.001, metres: 1 },
    { a: 1, b: 2, ohms: 0.003, metres: 3 },
    { a: 2, b: 3, ohms: 0.03, metres: 8 },
    { a: 5, b: 4, ohms: 0.03, metres: 8 },
  ];
  const batteries: readonly Battery[] = [
    { plus: 0, minus: 4, volts: 13, ohms: 0.004 },
    { plus: 1, minus: 4, volts: 13, ohms: 0.006 },
  ];
  const { amps, tau } = study(6, wires, batteries, 3, 5);
  const [atTau = 0, late = 0] = simulate(wires, batteries, 3, 5, [tau, 15 * tau]);
  assert.ok(Math.abs(late / amps - 1) < NEAR, `${late} is not ${amps}`);
  // Leads whose L ÷ R differ make more than one exponential of it; the long wire beyond the bar decides.
  assert.ok(Math.abs(atTau / amps - (1 - Math.exp(-1))) < 0.02, `${atTau / amps}`);
});
