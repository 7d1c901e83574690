import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { compile } from "../compile.ts";
import { ruleSets } from "../ruleset/index.ts";
import { answerQuestion } from "./answer.ts";
import { readQuestion, type Question } from "./question.ts";

const read = (input: unknown): Question => {
  const result = readQuestion(input);
  assert.ok(result.ok, result.ok ? "" : JSON.stringify(result.problems));
  return result.question;
};
const problems = (input: unknown): string[] => {
  const result = readQuestion(input);
  return result.ok ? [] : result.problems.map(({ field, message }) => `${field}: ${message}`);
};

test("one way and there and back are the same question", () => {
  const oneWay = read({ load: "4.3 A", run: "5.2 m" });
  const loop = read({ load: "4.3A", loop: "10.4m" });
  assert.equal(oneWay.oneWayM, 5.2);
  assert.equal(loop.oneWayM, 5.2);
  assert.deepEqual([oneWay.runAsked, loop.runAsked], ["one way", "there and back"]);
  // 17 ft 0.72 in: the foot is 0.3048 m by definition.
  assert.ok(Math.abs(read({ load: "4.3 A", run: "17.06 ft" }).oneWayM - 17.06 * 0.3048) < 1e-12);
});

test("watts are taken at the nominal volts", () => {
  assert.equal(read({ load: "60 W", run: "5 m" }).loadA, 5);
  assert.equal(read({ load: "60 W", volts: "24 V", run: "5 m" }).loadA, 2.5);
});

test("of a range the end that makes the wire thicker counts, and is said", () => {
  const q = read({ load: "3…4 A", run: "5…6 m", drop: "2…3 %", ambient: "20…40 °C", sourceVolts: "12…13 V" });
  assert.deepEqual([q.loadA, q.oneWayM, q.dropShare, q.ambientC, q.sourceV], [4, 6, 0.02, 40, 12]);
  assert.equal(q.remarks.length, 5);
});

test("what is missing or twofold is said all at once", () => {
  assert.deepEqual(problems({}), ["load: the load is missing", "run: the length is missing"]);
  assert.deepEqual(problems({ load: "4 A", run: "5 m", loop: "10 m" }), [
    "loop: both the run one way and the length there and back are given",
  ]);
  assert.deepEqual(problems({ load: "4.3", run: "5" }), [
    "load: a current or a power needs a unit",
    "run: a length needs a unit",
  ]);
  assert.equal(problems({ load: "0 A", run: "0 m" }).length, 2);
  assert.equal(problems({ load: "unknown", run: "5 m" }).length, 1);
  assert.equal(problems({ load: "4 A", run: "5 m", startsAbove: "11 V" }).length, 1);
});

test("names and words that there are not get the nearest that there is", () => {
  const hint = (input: unknown): string => {
    const result = readQuestion(input);
    return result.ok ? "" : (result.problems[0]?.hint ?? "");
  };
  assert.equal(hint({ load: "4 A", lop: "5 m", run: "5 m" }), "did you mean `loop`?");
  assert.equal(hint({ load: "4 A", run: "5 m", metal: "alluminium" }), "did you mean `aluminium`?");
  assert.match(hint({ load: "4 A", run: "5 m", rules: "iso-smal-craft" }), /iso-small-craft/);
  assert.match(
    hint({ load: "4 A", run: "5 m", rules: "moon-base" }),
    /`us-small-craft`, `iso-small-craft`.* and `vehicle-practice`/,
  );
  assert.equal(read({ load: "4 A", run: "5 m", metal: "Tinned", strands: "5", stock: "mm2" }).metal, "tinned copper");
});

test("American rules buy American sizes unless it is said otherwise", () => {
  assert.equal(read({ load: "4 A", run: "5 m", rules: "us-small-craft" }).stock, "AWG");
  assert.equal(read({ load: "4 A", run: "5 m", rules: "us-small-craft", stock: "mm²" }).stock, "mm²");
  assert.equal(read({ load: "4 A", run: "5 m" }).stock, "mm²");
});

test("whatever is sent, there is an answer and nothing is thrown", () => {
  fc.assert(
    fc.property(fc.anything(), (input) => {
      readQuestion(input);
    }),
  );
  const field = fc.oneof(
    fc.string(),
    fc.integer(),
    fc.boolean(),
    fc.constant("4 A"),
    fc.constant("5 m"),
    fc.constant(null),
  );
  fc.assert(
    fc.property(
      fc.dictionary(fc.constantFrom("load", "run", "rules", "bundle", "sheathed", "__proto__"), field),
      (input) => {
        const result = readQuestion(input);
        if (!result.ok) assert.ok(result.problems.length > 0);
      },
    ),
  );
});

test("every rule set answers, and how it is installed counts where its tables ask", () => {
  for (const { id } of ruleSets) {
    const read = readQuestion({ load: "10 A", run: "5 m", rules: id });
    assert.ok(read.ok, id);
    assert.equal(read.question.stock, id.startsWith("us-") ? "AWG" : "mm²");
    assert.equal(answerQuestion(read.question, compile).outcome, "chosen", id);
  }
  const ampacityOf = (more: object): number => {
    const read = readQuestion({ load: "20 A", run: "2 m", rules: "iec-cabin", ...more });
    assert.ok(read.ok);
    return answerQuestion(read.question, compile).ampacity ?? 0;
  };
  // IEC 60364-5-52: a cable clipped to a surface carries more than single cores in a conduit in an insulated wall.
  assert.ok(ampacityOf({ method: "C" }) > ampacityOf({ method: "A1" }));
  const wrong = readQuestion({ load: "1 A", run: "1 m", method: "glued" });
  assert.ok(!wrong.ok && wrong.problems[0]?.field === "method");
});
