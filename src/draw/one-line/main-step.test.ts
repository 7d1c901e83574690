import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../../compile.ts";
import { shapeBox } from "../shape-box.ts";
import { drawOneLine } from "./index.ts";

const van = readFileSync(join(import.meta.dirname, "../../../examples/van.yaml"), "utf8");

test("the main device of a board is drawn in the line of its feed, and not before a section that something else feeds", () => {
  const { plan, system, runs, design } = compile(van);
  const [sheet] = drawOneLine({ plan, system, runs, design, findings: [] }, { paper: "A4", variant: "na" });
  const items = sheet?.items ?? [];
  const mains = items.filter(({ name }) => name === "main device of ACP, 30 A");
  assert.equal(mains.length, 1);
  const rowOf = (about: string): readonly number[] =>
    items
      .filter((item) => item.role === "wire" && item.about === about)
      .flatMap(({ shapes }) => shapes.map((shape) => shapeBox(shape)[1][1]));
  const [main] = mains.flatMap(({ shapes }) => shapes.map((shape) => shapeBox(shape)));
  const isIn = (about: string): boolean => rowOf(about).some((y) => main !== undefined && main[0][1] - 2 < y && y < main[1][1] + 2); // prettier-ignore
  assert.deepEqual([isIn("circuits.W20"), isIn("circuits.W22")], [true, false]);
});
