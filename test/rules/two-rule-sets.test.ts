import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { ruleSets } from "../../src/ruleset/index.ts";
import { explainWhy } from "../../src/why/index.ts";
import { judgePlain, saidOf } from "./judge-plain.ts";

const W10 = "circuits.W10";
const own = "iso-small-craft";
const others = ruleSets.map(({ id }) => id).filter((id) => id !== own);

/** The plain boat whose lamp is wired as said; by its own set, wholly by another, or with the lamp alone under another. */
function wired(circuit: string, by: { boat?: string; lamp?: string } = {}, metres = 4) {
  const boat = by.boat === undefined ? "" : `rules: { DC: ${by.boat} }\n`;
  const rules = by.lamp === undefined ? "" : `, rules: ${by.lamp}`;
  return judgePlain(
    `${boat}parts:\n  lamp: { kind: light, running: 2 A${rules} }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: ${metres} m${circuit} }`,
  );
}

function lampCircuit(compiled: ReturnType<typeof wired>) {
  const found = compiled.design.circuits.find((c) => c.id === "W10");
  assert.ok(found !== undefined);
  return found;
}

const mechanical = (c: ReturnType<typeof lampCircuit>): number =>
  c.constraints.find((x) => x.id === "mechanical")?.alone?.areaMm2 ?? 0;
const sourceOf = (c: ReturnType<typeof lampCircuit>, id: string): string =>
  c.constraints.find((x) => x.id === id)?.source ?? "";

// What each set says alone is tested against its tables elsewhere; here the law is that of two the worse counts, and nothing in between.
describe("a circuit between two rule sets gets of each quantity the worse", () => {
  for (const other of others) {
    test(`${own} and ${other}`, () => {
      const pinned = ", wire: 6 mm², breaker: 10 A at PNL";
      const [a, b, both] = [{}, { boat: other }, { lamp: other }].map((by) => lampCircuit(wired(pinned, by)));
      assert.ok(a !== undefined && b !== undefined && both !== undefined);
      assert.equal(both.ampacityA, Math.min(a.ampacityA ?? 0, b.ampacityA ?? 0));
      assert.equal(both.devices[0]?.mostA, Math.min(a.devices[0]?.mostA ?? Infinity, b.devices[0]?.mostA ?? Infinity));
      assert.equal(both.dropLimitShare, Math.min(a.dropLimitShare ?? 1, b.dropLimitShare ?? 1));
      assert.equal(mechanical(both), Math.max(mechanical(a), mechanical(b)));
      const lesser = (a.ampacityA ?? 0) <= (b.ampacityA ?? 0) ? own : other;
      assert.ok(sourceOf(both, "ampacity").startsWith(`${lesser}: `), sourceOf(both, "ampacity"));

      const [chosenA, chosenB, chosen] = [{}, { boat: other }, { lamp: other }].map((by) => lampCircuit(wired("", by)));
      const areas = [chosenA, chosenB].map((c) => c?.size?.areaMm2 ?? 0);
      assert.ok((chosen?.size?.areaMm2 ?? 0) >= Math.max(mechanical(a), mechanical(b)), areas.join());
    });
  }
});

