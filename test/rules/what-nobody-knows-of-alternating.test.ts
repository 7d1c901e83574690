import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { oneSource, shoreAndInverter } from "../../src/rules/ac/example-plans.ts";
import { judgePlain, saidOf } from "./judge-plain.ts";

const JOIN = "ac/missing-neutral-earth-join";
const GUARD = "ac/missing-residual-device";
const CORES = "ac/missing-protective-conductor";

const outlet = { sockets: "kind: outlet, running: 3 A" };
const never = "kind: inverter, rated: 1200 VA, neutral–earth join: never";
const alone = (parts: Record<string, string>, circuits: Record<string, string>): string =>
  oneSource({
    parts: { CU: null, INV: never, ...outlet, ...parts },
    circuits: { W20: null, W23: "path: INV:out → sockets, length: 3 m", ...circuits },
  });

describe("an inverter lives by whatever makes direct current", () => {
  const ways: readonly (readonly [string, string])[] = [
    [
      "a converter from a battery of other volts",
      alone(
        {
          B24: "kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 100 Ah, short-circuit: 2 kA",
          DD: "kind: DC-DC charger, output: 60 A",
          XP: "kind: bus bar",
        },
        {
          W30: "path: B24 → DD:in, length: 1 m",
          W31: "path: DD:out → XP, length: 1 m",
          W32: "path: XP → INV, length: 1 m",
        },
      ),
    ],
    [
      "an alternator",
      alone(
        { ALT: "kind: alternator, rated: 100 A", XP: "kind: bus bar" },
        { W31: "path: ALT → XP, length: 1 m", W32: "path: XP → INV, length: 1 m" },
      ),
    ],
  ];
  for (const [says, plan] of ways)
    test(says, () => {
      const judged = judgePlain(plan);
      assert.equal(saidOf(judged, JOIN, "parts.INV"), "fail");
      assert.equal(saidOf(judged, GUARD, "parts.sockets"), "fail");
    });
  test("one that nothing feeds passes nothing", () => {
    const judged = judgePlain(alone({ XP: "kind: bus bar" }, { W32: "path: XP → INV, length: 1 m" }));
    assert.equal(saidOf(judged, JOIN, "parts.INV"), "cannot tell");
    assert.equal(saidOf(judged, GUARD, "parts.sockets"), "cannot tell");
    assert.equal(saidOf(judged, CORES, "parts.sockets"), "cannot tell");
  });
});

test("a source whose states cannot be followed is not passed over", () => {
  const parts: Record<string, string> = {};
  for (let i = 0; i < 31; i++) parts[`G${String(i)}`] = "kind: generator, rated: 2 kVA, neutral: floating";
  assert.equal(saidOf(judgePlain(shoreAndInverter({ parts })), JOIN, "parts.INV"), "cannot tell");
});

test("a device may be blind where nobody knows of a join behind it", () => {
  const plan = (join: string): string =>
    oneSource({
      parts: {
        INL: "kind: shore inlet, rated: 16 A",
        CU: "kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 2-pole }",
        P2: `kind: panel, neutral–earth join: ${join}, ways: { 1: breaker 10 A 2-pole }`,
      },
      circuits: { W21: "path: CU:1 → P2:in, length: 1 m", W23: "path: P2:1 → sockets, length: 3 m" },
    });
  assert.equal(saidOf(judgePlain(plan("never")), GUARD, "parts.sockets"), "pass");
  assert.equal(saidOf(judgePlain(plan("unknown")), GUARD, "parts.sockets"), "cannot tell");
  assert.equal(saidOf(judgePlain(plan("always")), GUARD, "parts.sockets"), "fail");
});

