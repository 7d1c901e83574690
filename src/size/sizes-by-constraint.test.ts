import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import { createPlanMemory, readPlan } from "../plan/index.ts";
import { routeRuns } from "../route/index.ts";
import { ruleSets } from "../ruleset/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { settleDesign } from "./make-design.ts";
import { sizesByConstraint } from "./sizes-by-constraint.ts";

/*
 * The three examples under every set: what each constraint alone asks for, and all of them. Where the plan leaves a wire of a tree to be
 * chosen it is the largest of those, since it needs no more than each asks for with all else as it is.
 */
const SETS = ruleSets.map((s) => s.id);

for (const name of ["sloop", "van", "hut"]) {
  const written = readFileSync(join(import.meta.dirname, `../../examples/${name}.yaml`), "utf8");
  test.each(SETS)(`${name} by each constraint and by all under %s`, (set) => {
    const text = written.replace(/^ {2}(DC|DC24): [a-z]+-[a-z-]+.*$/gm, `  $1: ${set}`);
    const system = resolveSystem(readPlan(text, kinds, createPlanMemory()).value, kinds).value;
    const { design, settled } = settleDesign(system, routeRuns(system).value);
    const rows = sizesByConstraint(design);
    assert.ok(rows.length > 0, "some circuits can be told");
    const areas = new Map(
      settled.model.circuits.flatMap(
        (c) => c.rungs?.ladder.makes.map((m) => [m.size.label, m.size.areaMm2] as const) ?? [],
      ),
    );
    let compared = 0;
    for (const { circuit, alone, all } of rows) {
      const model = settled.model.circuits.find((c) => c.circuit.id === circuit);
      const own = design.circuits.find((c) => c.id === circuit);
      if (model?.radial !== true || model.children.length > 0 || own?.outcome !== "chosen" || own.nothingIsEnough)
        continue;
      const asked = Object.values(alone).map((label) => areas.get(label ?? "") ?? Infinity);
      assert.equal(areas.get(all), Math.max(...asked), `${circuit}: ${JSON.stringify(alone)}, all ${all}`);
      compared++;
    }
    assert.ok(compared > 0);
  });
}
