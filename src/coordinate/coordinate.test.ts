import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";
import { coordinate, type Coordination, type PairInSeries } from "./index.ts";

/** Two banks behind fuses of their own, a main, a panel with two loads, and a load of its own on the bar. */
const plan = `wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: AGM, capacity: 100 Ah, short-circuit: 2 kA }
  B2: { kind: battery, chemistry: AGM, capacity: 100 Ah, short-circuit: 2 kA }
  BB: { kind: bus bar }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  P: { kind: panel, negative bar: yes, ways: 4 }
  lamp: { kind: light, running: 2 A }
  pump: { kind: load, running: 4 A }
  winch: { kind: load, running: 60 A }
circuits:
  L1: { path: B1 → BB, length: 0.5 m, fuse: 150 A strip_SF51 at B1, wire: 50 mm² }
  L2: { path: B2 → BB, length: 0.5 m, fuse: 150 A strip_SF51 at B2, wire: 50 mm² }
  N1: { path: B1:− → BN, length: 0.5 m, wire: 50 mm² }
  N2: { path: B2:− → BN, length: 0.5 m, wire: 50 mm² }
  M: { path: BB → BP, length: 1 m, fuse: 200 A class T at BB, wire: 70 mm² }
  F: { path: BP → P, length: 3 m, fuse: 30 A blade at BP, wire: 10 mm² }
  W1: { path: P:1 → lamp, length: 5 m, fuse: 5 A, wire: 1.5 mm² }
  W2: { path: P:2 → pump, length: 5 m, fuse: 30 A, wire: 6 mm² }
  W3: { path: BP → winch, length: 4 m, fuse: 80 A strip_SF51 at BP, wire: 35 mm² }
`;

const { diagnostics, settled } = compile(plan);
const found: Coordination = coordinate(settled);
const at = (circuit: string): number => found.devices.findIndex((d) => d.circuit === circuit);
const pair = (upstream: string, downstream: string): PairInSeries | undefined =>
  found.pairs.find((p) => p.upstream === at(upstream) && p.downstream === at(downstream));
const fault = (conductor: string, end: "from" | "to") =>
  found.faults.find((f) => f.conductor === conductor && f.end === end);

test("the plan is read as it is meant", () => {
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error").map((d) => d.message),
    [],
  );
  for (const id of ["L1", "L2", "M", "F", "W1", "W2", "W3"]) assert.ok(at(id) >= 0, id);
});

describe("pairs in series", () => {
  test("each device stands behind those that part it from every battery, and behind each battery's own", () => {
    const upstreamOf = (id: string): string[] =>
      found.pairs.filter((p) => p.downstream === at(id)).map((p) => found.devices[p.upstream]?.circuit ?? "");
    assert.deepEqual(upstreamOf("W1").sort(), ["F", "L1", "L2", "M"]);
    assert.deepEqual(upstreamOf("F").sort(), ["L1", "L2", "M"]);
    assert.deepEqual(upstreamOf("M").sort(), ["L1", "L2"]);
    // Two branches of one panel, and the two batteries' own fuses, are not in series.
    assert.equal(pair("W1", "W2"), undefined);
    assert.equal(pair("L1", "L2"), undefined);
  });

  test("what stands next is told apart from what stands farther", () => {
    assert.equal(pair("F", "W1")?.isNext, true);
    assert.equal(pair("M", "W1")?.isNext, false);
    assert.equal(pair("L1", "M")?.isNext, true);
    assert.equal(pair("L2", "M")?.isNext, true);
  });

  test("a pair is judged to the greatest fault behind the downstream device", () => {
    const study = found.faults.filter((f) => f.whole[0] === at("W1")).map((f) => `${f.conductor} ${f.end}`);
    assert.deepEqual(study, ["W1+ from", "W1+ to"]);
    assert.equal(pair("F", "W1")?.at, "W1+ at from");
    // Half of it comes from each battery.
    const share = pair("L1", "F")?.upstreamShare ?? 0;
    assert.ok(Math.abs(share - 0.5) < 1e-6, `${share}`);
  });

  test("two of one rating and kind are never selective", () => {
    assert.equal(pair("F", "W2")?.judgement.verdict, "not selective");
    assert.deepEqual(pair("F", "W2")?.lostToo, ["lamp"]);
  });
});

describe("what goes dark", () => {
  test("the nearest takes its own loads; what nothing proves to stay closed takes the rest", () => {
    const on = fault("W2+", "to");
    assert.deepEqual(on?.whole.slice(0, 3), [at("W2"), at("F"), at("M")]);
    assert.deepEqual(on?.dark, ["pump"]);
    assert.ok(on?.mayOpen.includes(at("F")));
    assert.ok(on?.mayBeDark.includes("lamp"));
  });

  test("a fault between the batteries and the main is parted by no single device", () => {
    const on = fault("L1+", "to");
    assert.deepEqual(on?.whole, []);
    assert.deepEqual([...(on?.mayOpen ?? [])].sort(), [at("L1"), at("L2")]);
    assert.deepEqual(on?.dark, ["lamp", "pump", "winch"]);
  });
});

test("a feeder is told what it carries beside what its branches sum to", () => {
  const feeder = found.feeders.find((f) => f.device === at("F"));
  assert.deepEqual(feeder?.branches, [at("W1"), at("W2")]);
  assert.equal(feeder?.branchRatings, 35);
  assert.ok(Math.abs((feeder?.demand ?? 0) - 6) < 1e-6);
});

test("an answer survives being written down", () => {
  assert.deepEqual(JSON.parse(JSON.stringify(found)), found);
});
