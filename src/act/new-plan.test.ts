import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";
import { act } from "./act.ts";
import { freePlaces } from "./free-places.ts";
import { emptyPlan, newPlan, proposedRules } from "./new-plan.ts";
import type { NewPlanAnswers } from "./new-plan-answers.ts";
import { readBattery } from "./read-battery.ts";

const boat: NewPlanAnswers = {
  what: "boat",
  battery: "LiFePO4 12 V 200 Ah",
  shore: "none",
  country: "DE",
  load: "fridge 45 W, start 8 A, 3 m",
};

function made(answers: NewPlanAnswers) {
  const plan = newPlan(answers);
  assert.ok(plan.ok, JSON.stringify(plan));
  const compiled = compile(plan.text);
  assert.deepEqual(
    compiled.diagnostics.filter(({ level }) => level !== "note"),
    [],
  );
  return { ...plan, compiled };
}

test("six answers give a plan without an error in which the load has a size and a device", () => {
  const answers: NewPlanAnswers[] = [
    boat,
    { ...boat, what: "van", country: "US", load: "fridge 45 W, start 8 A, 10 ft" },
    { ...boat, what: "cabin", shore: "230 V", country: "NO", battery: "2 × gel 24 V 100 Ah" },
    { ...boat, shore: "120 V", country: "CA", name: 'Sea: "otter" #2' },
  ];
  for (const each of answers) {
    const { compiled, select } = made(each);
    const circuit = compiled.design.circuits.find(({ to }) => to === "fridge");
    assert.ok(circuit?.size != null, JSON.stringify(each));
    assert.ok(circuit.devices[0]?.ratingA != null && circuit.devices[0].ratingA >= circuit.devices[0].leastA);
    assert.equal(select, `circuits.${circuit.id}`);
    const imperial = each.country === "US" || each.country === "CA";
    assert.match(circuit.size.label, imperial ? /AWG/ : /mm²/);
    // Of two units side by side nobody has said that each has a fuse of its own: that is advice, and told.
    const fails = compiled.judgement.findings.filter((f) => f.outcome === "fail");
    assert.deepEqual(
      fails.map((f) => `${f.severity} ${f.rule}`),
      each.battery?.startsWith("2 ×") === true ? ["should protection/unfused-battery-string"] : [],
    );
  }
});

test("no fresh plan begins with a must that fails, whatever is built, wherever and with whatever shore power", () => {
  for (const what of ["boat", "van", "cabin"] as const)
    for (const shore of ["none", "230 V", "120 V"] as const)
      for (const country of ["DE", "US"]) {
        const { compiled, text } = made({ ...boat, what, shore, country });
        const musts = compiled.judgement.findings.filter((f) => f.outcome === "fail" && f.severity === "must");
        assert.deepEqual(
          musts.map((f) => `${f.rule} ${f.about}`),
          [],
          `${what}, ${shore}, ${country}`,
        );
        // Where the earth of shore power goes is drawn for a boat and a cabin, and is nobody's guess for a van.
        assert.equal(/path: CU:PE → (BN|ROD)/.exec(text)?.[1], shore === "none" ? undefined : { boat: "BN", van: undefined, cabin: "ROD" }[what]); // prettier-ignore
      }
});

test("where old wiring meets earth is asked and not failed", () => {
  for (const [what, rule] of [
    ["boat", "return/missing-dc-ac-bond"],
    ["cabin", "return/missing-earth-electrode"],
  ] as const) {
    const { compiled } = made({ ...boat, what, there: "old wiring", shore: "230 V" });
    const found = compiled.judgement.findings.filter((f) => f.rule === rule);
    assert.deepEqual(
      found.map((f) => f.outcome),
      ["cannot tell"],
    );
  }
});

test("of old wiring nothing is assumed: what nobody said is unknown", () => {
  const { text, compiled } = made({ what: "boat", there: "old wiring", country: "GB", load: "windlass 85 A, 8 m" });
  assert.ok(compiled.system.circuits.every((c) => c.asFound && c.size === "unknown" && c.devices === "unknown"));
  assert.match(text, /B1: \{ kind: battery, chemistry: unknown, capacity: unknown \}/);
});

test("what is guessed or stands in for something else is told", () => {
  assert.ok(made(boat).remarks.some((r) => /are guesses/.test(r)));
  const van = made({ ...boat, what: "van", country: "FR" });
  assert.match(van.text, /DC: iec-caravan 2018/);
  assert.deepEqual(proposedRules("boat", "us"), { own: "us-small-craft E-11 to 2021", used: "us-small-craft E-11 to 2021" }); // prettier-ignore
  const kept = made({ ...boat, what: "van", country: "FR", rules: "us small craft" });
  assert.match(kept.text, /DC: us-small-craft/);
});

test("answers that cannot be read are asked back", () => {
  const back = (answers: NewPlanAnswers): string => {
    const plan = newPlan(answers);
    return plan.ok ? "" : plan.message;
  };
  assert.equal(back({ what: "boat" }), "which battery?");
  assert.equal(back({ ...boat, battery: "LiFePO4 12 V" }), "the capacity is missing");
  assert.equal(back({ ...boat, battery: "LiFePO4 12 V 1,000 Ah" }), "`1,000` can mean 1.000 or 1000");
  assert.equal(back({ ...boat, battery: "200 Ah" }), "what is it made of?");
  assert.equal(back({ ...boat, load: "fridge" }), "what it takes is missing");
  assert.match(back({ ...boat, rules: "iso boat" }), /no rule set is called/);
});

test("batteries are read as their labels say them", () => {
  const read = (text: string) => {
    const bank = readBattery(text);
    return "ok" in bank ? bank.message : [bank.chemistry, bank.nominalV, bank.capacity, bank.count];
  };
  assert.deepEqual(read("LiFePO4 12.8 V 200 Ah"), ["LFP", 12, "200 Ah", 1]);
  assert.deepEqual(read("2 x AGM battery 12 V 100Ah"), ["AGM", 12, "100 Ah", 2]);
  assert.deepEqual(read("lithium 51,2 V, 100 Ah"), ["LFP", 48, "100 Ah", 1]);
  assert.deepEqual(read("lead-acid 440 Ah 24 V"), ["flooded", 24, "440 Ah", 1]);
  assert.equal(read("zebra 12 V 100 Ah"), "`zebra` was not understood");
});

test("the empty plan has six lines, reads without a message, and takes a source and a load", () => {
  const empty = emptyPlan("My boat");
  assert.equal(empty.trimEnd().split("\n").length, 6);
  assert.deepEqual(compile(empty).diagnostics, []);
  const text = empty.replace("parts:", "parts:\n  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }");
  const compiled = compile(text);
  assert.deepEqual(
    freePlaces(compiled).places.map(({ at }) => at),
    ["parts.B1"],
  );
  const result = act(text, compiled, { do: "add-load", at: "parts.B1", text: "lamp 3 W, 2 m" });
  assert.ok(result.ok);
  assert.ok(compile(result.text).design.circuits[0]?.size != null);
});

test("a new plan as an act takes the place of the text that stands", () => {
  const old = emptyPlan("x");
  const result = act(old, compile(old), { do: "new-plan", answers: boat });
  assert.ok(result.ok && result.text.includes("New boat") && result.splices.length === 1);
});
