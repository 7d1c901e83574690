import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../../../src/plan/index.ts";
import { studySwitching, type SwitchingGroup } from "../../../src/switching/index.ts";
import { kinds, resolveSystem, type System } from "../../../src/system/index.ts";
import { mutants, mutantText } from "./planted.ts";
import type { Holds } from "./walk.ts";

// The study of positions against ways that were found by hand: it reaches each fault, in as many actions.

const systemOf = (text: string): System => resolveSystem(readPlan(text, kinds).value, kinds).value;

/** Whether it holds in a group, of a part. */
function holdsIn(holds: Holds, part: string, system: System, group: SwitchingGroup): boolean {
  const isOf = (...ids: readonly string[]): boolean =>
    ids.some((id) => id === part || system.elements.some((e) => e.id === id && e.part === part));
  const joinsOf = (joins: SwitchingGroup["islands"][number]): boolean =>
    isOf(...joins.sources, ...joins.joins.map((j) => j.part));
  switch (holds) {
    case "doubled":
      return group.islands.some((i) => i.joinsLow >= 2 && joinsOf(i));
    case "may be doubled":
      return group.islands.some((i) => i.joinsHigh >= 2 && joinsOf(i));
    case "missing":
      return group.islands.some((i) => i.joinsHigh === 0 && joinsOf(i));
    case "may be missing":
      return group.islands.some((i) => i.joinsLow === 0 && joinsOf(i));
    case "parallel":
      return group.parallel.some(({ sources }) => isOf(...sources));
    case "may add":
      return group.adds.some(({ source }) => isOf(source));
    case "common neutral":
      return group.commonNeutral.length > 0;
    case "live pins":
      return group.livePins.some(({ source }) => isOf(source));
    case "own charge":
      return group.ownCharge.some(({ charger }) => isOf(charger));
    case "skipped":
      return group.takers.some((t) => isOf(t.taker) && t.state === "fed" && t.guards.length === 0);
    case "doubled and feeding":
    case "missing and feeding":
    case "overlap":
      return false;
  }
}

for (const mutant of mutants) {
  const ways = mutant.must.filter(({ way }) => way !== undefined);
  if (ways.length === 0) continue;
  test(mutant.name, () => {
    const system = systemOf(mutantText(mutant));
    const { study } = studySwitching(system);
    assert.equal(study.tooLarge, null);
    for (const { rule, about, holds, way = [] } of ways) {
      if (holds === undefined) continue;
      const part = about.replace("parts.", "");
      const actions =
        holds === "overlap"
          ? study.transients.filter((t) => t.mover === part).map((t) => t.actions)
          : study.groups.filter((g) => holdsIn(holds, part, system, g)).map((g) => g.actions);
      // A switch with takers alone behind it counts as on there: what it takes to close it is not told.
      const leaves = study.leaves.filter(({ mover }) => way.includes(`${mover} on`)).length;
      assert.equal(Math.min(...actions), way.length - leaves, `${rule}: ${holds}`);
    }
  });
}
