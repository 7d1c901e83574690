import assert from "node:assert/strict";
import { describe, test } from "vitest";
import type { LessonQuestion } from "../../../wire/lesson/lesson-step.ts";
import { judgeAnswer } from "./judge-answer.ts";

const number: LessonQuestion = {
  kind: "number",
  asks: "How many?",
  answer: 10.5,
  unit: "mm²",
  within: 0.05,
  because: "Twice.",
};
const choice: LessonQuestion = {
  kind: "choice",
  asks: "Which?",
  choices: [
    { says: "a", right: false, because: "No." },
    { says: "b", right: true, because: "Yes." },
  ],
};

describe("a number", () => {
  test.each([
    ["10.5", "known", "10.5 mm² is it. Twice."],
    ["10,5 mm²", "known", "10,5 mm² is it. Twice."],
    ["10", "known", "10 mm² is 5 % below, near enough. Twice."],
    ["21", "not yet", "21 mm² is 100 % above. Twice."],
    ["0", "not yet", "0 mm² is 100 % below. Twice."],
  ])("%s", (given, outcome, says) => {
    assert.deepEqual(judgeAnswer(number, given), { outcome, says });
  });
  test.each(["", "ten", "1e9", "-3", "NaN", "<b>1</b>", "9".repeat(400)])("%s is no number", (given) => {
    assert.equal(judgeAnswer(number, given).outcome, "unread");
  });
});

test("a choice", () => {
  assert.deepEqual(judgeAnswer(choice, 1), { outcome: "known", says: "Yes." });
  assert.deepEqual(judgeAnswer(choice, 0), { outcome: "not yet", says: "No." });
  assert.equal(judgeAnswer(choice, "").outcome, "unread");
  assert.equal(judgeAnswer(choice, 7).outcome, "unread");
});
