import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { readQuestion } from "../../size/question.ts";
import { questionFields, type QuestionText } from "../../size/question-text.ts";
import { readingsOf } from "./ask-back.ts";
import { blankOf, formOf, questionOf, restSays, sampleQuestions } from "./question-form.ts";
import { questionFromHash, questionFromJson, questionToHash } from "./question-link.ts";

const text = fc.string({ minLength: 1, maxLength: 20, unit: "grapheme-ascii" }).filter((t) => t.trim() !== "");
const plain = questionFields.filter((f) => !["load", "run", "loop", "engineSpace", "sheathed"].includes(f));
/** Any question that a sentence can ask: a length one way or there and back, flags that are only ever yes. */
const questions: fc.Arbitrary<QuestionText> = fc
  .tuple(
    text,
    fc.record(Object.fromEntries(plain.map((field) => [field, text])), { requiredKeys: [] }),
    fc.record({ engineSpace: fc.constant(true), sheathed: fc.constant(true) }, { requiredKeys: [] }),
    fc.oneof(fc.constant({}), fc.record({ run: text }), fc.record({ loop: text })),
  )
  .map(([load, figures, flags, length]) => ({ load, ...figures, ...flags, ...length }));

describe("a sentence", () => {
  test("asks the question that it was made of", () => {
    fc.assert(
      fc.property(questions, (question) => {
        assert.deepEqual(questionOf(formOf(question)), question);
      }),
    );
  });

  test("stays as it is when it is read again", () => {
    fc.assert(
      fc.property(questions, (question) => {
        const form = formOf(question);
        assert.deepEqual(formOf(questionOf(form)), form);
      }),
    );
  });

  test("leaves out what is empty, and asks for a number of wires that is missing", () => {
    const empty = formOf({ load: "" });
    assert.deepEqual(questionOf(empty), { load: "" });
    assert.deepEqual(questionOf({ ...empty, ambient: "  " }), { load: "" });
    const bundled = questionOf({ ...empty, load: "4 A", length: "3 m", lying: "engine space, bundled" });
    assert.deepEqual(bundled, { load: "4 A", run: "3 m", engineSpace: true, bundle: "" });
    const read = readQuestion(bundled);
    assert.deepEqual(!read.ok && read.problems.map(({ field }) => blankOf(field)), ["bundle"]);
  });

  test("buys by gauge where sizes are read by gauge, unless it says otherwise", () => {
    const form = formOf({ load: "4 A", run: "3 m" });
    assert.equal(questionOf(form, { sizes: "AWG" }).stock, "AWG");
    assert.equal(questionOf(form, { sizes: "both" }).stock, undefined);
    assert.equal(questionOf({ ...form, stock: "mm²" }, { sizes: "AWG" }).stock, "mm²");
  });

  test("has a blank for every field of a question", () => {
    const form = formOf({ load: "" });
    for (const field of questionFields) assert.ok((blankOf(field) ?? "") in form, field);
  });

  test("begins with questions that can be answered", () => {
    for (const lengths of ["m", "ft"] as const) {
      for (const question of sampleQuestions({ lengths }))
        assert.ok(readQuestion(question).ok, JSON.stringify(question));
    }
  });

  test("says what it holds beyond load, volts and length", () => {
    assert.equal(restSays(formOf({ load: "45 W", volts: "12 V", run: "3 m" })), "");
    assert.equal(
      restSays(formOf({ load: "45 W", run: "3 m", start: "8 A", engineSpace: true, bundle: "4" })),
      "lying engine space, bundled, starts with 8 A",
    );
  });
});

describe("a link", () => {
  test("holds the whole question", () => {
    fc.assert(
      fc.property(questions, (question) => {
        assert.deepEqual(questionFromHash(`#${questionToHash(question)}`), question);
        assert.deepEqual(questionFromJson(JSON.stringify(question)), question);
      }),
    );
  });

  test("is taken from nobody at their word", () => {
    assert.equal(questionFromHash(""), null);
    assert.equal(questionFromHash("#one-line"), null);
    assert.equal(questionFromHash("#wire-desk?"), null);
    assert.equal(questionFromHash("#wire-desk?__proto__=1&constructor=2&colour=red"), null);
    assert.deepEqual(questionFromHash(`#wire-desk?load=${"9".repeat(1000)}&run=3+m`), { load: "", run: "3 m" });
    assert.deepEqual(questionFromHash("#wire-desk?load=4%00+A&engineSpace=maybe"), { load: "4 A" });
    fc.assert(
      fc.property(fc.string(), fc.json(), (hash, json) => {
        for (const question of [
          questionFromHash(hash),
          questionFromHash(`#wire-desk?${hash}`),
          questionFromJson(json),
        ]) {
          if (question !== null) formOf(question);
        }
      }),
    );
  });
});

describe("a doubtful figure is asked back", () => {
  test.each([
    ["length", "1,000 m", ["1.000 m", "1000 m"]],
    ["length", "3.2", ["3.2 m", "3.2 ft"]],
    ["load", "45", ["45 A", "45 W"]],
    ["volts", "12", ["12 V"]],
    ["ambient", "50", ["50 °C", "50 °F"]],
    ["length", "3.2 m", []],
    ["length", "about", []],
    ["rules", "iso", []],
  ] as const)("%s %s", (blank, written, readings) => {
    assert.deepEqual(readingsOf(blank, written), readings);
  });

  test("with texts that can be read", () => {
    for (const reading of readingsOf("length", "1,000 m")) {
      assert.ok(readQuestion({ load: "4 A", run: reading }).ok, reading);
    }
  });
});