describe("shore power is judged inlet by inlet", () => {
  const INLET = "kind: shore inlet, rated: 16 A, polarity indicator: no";
  const branch =
    "kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A }";
  const plan = oneSource({
    parts: {
      INL: INLET,
      IN2: INLET,
      T1: "kind: isolation transformer, rated: 3600 VA, neutral–earth join: always",
      CU: branch,
      C2: branch,
      h2: "kind: load, rated: 1 kW, class: I",
    },
    circuits: {
      W20: "path: INL → T1:in, length: 1 m",
      W21: "path: T1:out → CU:in, length: 1 m",
      W30: "path: IN2 → C2:in, length: 1 m",
      W31: "path: C2:1 → h2, length: 3 m",
    },
  });
  test("a transformer on one does not make the line of the other anew", () => {
    const judged = judgePlain(plan);
    assert.equal(saidOf(judged, "ac/missing-polarity-guard", "parts.IN2"), "fail");
    assert.match(saidOf(judged, "ac/missing-polarity-guard", "parts.INL") ?? "", /transformer/);
  });
  test("nor does it excuse the other from the bond of minus and earth", () => {
    const unearthed = (text: string): string =>
      `${text}\n`.replace("systems:\n", "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: none }\n");
    assert.equal(saidOf(judgePlain(unearthed(plan)), "return/missing-dc-ac-bond", "systems.AC"), "fail");
    const one = plan.replace(/^ {2}(IN2|W30): .*\n/gm, "");
    assert.match(saidOf(judgePlain(unearthed(one)), "return/missing-dc-ac-bond", "systems.AC") ?? "", /isolation/);
  });
  test("a breaker of one pole in the line of a circuit is a branch", () => {
    const direct = (poles: number): string =>
      oneSource({
        parts: { INL: INLET, CU: null },
        circuits: { W20: null, W23: `path: INL → sockets, length: 3 m, breaker: 10 A ${String(poles)}-pole at INL` },
      });
    assert.equal(saidOf(judgePlain(direct(1)), "ac/missing-polarity-guard", "parts.INL"), "fail");
    assert.match(saidOf(judgePlain(direct(2)), "ac/missing-polarity-guard", "parts.INL") ?? "", /both poles/);
  });
});

test("a protective conductor that is laid by itself is one", () => {
  const judged = judgePlain(
    oneSource({
      parts: { INL: "kind: shore inlet, rated: 16 A", h3: "kind: load, rated: 1 kW, class: I" },
      circuits: {
        W24: "path: CU:2 → h3, length: 3 m, cores: [L, N]",
        W25: "path: CU:PE → h3, length: 3 m, cores: [PE]",
      },
    }),
  );
  assert.equal(saidOf(judged, CORES, "parts.h3"), "pass");
});

test("what is direct current feeds no inlet back", () => {
  const judged = judgePlain(
    shoreAndInverter({
      parts: { IN2: "kind: shore inlet, rated: 16 A" },
      circuits: { W26: "path: IN2 → BP, length: 1 m" },
    }),
  );
  assert.notEqual(saidOf(judged, "ac/live-inlet-pins", "parts.IN2"), "fail");
});

test("a device that one source overwhelms is told with that current, whatever the other gives", () => {
  const judged = judgePlain(
    shoreAndInverter({
      parts: {
        INL: "kind: shore inlet, rated: 16 A, prospective current: 9 kA",
        INV: "kind: inverter, rated: unknown, neutral–earth join: closed when inverting",
        CU: "kind: consumer unit, interrupt: 3 kA, main: { residual device: 30 mA, poles: 2, rated: 16 A, interrupt: 3 kA }, ways: { 1: breaker 10 A 2-pole }",
      },
    }),
  );
  const weak = judged.judgement.findings.filter(
    (f) => f.rule === "ac/weak-shore-interrupt-rating" && f.outcome === "fail",
  );
  assert.ok(weak.length > 0);
  for (const { limit, measured } of weak) {
    assert.equal(measured?.value, 3000);
    // The supply drives no more than its 9 kA, less what its own leads take; an inverter of unknown rating condemns nothing.
    assert.ok(limit !== null && limit.value > 3000 && limit.value <= 9000, String(limit?.value));
  }
});
