import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain } from "../../../test/rules/judge-plain.ts";
import { viewBuild } from "../build.ts";
import { bankFlowsOf } from "./bank-flows.ts";

const RULE = "battery/uneven-sharing";

/** Four units in a row; links of so many milliohms in both rows, taken from the first unit's plus and a unit's minus. */
function row(linkMilliohms: number, minusAt: string): ReturnType<typeof judgePlain> {
  const unit = "{ kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, resistance: 100 mΩ }";
  const link = `{ kind: shunt, rated: 100 A, resistance: ${linkMilliohms} mΩ }`;
  const names = [1, 2, 3];
  const wire = "legs: [0.02 m, 0.02 m], wire: 120 mm², fuse: none";
  return judgePlain(`parts:
${[1, 2, 3, 4].map((n) => `  B${n}: ${unit}`).join("\n")}
${names.map((n) => `  P${n}: ${link}\n  N${n}: ${link}`).join("\n")}
  lamp: { kind: light, running: 4 A }
circuits:
  W01: { path: B1 → SW1, length: 0.8 m }
  W03: { path: B${minusAt}:− → BN, length: 0.6 m }
${names.map((n) => `  W${50 + n}: { path: B${n}:+ → P${n} → B${n + 1}:+, ${wire} }\n  W${60 + n}: { path: B${n}:− → N${n} → B${n + 1}:−, ${wire} }`).join("\n")}`);
}

function sharesOf(compiled: ReturnType<typeof judgePlain>): number[] {
  const flow = bankFlowsOf(viewBuild(compiled)).steady.find(
    (f) => f.state === "lamp alone" || f.state === "fridge alone",
  );
  const amps = [...(flow?.amps ?? [])];
  const total = amps.reduce((a, b) => a + b, 0);
  return amps.map((a) => (100 * a) / total);
}

/** 1 % of the whole: the published figures are rounded to one, and the wires at the links add 0.4 mΩ to 100 or 10 mΩ. */
const near = (shares: readonly number[], published: readonly number[]): void => {
  assert.equal(shares.length, published.length);
  shares.forEach((s, i) => {
    assert.ok(
      Math.abs(s - (published[i] ?? 0)) < 1,
      `${shares.map((x) => x.toFixed(1)).join("/")} against ${published.join("/")}`,
    );
  });
};

// Kirchhoff's laws, worked by hand for four units of 1 mΩ at 100 A
test("both poles from the same end, links as great as the units: 73/20/5/2 %", () => {
  const compiled = row(100, "1");
  near(sharesOf(compiled), [73, 20, 5, 2]);
  const finding = compiled.judgement.findings.find((f) => f.rule === RULE);
  assert.equal(finding?.severity, "should");
  assert.ok(Math.abs((finding.limit?.value ?? 0) - 1.1 / 4) < 1e-9);
});

test("opposite corners, links as great as the units: 37.5/12.5/12.5/37.5 % is no better than that", () => {
  const compiled = row(100, "4");
  near(sharesOf(compiled), [37.5, 12.5, 12.5, 37.5]);
  assert.equal(compiled.judgement.findings.find((f) => f.rule === RULE)?.severity, "should");
});

test("opposite corners, links of a tenth: 27/23/23/27 % is a note", () => {
  const compiled = row(10, "4");
  near(sharesOf(compiled), [27, 23, 23, 27]);
  assert.equal(compiled.judgement.findings.find((f) => f.rule === RULE)?.severity, "note");
});

test("what the core's network gives in a state is what the whole network gave", () => {
  const compiled = row(100, "1");
  const flow = bankFlowsOf(viewBuild(compiled)).steady.find((f) => f.state === "at anchor");
  const sources = compiled.design.states[0]?.sources ?? [];
  assert.equal(sources.length, 4);
  // 1e-4 A: loads are sums at the volts of the last round
  sources.forEach((s, i) => {
    assert.ok(Math.abs(s.amps - (flow?.amps[i] ?? 0)) < 1e-4, `${s.part}: ${s.amps} A`);
  });
});

test("a lead whose length is a range cannot be told where its ends differ", () => {
  const unit = "{ kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, resistance: 2 mΩ }";
  const judged = (length: string) =>
    judgePlain(`parts:
  B1: ${unit}
  B2: ${unit}
  lamp: { kind: light, running: 100 A }
circuits:
  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², fuse: none }
  W03: { path: B1:− → BN, length: 0.8 m, wire: 50 mm² }
  W20: { path: B2 → SW1, length: ${length}, wire: 50 mm², fuse: none, as found: yes }
  W21: { path: B2:− → BN, length: 0.8 m, wire: 50 mm² }`).judgement.findings.find((f) => f.rule === RULE);
  assert.equal(judged("0.8…0.9 m"), undefined);
  const open = judged("0.8…3 m");
  assert.equal(open?.outcome, "cannot tell");
  assert.deepEqual(open.needs, [{ fact: "the length of W20, closer", about: "circuits.W20" }]);
  assert.equal(judged("5…6 m")?.outcome, "fail");
});
