import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { findConflicts, type Conflict } from "./find-conflict.ts";

interface Facts {
  readonly length?: string;
  readonly amps?: string;
  readonly feeder?: string;
  readonly w3?: string;
  readonly stock?: string;
}

const plan = ({ length = "14 m", amps = "5 A", feeder = "", w3 = "", stock = "" }: Facts): string =>
  [
    "wireworthy: 1",
    "rules: { DC: iso-small-craft }",
    "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
    `stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C${stock} }`,
    "parts:",
    "  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 3 kA }",
    "  BP: { kind: bus bar }",
    "  BN: { kind: bus bar }",
    "  P: { kind: fuse block, ways: 4, negative bar: yes }",
    `  pump: { kind: load, running: ${amps} }`,
    "circuits:",
    "  W1: { path: B1 → BP, length: 0.5 m }",
    `  W2: { path: BP → P, length: 3 m${feeder} }`,
    `  W3: { path: P:1 → pump, length: ${length}, drop: 3 %${w3} }`,
    "",
  ].join("\n");

const conflictsOf = (text: string, index = 2): Conflict[] => {
  const { system, runs, settled } = compile(text);
  return findConflicts(system, runs, settled, index);
};
const isMet = (text: string): boolean =>
  compile(text).design.circuits[2]?.constraints.every((c) => c.id !== "drop" || c.outcome !== "not met") === true;
const figureIn = (conflict: Conflict | undefined, fact: string): number =>
  Number(/[\d.]+/.exec(conflict?.waysOut.find((w) => w.fact === fact)?.says ?? "")?.[0]);

test("a pinned size, a length and a limit that cannot all be are named, with what each has to give", () => {
  const text = plan({ w3: ", wire: 2.5 mm²" });
  const [conflict] = conflictsOf(text);
  assert.equal(
    conflict?.says,
    "W3: a drop of at most 3 %, 14 m one way, pump takes 5 A and pinned at 2.5 mm² cannot all be",
  );
  assert.deepEqual(
    conflict.facts.map((f) => f.fact),
    ["circuits.W3.length", "parts.pump.running", "circuits.W3.wire"],
  );
  // The figures are those at which the edited plan begins to meet it.
  const length = figureIn(conflict, "circuits.W3.length");
  assert.ok(isMet(plan({ w3: ", wire: 2.5 mm²", length: `${length} m` })));
  assert.ok(!isMet(plan({ w3: ", wire: 2.5 mm²", length: `${length + 0.08} m` })));
  const amps = figureIn(conflict, "parts.pump.running");
  assert.ok(isMet(plan({ w3: ", wire: 2.5 mm²", amps: `${amps} A` })));
  assert.ok(!isMet(plan({ w3: ", wire: 2.5 mm²", amps: `${amps + 0.03} A` })));
  assert.ok(isMet(plan({})), "its own size chosen");
});

test("of two pins the one that is to blame is named: the thin feeder, where the branch is thick", () => {
  const thin = { feeder: ", wire: 1.5 mm²", w3: ", wire: 16 mm²", length: "4 m", amps: "9 A" };
  const facts = conflictsOf(plan(thin))[0]?.facts.map((f) => f.fact) ?? [];
  assert.ok(facts.includes("circuits.W2.wire"), facts.join());
  assert.ok(!facts.includes("circuits.W3.wire"), facts.join());
  assert.ok(isMet(plan({ ...thin, feeder: "" })));
});

test("where nothing on the shelf is enough, parallel conductors are proposed, all of a size that may lie so", () => {
  const text = plan({ amps: "25 A", stock: ", sizes kept: [25 mm², 70 mm²]", length: "20 m" });
  const conflict = conflictsOf(text).find((c) => c.constraint === "drop");
  assert.ok(conflict !== undefined, text);
  assert.ok(
    conflict.facts.some((f) => f.fact === "stock.sizes kept"),
    JSON.stringify(conflict),
  );
  const way = conflict.waysOut.find((w) => w.fact === "circuits.W3.parallel");
  assert.match(way?.says ?? "", /^[234] conductors of 70 mm² in parallel, all alike and equally long$/);
  const count = way?.says[0] ?? "";
  assert.ok(
    isMet(plan({ amps: "25 A", stock: ", sizes kept: [25 mm², 70 mm²]", length: "20 m", w3: `, parallel: ${count}` })),
  );
  const one = Number(count) - 1;
  assert.ok(
    !isMet(plan({ amps: "25 A", stock: ", sizes kept: [25 mm², 70 mm²]", length: "20 m", w3: `, parallel: ${one}` })),
  );
});

test("where all is met there is no conflict", () => {
  assert.deepEqual(conflictsOf(plan({})), []);
});
