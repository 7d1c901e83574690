import assert from "node:assert/strict";
import { describe, expect, test } from "vitest";
import { readLabel } from "../label/read-label.ts";
import { wireLesson } from "./wire-lesson.ts";

const steps = wireLesson();
const step = (id: string) => steps.find((s) => s.id === id) ?? assert.fail(`no step ${id}`);
const answer = (id: string): number => {
  const { question } = step(id);
  return question.kind === "number" ? question.answer : assert.fail(`${id} asks for no number`);
};
const rightOf = (id: string): string => {
  const { question } = step(id);
  const found = question.kind === "choice" ? question.choices.filter((c) => c.right) : [];
  assert.equal(found.length, 1, id);
  return found[0]?.says ?? "";
};
/** The gauge law of ASTM B258 again, in mm². */
const gauge = (n: number): number => (Math.PI / 4) * (0.127 * 92 ** ((36 - n) / 39)) ** 2;

describe("the lesson", () => {
  test("every step asks once, tells something, and says what it rests on", () => {
    assert.equal(new Set(steps.map(({ id }) => id)).size, steps.length);
    for (const { id, tells, keep, rests } of steps) {
      assert.ok(tells.length > 0 && keep !== "" && rests.length > 0, id);
      for (const text of [...tells, keep]) assert.ok(!/undefined|NaN|null/.test(text), text);
    }
  });

  test("the right one does not always stand first", () => {
    const places = steps.flatMap(({ question }) =>
      question.kind === "choice" ? [question.choices.findIndex((c) => c.right)] : [],
    );
    assert.ok(new Set(places).size >= 2 && places.filter((at) => at === 0).length <= places.length / 2, String(places));
  });

  test("every label that is drawn reads without doubt", () => {
    for (const { picture } of steps) {
      if (picture?.is !== "cuts") continue;
      for (const label of picture.labels) assert.equal(readLabel(label).verdict, "exact", label);
    }
  });
});

describe("the figures", () => {
  test("of gauges follow the law of ASTM B258", () => {
    expect(rightOf("bigger-is-thinner")).toBe("8 AWG");
    // The tables have six digits.
    expect(answer("three-numbers-double")).toBeCloseTo(gauge(7), 3);
    expect(rightOf("the-aughts")).toBe(`${Math.round((100 * gauge(2)) / gauge(-1))} %`);
  });

  test("of metric sizes follow IEC 60228 Table 3: 3.30 Ω/km for 6 mm² class 5, with copper of 17.241 Ω·mm²/km", () => {
    expect(answer("mm2-is-a-promise")).toBeCloseTo(17.241 / 3.3, 6);
  });

  test("of vehicle gauge: 12 SAE is 5833 circular mils in the marine tables", () => {
    const mm2 = 5833 * (Math.PI / 4) * 0.0254 ** 2;
    // The table prints four digits of the area.
    expect(answer("another-gauge")).toBeCloseTo(100 * (1 - mm2 / gauge(12)), 1);
  });

  test("of strands and diameters: 65/0.30 is the 4.59 mm² that auto cable of 6 mm is listed with", () => {
    const mm2 = (65 * Math.PI * 0.3 ** 2) / 4;
    expect(answer("strands-tell")).toBeCloseTo(mm2, 9);
    // The list prints 4.59.
    expect(answer("six-millimetres")).toBeCloseTo(100 * (6 / mm2 - 1), 0);
  });

  test("of cores: house cable has one wire more than its name", () => {
    expect(rightOf("second-number")).toBe("4");
    expect(rightOf("g-and-x")).toBe("H07RN-F 3G2.5");
    expect(rightOf("not-smaller")).toBe("16 mm²");
  });
});
