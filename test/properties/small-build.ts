import assert from "node:assert/strict";
import { compile } from "../../src/compile.ts";
import type { Settling } from "../../src/compute.ts";
import type { PlanMemory } from "../../src/plan/index.ts";
import { chanceOf } from "../fixtures/mutate.ts";
import { settleText } from "../fixtures/settled-text.ts";

/** Builds that are small enough to try every set of sizes, pinned, judged by the whole program. */

export interface Build {
  /** @param stock more of what is bought · @param w6 more of one circuit */
  readonly text: (wire: readonly (string | null)[], stock?: string, w6?: string) => string;
  readonly circuits: number;
  readonly sizes: readonly string[];
  /** Circuits that get one size. */
  readonly twins: readonly (readonly number[])[];
}

/** A bank, a switch, a bar, a panel, and a few loads, with lengths and currents that make volts decide here and amps there. */
export function randomBuild(seed: number): Build {
  const below = chanceOf(seed);
  const chance = (): number => below(1_000_000) / 1_000_000;
  const between = (low: number, high: number, digits = 1): string => (low + (high - low) * chance()).toFixed(digits);
  const ladder = [
    "1 mm²",
    "1.5 mm²",
    "2.5 mm²",
    "4 mm²",
    "6 mm²",
    "10 mm²",
    "16 mm²",
    "25 mm²",
    "35 mm²",
    "50 mm²",
    "70 mm²",
  ];
  const start = 1 + Math.floor(chance() * 5);
  const sizes = [ladder[start], ladder[start + 2], ladder[start + 4]].map((s) => s ?? "");
  const two = chance() < 0.5;
  const feeder = chance() < 0.7;
  const electronics = chance() < 0.5;
  const lengths = Array.from({ length: 5 }, () => between(0.4, 2));
  const runs = Array.from({ length: 3 }, () => between(2, 9));
  const amps = Array.from({ length: 3 }, () => between(1, 9));
  const starting = between(9, 20);
  const short = between(1.5, 4);
  const text = (wire: readonly (string | null)[], stock = "", w6 = ""): string => {
    let i = 0;
    const own = (): string => {
      const w = wire[i++] ?? null;
      return w === null ? "" : `, wire: ${w}`;
    };
    const lines = [
      "wireworthy: 1",
      "rules: { DC: iso-small-craft }",
      "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
      `stock: { sizes: mm², sizes kept: [${sizes.join(", ")}], metal: tinned copper, strands: class 5, insulation: 90 °C${stock} }`,
      "climate: { ambient: 30 °C }",
      "parts:",
      `  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: ${short} kA }`,
      ...(two ? ["  B2: { like: B1 }"] : []),
      "  SW: { kind: switch }",
      "  BP: { kind: bus bar }",
      "  BN: { kind: bus bar }",
      "  P: { kind: panel, ways: 4, device: fuse, negative bar: yes }",
      `  a: { kind: load, running: ${amps[0] ?? ""} A, starting: ${starting} A, starts above: 10.4 V }`,
      `  b: { kind: ${electronics ? "electronics" : "load"}, running: ${amps[1] ?? ""} A, runs above: 11.6 V }`,
      `  c: { kind: navigation light, running: ${amps[2] ?? ""} A }`,
      "circuits:",
      `  W1: { path: B1 → SW, length: ${lengths[0] ?? ""} m, fuse: none${own()} }`,
      ...(two ? [`  W2: { path: B2 → SW, length: ${lengths[0] ?? ""} m, fuse: none${own()} }`] : []),
      `  W3: { path: SW → BP, length: ${lengths[1] ?? ""} m, fuse: none${own()} }`,
      ...(feeder ? [`  W4: { path: BP → P, length: ${lengths[2] ?? ""} m, fuse: none${own()} }`] : []),
      `  W5: { path: ${feeder ? "P:1" : "BP"} → a, length: ${runs[0] ?? ""} m, fuse: none${own()} }`,
      `  W6: { path: ${feeder ? "P:2" : "BP"} → b, length: ${runs[1] ?? ""} m, fuse: none${w6}${own()} }`,
      `  W7: { path: BP → c, length: ${runs[2] ?? ""} m, fuse: none${own()} }`,
    ];
    return `${lines.join("\n")}\n`;
  };
  return { text, circuits: 5 + (two ? 1 : 0) + (feeder ? 1 : 0), sizes, twins: two ? [[0, 1]] : [] };
}

interface Met {
  readonly copper: number;
  readonly met: boolean;
  readonly sizes: readonly string[];
}

/** By what the sizes were chosen by, before the rules judge them: a set of sizes fails here or, rightly chosen, never. */
export const meets = (text: string, memory?: PlanMemory): Met => judged(settleText(text, memory));

/** By the whole program. */
export const meetsAll = (text: string): Met => judged(compile(text));

const judged = ({ design, diagnostics }: Settling): Met => {
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error").map((d) => d.message),
    [],
  );
  const met = design.circuits.every((c) => !c.nothingIsEnough && c.constraints.every((k) => k.outcome !== "not met"));
  return { copper: design.copperMm2M, met, sizes: design.circuits.map((c) => c.size?.label ?? "") };
};

/** Every set of sizes, twins alike. */
export function* everySet({ circuits, sizes, twins }: Build): Generator<string[]> {
  const follows = new Map(twins.flatMap(([first, ...rest]) => rest.map((r): [number, number] => [r, first ?? 0])));
  const free = Array.from({ length: circuits }, (_, i) => i).filter((i) => !follows.has(i));
  for (let n = 0; n < sizes.length ** free.length; n++) {
    const set = new Array<string>(circuits).fill("");
    let rest = n;
    for (const i of free) {
      set[i] = sizes[rest % sizes.length] ?? "";
      rest = Math.floor(rest / sizes.length);
    }
    for (const [to, from] of follows) set[to] = set[from] ?? "";
    yield set;
  }
}
