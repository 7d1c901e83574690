import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { compile } from "../../compile.ts";
import { explainWhy, type Explanation } from "../../why/index.ts";
import { stockedSizes } from "../../wire/index.ts";
import type { Units } from "../contract.ts";
import { makePagePlan } from "../worker/page-plan.ts";
import { judgedRungs, ladderSays, layLadder, wrapWords } from "./ladder-picture.ts";
import { assumedOf, circuitBeside, circuitOf, namesIn, neighbours, sizesBeside, thingIn } from "./subject-of.ts";
import { whyText } from "./why-text.ts";

const units: Units = { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." };
const compiled = compile(readFileSync("examples/sloop.yaml", "utf8"));
const plan = makePagePlan(compiled, 1, { compileMs: 0, drawMs: 0 });
function explain(subject: string): Explanation {
  const told = explainWhy(compiled, subject);
  assert.ok(told.ok, subject);
  return told.explanation;
}
const windlass = explain("W12");
const chosen = { label: "35 mm²", areaMm2: 35 };

describe("the ladder of constraints", () => {
  test("a larger size reaches higher, and the one that decides to the chosen size", () => {
    for (const { id } of plan.design.circuits) {
      const { ladder } = explain(id);
      const size = plan.design.circuits.find((c) => c.id === id)?.size ?? null;
      const picture = layLadder(ladder, size, stockedSizes("mm²"), 700, 280);
      const rungs = judgedRungs(ladder);
      assert.equal(picture.bars.length, rungs.length);
      rungs.forEach((r, i) => {
        const bar = picture.bars[i];
        assert.ok(bar !== undefined && bar.reach > 0 && bar.reach <= picture.length, `${id} ${r.id}`);
        rungs.forEach((other, k) => {
          if (r.areaMm2 !== null && other.areaMm2 !== null && r.areaMm2 > other.areaMm2)
            assert.ok(bar.reach > (picture.bars[k]?.reach ?? 0), `${id}: ${r.id} above ${other.id}`);
        });
      });
      const decides = picture.bars.find((b) => b.decides);
      const mark = picture.marks.find((m) => m.isChosen);
      if (decides !== undefined) assert.equal(decides.reach, mark?.reach, id);
    }
  });
  test("bars stand beside each other, and under each other where there is no room", () => {
    const wide = layLadder(windlass.ladder, chosen, stockedSizes("mm²"), 700, 280);
    assert.equal(wide.lies, "bars");
    wide.bars.forEach((b, i) => {
      const next = wide.bars[i + 1];
      if (next !== undefined) assert.ok(b.across + b.width < next.across);
    });
    const narrow = layLadder(windlass.ladder, chosen, stockedSizes("mm²"), 342, 280);
    assert.equal(narrow.lies, "rows");
    assert.ok(narrow.bars.every((b) => b.reach <= 342));
  });
  test("names on the scale do not run into each other", () => {
    const { marks } = layLadder(windlass.ladder, chosen, stockedSizes("mm²"), 700, 120);
    const named = marks.filter((m) => m.isNamed);
    assert.ok(named.some((m) => m.isChosen) && named.length < marks.length);
    named.forEach((m, i) => {
      const next = named[i + 1];
      if (next !== undefined) assert.ok(next.reach - m.reach >= 15, `${m.label} ${next.label}`);
    });
  });
  test("where nothing on sale is enough, a bar goes through the ceiling", () => {
    const ladder = windlass.ladder.map((r) =>
      r.id === "drop" ? { ...r, areaMm2: null, size: null, outcome: "not met" as const } : r,
    );
    const picture = layLadder(ladder, { label: "240 mm²", areaMm2: 240 }, stockedSizes("mm²"), 700, 280);
    const drop = picture.bars.find((b) => b.id === "drop");
    assert.equal(picture.ceiling?.label, "240 mm² is the largest on sale");
    assert.ok(drop !== undefined && drop.size === null && drop.reach > (picture.ceiling?.reach ?? Infinity));
  });
  test("a reader hears the same", () => {
    assert.equal(
      ladderSays(windlass.ladder),
      "mechanical: 1 mm²; ampacity: 16 mm²; start: 25 mm²; device: 35 mm²; drop: 35 mm², decides",
    );
  });
  test("words are broken at blanks, and cut with a sign", () => {
    assert.deepEqual(wrapWords("windlass has 10.54 V, needs 9.00 V", 14, 3), [
      "windlass has",
      "10.54 V, needs",
      "9.00 V",
    ]);
    assert.deepEqual(wrapWords("a b c d", 1, 2), ["a", "b …"]);
  });
});

describe("what is asked about", () => {
  test("a circuit, whatever of it", () => {
    for (const s of ["W12", "W12.drop", "W12@at anchor"]) assert.equal(circuitOf(s, plan)?.id, "W12");
    for (const s of ["fridge", "W1", "W120", "copper"]) assert.equal(circuitOf(s, plan), null);
  });
  test("sizes beside it are of its own kind", () => {
    const onSale = sizesBeside(circuitOf("W12", plan), plan);
    const { smaller, larger } = neighbours(chosen, onSale);
    assert.deepEqual([smaller?.label, larger?.label], ["25 mm²", "50 mm²"]);
    assert.equal(neighbours({ label: "240 mm²", areaMm2: 240 }, onSale).larger, null);
  });
  test("the circuits go round", () => {
    const first = plan.design.circuits[0]?.id ?? "";
    const last = plan.design.circuits.at(-1)?.id ?? "";
    assert.equal(circuitBeside(last, plan, 1), first);
    assert.equal(circuitBeside(first, plan, -1), last);
    assert.equal(circuitBeside("copper", plan, 1), first);
  });
  test("what it leans on is found in the plan", () => {
    assert.equal(thingIn("W12, length: 8.6 m", plan.things)?.about, "circuits.W12");
    assert.equal(thingIn("a start lasts 0.5 s", plan.things), null);
    const assumed = windlass.leansOn.filter((l) => l.kind === "assumption" && l.pin !== "");
    assert.ok(assumed.length > 0 && assumed.some((l) => assumedOf(l.says, plan) !== null));
  });
  test("names that may have been meant come out of the hint, switches of the command line do not", () => {
    const told = explainWhy(compiled, "frige");
    assert.ok(!told.ok);
    assert.ok(namesIn(told.hint).includes("fridge"));
    assert.deepEqual(namesIn("`--list` shows what can be asked"), []);
  });
});

test("the copied text holds the answer, every step and every source", () => {
  const text = whyText(windlass, "Coastal sloop, revision A", units);
  assert.ok(text.startsWith("Coastal sloop, revision A\n\nWhy is W12 35 mm²?\n"));
  for (const { steps } of windlass.sections)
    for (const step of steps) assert.ok(text.includes(`- ${step.name}: `) && text.includes(step.text), step.name);
  for (const source of ["ISO 10133:2012 4.7", "IEC 60287-1-1:2006 Table 1", "(plan, line 100:"])
    assert.ok(text.includes(source), source);
  assert.ok(whyText(windlass, "", { ...units, decimal: "," }).includes("1,60 V"));
});
