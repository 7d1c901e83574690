import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../../compile.ts";
import type { Scene } from "../scene.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import { fontSize } from "../text-width.ts";
import { drawStrip } from "./index.ts";

const textOf = (name: string): string =>
  readFileSync(join(import.meta.dirname, "../../../examples", `${name}.yaml`), "utf8");
const wordsOf = ({ items }: Scene): string[] => items.flatMap(({ role, shapes }) => (role === "symbol" ? [] : shapes.flatMap((s) => (s.is === "text" ? [s.text] : [])))); // prettier-ignore

describe.each(["sloop", "sloop-us", "sloop-audit", "van", "hut"])("the strips of %s", (name) => {
  const compiled = compile(textOf(name));
  const build = { ...compiled, findings: compiled.judgement.findings };
  const states = [null, ...build.design.states.map(({ id }) => id)];

  test("every circuit has one, in which nothing leaves it, no letter is small, and no word meets another", () => {
    for (const { id } of build.system.circuits) {
      const state = states[id.length % states.length] ?? null;
      const scene = drawStrip(build, id, { variant: name === "sloop-us" ? "na" : "iec", state });
      // 350 px at 5 px each mm: what a phone has.
      assert.ok(scene.width * 5 <= 358);
      const texts = scene.items.filter(({ role }) => role !== "symbol" && role !== "mark").flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" ? [s] : []))); // prettier-ignore
      for (const text of texts) assert.ok(fontSize(text.capMm) * 5 >= 12, text.text);
      for (const { shapes } of scene.items) {
        const [[x1, y1], [x2, y2]] = boxAround(shapes.flatMap(shapeBox));
        assert.ok(x1 >= 0 && y1 >= 0 && x2 <= scene.width && y2 <= scene.height, `${id}: ${x1} ${y1} ${x2} ${y2}`);
      }
      const boxes = texts.map((text) => ({ text: text.text, box: shapeBox(text) }));
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const [[[ax1, ay1], [ax2, ay2]], [[bx1, by1], [bx2, by2]]] = [a.box, b.box];
          assert.ok(!(ax1 < bx2 && ax2 > bx1 && ay1 < by2 && ay2 > by1), `${id}: "${a.text}" meets "${b.text}"`);
        }
      });
    }
  });
});

test("a cable has as many cores when something stands in its earth", () => {
  const compiled = compile(textOf("sloop"));
  const build = { ...compiled, findings: compiled.judgement.findings };
  const words = wordsOf(drawStrip(build, "W25", { variant: "iec", state: null }));
  assert.ok(
    words.some((text) => text.startsWith("3 × 2.5 mm²")),
    words.join("; "),
  );
});

describe("the strip of the fridge", () => {
  const compiled = compile(textOf("sloop"));
  const build = { ...compiled, findings: compiled.judgement.findings };

  test("tells what feeds it, what guards it, its wire and its load, from top to bottom", () => {
    const words = wordsOf(drawStrip(build, "W13", { variant: "iec", state: "at anchor" }));
    for (const text of ["DC panel", "Q13 breaker", "W13", "5.2 m, one way", "fridge", "4.3 A, start 8 A"]) assert.ok(words.includes(text), `${text}: ${words.join("; ")}`); // prettier-ignore
  });

  test("volts at the bar less what is lost are the volts at the load", () => {
    for (const [circuit, state] of [
      ["W13", "at anchor"],
      ["W12", "hauling the anchor"],
      ["W21", "on passage"],
    ] as const) {
      // prettier-ignore
      const words = wordsOf(drawStrip(build, circuit, { variant: "iec", state }));
      const figures = words.filter((text) => /^−?[\d.]+ V$/.test(text)).map((text) => Number(text.replace("−", "-").replace(" V", ""))); // prettier-ignore
      const [top = 0, device = 0, wire = 0, ...loads] = figures;
      assert.ok(device < 0 && wire < 0 && loads.length > 0, figures.join(" "));
      // Four figures, each rounded to a tenth or a hundredth.
      for (const load of loads) assert.ok(Math.abs(top + device + wire - load) <= 0.05 + 0.05 + 0.005 + 0.005, `${circuit}: ${figures.join(" ")}`); // prettier-ignore
    }
  });

  test("without a state there are no volts, but the drop at worst, as the schedule has it", () => {
    const scene = drawStrip(build, "W13", { variant: "iec", state: null });
    const drop = build.design.circuits.find(({ id }) => id === "W13")?.dropShare ?? 0;
    assert.ok(wordsOf(scene).includes(`${(100 * drop).toFixed(1)} %`));
  });

  test("a circuit that the plan does not have is said", () => {
    assert.deepEqual(wordsOf(drawStrip(build, "W99", { variant: "iec", state: null })), ["the plan has no circuit W99"]); // prettier-ignore
  });
});
