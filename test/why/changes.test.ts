import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../../src/compile.ts";
import { explainWhy, type Change } from "../../src/why/index.ts";

/** What would change an answer is held against the plan itself: edited to the value named and compiled again, it gets the other size. */

const text = readFileSync(join(import.meta.dirname, "../../examples/sloop.yaml"), "utf8");

/** The line of the plan that a fact stands in, and the fact in it. */
function placeIn({ fact }: Change): { at: number; now: RegExp; present: number | null } {
  const [, name = "", key = ""] = fact.split(".");
  const at = lines.findIndex((line) => line.startsWith(`  ${name}: { path:`) || line.startsWith(`  ${name}: { kind:`));
  const now = new RegExp(`\\b${key}: ([\\d.]+) [^,} ]+`);
  const found = now.exec(lines[at] ?? "");
  if (found === null) assert.equal(key, "ambient", fact);
  return { at, now, present: found === null ? null : Number(found[1]) };
}

const lines = text.split("\n");

/** The plan with one fact at another value, as a person would edit it. */
function edited(change: Change, value: number): string {
  const { at, now, present } = placeIn(change);
  const line = lines[at] ?? "";
  const [key = ""] = change.fact.split(".").slice(-1);
  const mended =
    present === null
      ? line.replace(/ \}(?=\s*(?:#|$))/, `, ambient: ${value} °C }`)
      : line.replace(now, `${key}: ${value} ${change.unit}`);
  return lines.map((l, i) => (i === at ? mended : l)).join("\n");
}

const sizeIn = (plan: string, circuit: string): string => {
  const { design, diagnostics } = compile(plan);
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error"),
    [],
  );
  const found = design.circuits.find((c) => c.id === circuit);
  return found?.nothingIsEnough === true ? "no size on sale is enough" : (found?.size?.label ?? "");
};

test.each(["W12", "W13", "W04", "W19"])(
  "what would change %s does so in the edited plan, and not a step before",
  (circuit) => {
    const found = explainWhy(compile(text), circuit, { changes: true });
    assert.ok(found.ok);
    const { changes, figures } = found.explanation;
    const now = figures.find((f) => f.name === "size")?.value;
    assert.ok(changes.length >= 3, JSON.stringify(changes));
    for (const change of changes) {
      assert.equal(sizeIn(edited(change, change.value), circuit), change.then, `${circuit}: ${change.when}`);
      assert.equal(
        sizeIn(edited(change, change.until), circuit),
        now,
        `${circuit}: until ${change.until} ${change.unit}`,
      );
      // One step of the scale lies between the two ends, a fortieth of what the plan has now at most (30 °C of air where it says nothing).
      assert.ok(
        Math.abs(change.value - change.until) <= 0.0251 * (placeIn(change).present ?? 30),
        JSON.stringify(change),
      );
    }
  },
);

test("a pinned size is not asked what would change it: the plan would", () => {
  const pinned = text.replace(
    "W12: { path: BP → windlass, length: 8.6 m,",
    "W12: { path: BP → windlass, length: 8.6 m, wire: 25 mm²,",
  );
  const found = explainWhy(compile(pinned), "W12", { changes: true });
  assert.ok(found.ok);
  assert.deepEqual(found.explanation.changes, []);
  assert.match(found.explanation.answer, /25 mm² because the plan says so \(plan, line \d+\); it does not meet drop/);
});

test("nothing is looked for unless it is asked", () => {
  const found = explainWhy(compile(text), "W12");
  assert.ok(found.ok);
  assert.deepEqual(found.explanation.changes, []);
});
