import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";
import { holdSizes } from "./hold-sizes.ts";
import { whatIf } from "./what-if.ts";

const textOf = (name: string): string =>
  readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");

describe("sizes that are held", () => {
  for (const name of ["sloop", "sloop-us", "sloop-audit", "van", "hut"])
    test(`${name}: every circuit keeps its size, and the plan has no new message`, () => {
      const text = textOf(name);
      const before = compile(text);
      const after = compile(holdSizes(text, before));
      const sizes = ({ design }: typeof before) => design.circuits.map(({ id, size }) => [id, size?.label]);
      assert.deepEqual(sizes(after), sizes(before));
      assert.ok(after.design.circuits.every(({ outcome }) => outcome !== "chosen"));
      assert.deepEqual(
        after.diagnostics.map(({ id }) => id),
        before.diagnostics.map(({ id }) => id),
      );
    });

  test("with an empty bank the fridge gets less, and its wire stays as it lies", () => {
    const text = textOf("sloop");
    const compiled = compile(text);
    const empty = whatIf(text, compiled, { state: "at anchor", battery: 0.02 });
    assert.ok(empty.ok);
    const fridge = (plan: typeof compiled) => plan.design.circuits.find(({ id }) => id === "W13");
    const free = fridge(compile(empty.text));
    const held = fridge(compile(holdSizes(empty.text, compiled)));
    assert.equal(held?.size?.label, fridge(compiled)?.size?.label);
    assert.notEqual(free?.size?.label, held?.size?.label); // let go it would grow, which is no answer to the question
    assert.ok((held?.startVolts ?? 0) < (fridge(compiled)?.startVolts ?? 0));
  });
});