describe("a finding names the set that failed, and is as grave as that set makes it", () => {
  const finding = (compiled: ReturnType<typeof wired>, rule: string, about = W10) =>
    compiled.judgement.findings.find((f) => f.rule === rule && f.about === about);

  test("a wire too thin for the cabin alone", () => {
    // ISO 10133:2012 7.7: 1 mm²; IEC 60364-5-52:2009 Table 52.2: 1.5 mm².
    const thin = ", wire: 1 mm²";
    assert.equal(saidOf(wired(thin), "conductor/conductor-below-minimum-size", W10), "pass");
    const found = finding(wired(thin, { lamp: "iec-cabin" }), "conductor/conductor-below-minimum-size");
    assert.equal(found?.ruleSet, "iec-cabin");
  });

  test("a device too large by one of them", () => {
    // 1.5 mm² at 90 °C: 21 A by ISO 13297 Annex A, 17.5 A by IEC 60364-5-52 Table B.52.2.
    const device = ", wire: 1.5 mm², breaker: 20 A at PNL";
    assert.equal(saidOf(wired(device), "protection/oversized-device", W10), "pass");
    const found = finding(wired(device, { lamp: "iec-cabin" }), "protection/oversized-device");
    assert.equal(found?.ruleSet, "iec-cabin");
    assert.equal(found.limit?.value, 17.5);
    assert.equal(found.severity, "must");
  });

  test("a device too large by the boat's set, under the laxer set of the lamp", () => {
    // A wire between 16 and 14 AWG: NEC 552.10(E) stops it at 8 A.
    const device = ", wire: 1.5 mm², breaker: 10 A at PNL";
    const found = finding(wired(device, { boat: "us-rv", lamp: own }), "protection/oversized-device");
    assert.equal(found?.ruleSet, "us-rv");
    assert.equal(found.limit?.value, 8);
  });

  test("a drop that only one of them minds is as grave as it says", () => {
    const long = ", wire: 1 mm²";
    const rule = "conductor/excess-voltage-drop";
    // ISO 10133 allows 10 % to a lamp, IEC 60364-5-52 Annex G 6 %; 12 m of 1 mm² at 2 A lose 7 to 8 %.
    const alone = finding(wired(long, { boat: "iec-cabin" }, 12), rule);
    const both = finding(wired(long, { lamp: "iec-cabin" }, 12), rule);
    assert.equal(saidOf(wired(long, {}, 12), rule, W10), "pass");
    assert.equal(both?.ruleSet, "iec-cabin");
    assert.equal(both.severity, alone?.severity);
  });

  test("a device too far from a battery by the set of the battery", () => {
    const far = (rules: string) =>
      judgePlain(
        `parts:\n  SW1: { kind: switch, rated: 300 A${rules} }\ncircuits:\n  W01: { path: B1 → SW1, length: 1.5 m, sheathed: yes, wire: 50 mm², fuse: 100 A 1.2 m from B1 }`,
      );
    const about = "circuits.W01.from";
    const rule = "protection/distant-device";
    const [before, after] = [far(""), far(", rules: us-cabin")].map((c) => finding(c, rule, about));
    assert.equal(before, undefined);
    assert.equal(after?.ruleSet, "us-cabin");
  });
});

test("a set named twice over changes nothing at all", () => {
  for (const circuit of ["", ", wire: 1 mm²"]) {
    const { design, judgement } = wired(circuit, { lamp: "iso-small-craft 2020+A1:2022" });
    const plain = wired(circuit);
    const places = (text: string): string =>
      JSON.stringify(JSON.parse(text), (key, v: unknown) => (key === "at" ? 0 : v));
    assert.equal(JSON.stringify(design), JSON.stringify(plain.design));
    assert.equal(places(JSON.stringify(judgement)), places(JSON.stringify(plain.judgement)));
  }
});

test("what lies wholly in the other part follows its set alone", () => {
  const both = "parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, rules: iec-cabin }\n";
  const compiled = judgePlain(
    `${both}  lamp: { kind: light, running: 2 A, rules: iec-cabin }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm² }`,
  );
  const alone = lampCircuit(wired(", wire: 6 mm²", { boat: "iec-cabin" }));
  assert.equal(lampCircuit(compiled).ampacityA, alone.ampacityA);
  const minimum = compiled.judgement.passes.find((p) => p.about === W10 && p.rule === "conductor/excess-voltage-drop");
  assert.equal(minimum?.limit, alone.dropLimitShare);
});

test("a set that nobody knows is asked back, and what depends on it is not told", () => {
  const strange = wired("", { lamp: "the-blue-book" });
  assert.ok(strange.diagnostics.some((d) => d.id === "system/rule-set-unknown" && d.about === "parts.lamp.rules"));
  assert.equal(lampCircuit(strange).outcome, "cannot tell");
  assert.equal(lampCircuit(wired("", { lamp: "unknown" })).outcome, "cannot tell");
});

test("why shows both", () => {
  const compiled = wired(", wire: 1.5 mm², breaker: 15 A at PNL", { lamp: "iec-cabin" });
  const found = explainWhy(compiled, "W10");
  assert.ok(found.ok);
  const names = JSON.stringify(found.explanation);
  for (const id of [own, "iec-cabin"]) assert.ok(names.includes(`by ${id}`), id);
  const { figures } = found.explanation;
  assert.equal(figures.find((f) => f.name === "ampacityA")?.value, 17.5);
});
