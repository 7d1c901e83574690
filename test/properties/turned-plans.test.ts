import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../src/compile.ts";
import type { CircuitDesign } from "../../src/size/index.ts";
import { chanceOf } from "../fixtures/mutate.ts";

/*
 * A wire does not know at which end its path was written first, nor which line of the plan it stands in: turned round or moved, it has the same size,
 * the same devices at the same places and the same volts.
 */

interface Wire {
  readonly id: string;
  readonly ends: readonly [string, string];
  readonly more: string;
}

/**
 * A bank, bars, a panel, links between them, things that charge, loads; some wires pinned, some fuses given.
 *
 * @param loops whether current may divide: two batteries, a panel that is fed on two ways at once
 */
function randomBuild(seed: number, loops: boolean): { parts: string; wires: Wire[]; states: string } {
  const below = chanceOf(seed);
  const between = (low: number, high: number): string =>
    (low + ((high - low) * below(1_000_000)) / 1_000_000).toFixed(2);
  const wires: Wire[] = [];
  let number = 1;
  const wire = (a: string, b: string, metres: readonly [number, number], more = ""): void => {
    const pinned = below(8) === 0 ? `, wire: ${["2.5", "10", "35"][below(3)] ?? "6"} mm²` : "";
    wires.push({ id: `W${number++}`, ends: [a, b], more: `length: ${between(...metres)} m${pinned}${more}` });
  };
  const parts = [
    "B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 3 kA }",
    "SW: { kind: switch }",
    "BP: { kind: bus bar }",
    "BX: { kind: bus bar }",
    "BN: { kind: bus bar }",
    "PNL: { kind: panel, ways: 6, negative bar: yes }",
  ];
  wire("B1", "SW:in", [0.4, 2]);
  wire("SW:out", "BP", [0.3, 2]);
  wire("BP", "PNL:in", [0.5, 3], below(2) === 0 ? ", demand: 20 A" : "");
  wire("BP", "BX", [0.5, 3]);
  if (below(2) === 0 && loops) {
    parts.push("B2: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 2 kA }");
    wire("B2", below(2) === 0 ? "SW:in" : "BX", [0.4, 2]);
  }
  if (below(3) === 0 && loops) wire("BX", "PNL:in", [1, 4]);
  if (below(2) === 0) {
    parts.push(`CH: { kind: charger, output: ${10 + below(50)} A }`);
    wire("CH:out", ["BP", "BX", "PNL:6"][below(3)] ?? "BP", [0.5, 5]);
  }
  if (below(2) === 0) {
    parts.push(`ALT: { kind: alternator, rated: ${40 + below(60)} A }`);
    wire("ALT", ["BP", "B1"][below(2)] ?? "BP", [0.5, 4]);
  }
  if (below(2) === 0) {
    parts.push("PV: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }");
    parts.push("MP: { kind: solar controller, output: 20 A }");
    wire("PV", "MP:in", [2, 8]);
    wire("MP:out", "BX", [0.5, 3]);
  }
  if (below(2) === 0) {
    parts.push("S2: { kind: switch }");
    parts.push("pump: { kind: load, motor: DC, running: 6 A, starting: 18 A }");
    wire("BX", "S2:in", [0.5, 3]);
    wire("S2:out", "pump", [0.5, 3]);
  }
  if (below(2) === 0) {
    parts.push("INV: { kind: inverter, rated: 800 VA, efficiency: 90 %, idle: 8 W }");
    wire("BP", "INV:in", [0.5, 3]);
  }
  const loads = 2 + below(4);
  for (let i = 0; i < loads; i++) {
    const kind = ["load", "electronics", "navigation light"][below(3)] ?? "load";
    const start = below(3) === 0 ? `, starting: ${between(9, 25)} A, starts above: 10 V` : "";
    parts.push(`L${i}: { kind: ${kind}, running: ${between(0.5, 9)} A${start}, runs above: 10.5 V }`);
    const at = [`PNL:${i + 1}`, "BP", "BX", "SW:in"][below(4)] ?? "BP";
    wire(at, `L${i}`, [1, 9], below(8) === 0 ? `, fuse: 15 A at ${at.split(":")[0] ?? at}` : "");
  }
  const states = "  sailing: { on: [L0, L1], charge: 60 % }\n  motoring: { on: [L1], engine: running, sun: yes }\n";
  return { parts: parts.map((p) => `  ${p}\n`).join(""), wires, states };
}

function textOf({ parts, states }: ReturnType<typeof randomBuild>, wires: readonly Wire[]): string {
  return [
    "wireworthy: 1\nrules: { DC: iso-small-craft }\nsystems: { DC: { kind: DC, nominal: 12 V, return: BN } }\n",
    "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }\nclimate: { ambient: 30 °C }\n",
    `parts:\n${parts}circuits:\n`,
    ...wires.map(({ id, ends, more }) => `  ${id}: { path: "${ends[0]} → ${ends[1]}", ${more} }\n`),
    `states:\n${states}`,
  ].join("");
}

// Five digits: currents come to rest within a millionth, and what hangs on them moves a little more.
const digits = (x: number | null): number | null => (x === null ? null : Number(x.toPrecision(5)));

const seen = (c: CircuitDesign) => ({
  id: c.id,
  size: c.size?.label,
  steadyA: digits(c.steadyA),
  startA: digits(c.startA),
  devices: c.devices.map((d) => `${d.at} ${d.ratingA ?? "?"} A ${d.family ?? ""}`).sort(),
  dropV: digits(c.dropV),
  leastVolts: digits(c.leastVolts),
  startVolts: digits(c.startVolts),
  decidedBy: c.decidedBy,
});

const schedule = (text: string) => {
  const { design, diagnostics } = compile(text);
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error").map((d) => d.message),
    [],
    text,
  );
  return design.circuits.map(seen).sort((a, b) => (a.id < b.id ? -1 : 1));
};

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

test("turning paths round changes no size, no device and no volts", () => {
  for (const seed of SEEDS) {
    const build = randomBuild(seed, true);
    const below = chanceOf(seed + 1000);
    const turned = build.wires.map((w): Wire => (below(2) === 0 ? w : { ...w, ends: [w.ends[1], w.ends[0]] }));
    assert.deepEqual(schedule(textOf(build, turned)), schedule(textOf(build, build.wires)), textOf(build, turned));
  }
}, 120_000);

test("the order of the circuits changes no size, no device and no volts", () => {
  for (const seed of SEEDS) {
    // Where current divides, several sets of sizes may belong to their own currents; which is found first hangs on the order.
    const build = randomBuild(seed, false);
    const below = chanceOf(seed + 2000);
    const moved = [...build.wires];
    for (let i = moved.length - 1; i > 0; i--) {
      const k = below(i + 1);
      const [a, b] = [moved[i], moved[k]];
      if (a === undefined || b === undefined) continue;
      moved[i] = b;
      moved[k] = a;
    }
    assert.deepEqual(schedule(textOf(build, moved)), schedule(textOf(build, build.wires)), textOf(build, moved));
  }
}, 120_000);
