import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { bankSharing } from "../../size/bank-sharing.ts";
import { shapeBox, type Box } from "../shape-box.ts";
import type { Shape, TextShape } from "../scene.ts";
import { bankPicture, drawBankSharing, type BankPicture } from "./index.ts";

const uneven: BankPicture = {
  units: [0.4, 0.3, 0.2, 0.1].map((share, i) => ({
    name: `B${i + 1}`,
    about: `parts.B${i + 1}`,
    leads: [`L${i}, 35 mm², 0.3 m`],
    load: { amps: 100 * share, share },
    fault: { amps: 8000 * share, share: share / 2 + 0.125 },
  })),
  load: "at anchor, 100 A",
  fault: "a short at SW1, 8 kA",
};

const unitsOf = (picture: BankPicture) => drawBankSharing(picture).items.filter(({ role }) => role === "symbol");
/** The bars alone: hatching is of lines. */
const bars = (shapes: readonly Shape[]): Box[] => shapes.filter(({ is }) => is === "rectangle").map(shapeBox);
const widthOf = ([[x1], [x2]]: Box): number => x2 - x1;

test("bars are as long as the shares, and the mark stands where an even share ends", () => {
  const units = unitsOf(uneven);
  const perShare = units.map(({ shapes }, i) => {
    const [load, fault] = bars(shapes);
    assert.ok(load && fault);
    const { load: given, fault: short } = uneven.units[i] ?? { load: null, fault: null };
    const scale = widthOf(load) / (given?.share ?? 0);
    assert.ok(Math.abs(widthOf(fault) / (short?.share ?? 0) - scale) < 1e-6, "one scale for load and fault");
    const marks = shapes.filter((s) => s.is === "polyline" && s.stroke?.ink === "focus").map(shapeBox);
    assert.equal(marks.length, 1);
    assert.ok(Math.abs((marks[0]?.[0][0] ?? 0) - load[0][0] - 0.25 * scale) < 1e-6);
    return scale;
  });
  assert.ok(Math.max(...perShare) - Math.min(...perShare) < 1e-6);
});

test("a unit that another charges reaches to the left of nothing", () => {
  const [first, second] = uneven.units;
  assert.ok(first && second);
  const [, charged] = unitsOf({
    ...uneven,
    units: [first, { ...second, load: { amps: -5, share: -0.05 } }],
  });
  const zero = charged?.shapes.filter((s) => s.is === "polyline" && s.stroke?.ink === "frame").map(shapeBox)[0];
  const [load] = bars(charged?.shapes ?? []);
  assert.ok(zero && load && load[1][0] <= zero[1][0] && load[0][0] < zero[0][0] - 1);
});

test("no word lies on another or on a bar, and all is on the paper", () => {
  for (const picture of [uneven, pictureOf("sloop"), pictureOf("sloop-audit"), pictureOf("van"), hostile()]) {
    const { items, width, height } = drawBankSharing(picture);
    const shapes = items.flatMap((item) => item.shapes);
    const texts = shapes.filter((s): s is TextShape => s.is === "text").map(shapeBox);
    const solid = [...texts, ...bars(shapes)];
    for (const [[x1, y1], [x2, y2]] of shapes.map(shapeBox))
      assert.ok(x1 >= 0 && y1 >= 0 && x2 <= width && y2 <= height);
    for (const [i, a] of texts.entries())
      for (const [j, b] of solid.entries()) if (i !== j) assert.ok(apart(a, b), JSON.stringify([a, b]));
  }
});

const apart = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box): boolean =>
  ax2 <= bx1 || bx2 <= ax1 || ay2 <= by1 || by2 <= ay1;

function pictureOf(name: string): BankPicture {
  const compiled = compile(readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8"));
  const [bank] = bankSharing(compiled.settled);
  assert.ok(bank, name);
  return bankPicture(compiled, bank, null);
}

function hostile(): BankPicture {
  const long = "<script>".repeat(40);
  return {
    ...uneven,
    load: long,
    fault: long,
    units: uneven.units.map((u) => ({ ...u, name: long, leads: Array.from({ length: 9 }, () => long) })),
  };
}

test("the sloop's bank: two equal batteries at an even share, each with its wires", () => {
  const { units, load, fault } = pictureOf("sloop");
  assert.equal(load?.startsWith("at anchor, "), true);
  // Each battery 14.39 V behind 14.39 V ÷ 3 kA = 4.797 mΩ and 1.8 m of 35 mm² at 0.565 mΩ/m: 14.39 ÷ 5.814 mΩ = 2.475 kA; both 4.95 kA, and nothing else reaches it.
  assert.match(fault ?? "", /^a short at SW1:in, 4\.9[4-6] kA$/);
  assert.deepEqual(
    units.map((u) => u.leads.map((lead) => lead.replace(/,.*/, ""))),
    [["W01"], ["W02"]],
  );
  for (const { load: given } of units) assert.ok(Math.abs((given?.share ?? 0) - 0.5) < 1e-6);
});
